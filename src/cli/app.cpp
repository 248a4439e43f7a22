// SPDX-License-Identifier: GPL-3.0-or-later
#include "app.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <csignal>
#include <cstdio>
#include <exception>
#include <string>
#include <string_view>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/core/version.hpp"
#include "areo/wording/failure.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "help.hpp"
#include "open_notebook.hpp"
#include "screen.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

void print_error(const std::string& text) { std::fwrite(text.data(), 1, text.size(), stderr); }

// Also when the call could not be taken apart: programs always get an object.
bool asked_for_json(int argc, const char* const* argv) {
  const auto* const end = std::find(argv, argv + argc, std::string_view{"--"});
  return std::find(argv, end, std::string_view{"--json"}) != end;
}

// Takes the call apart, does what it asks and makes sure that the output arrived.
int call(CLI::App& app, const Run& chosen, const Session& session, int argc,
         const char* const* argv) {
  const std::vector<std::string> words = guarded(argc, argv);
  try {
    std::vector<const char*> pointers;
    pointers.reserve(words.size());
    for (const std::string& word : words) pointers.push_back(word.c_str());
    app.parse(static_cast<int>(pointers.size()), pointers.data());
  } catch (const CLI::ParseError& e) {
    if (e.get_exit_code() != 0) throw usage_error(app, e, words.back());
    app.exit(e);  // --help, --version
    finish_output();
    return done;
  }
  refuse_empty_options(app);
  for (const std::string& echo : session.usual->echoes()) error_line("note: " + echo);
  const int code = chosen();
  try {
    finish_output();
  } catch (const Error& e) {
    if (!*session.noted) throw;
    throw Error{e.code, fmt::format("it is noted, but {}", e.what()),
                "do not type it again; areo batch list shows what is there"};
  }
  return code;
}

int run(int argc, const char* const* argv) {
  Session session;
  session.book = notebook_to_read(session);
  session.usual = std::make_shared<entry::UsualUnits>(session.book);
  Run chosen;
  CLI::App app{
      "areo: readings of a hydrometer, a refractometer and a thermometer, corrected, converted, "
      "with their uncertainty"};
  app.name("areo");
  app.formatter(help_formatter());
  app.require_subcommand(1);
  app.fallthrough();
  app.set_version_flag("--version", fmt::format("areo {} (tables {})", version, tables_digest));
  const Command tree{&app, session.usual.get()};
  tree.add_option("--notebook", session.notebook,
                  "file of the notebook; $AREO_NOTEBOOK unless stated")
      .type_name("FILE");
  tree.add_flag("--json", session.json, "one JSON object per line");
  tree.add_flag("--full", session.full, "more digits than the uncertainty supports");
  for (const auto setup :
       {setup_convert,    setup_correct,   setup_refract,     setup_alcohol, setup_solution,
        setup_instrument, setup_calibrate, setup_certificate, setup_liquid,  setup_batch,
        setup_reading,    setup_addition,  setup_at_bench,    setup_trend,   setup_compare,
        setup_bottle,     setup_report,    setup_import,      setup_export,  setup_table,
        setup_settings})
    setup(tree, session, chosen);
  setup_budget(tree, session, chosen);
  try {
    return call(app, chosen, session, argc, argv);
  } catch (const UsageError& e) {
    std::fflush(stdout);
    print_error(asked_for_json(argc, argv) ? failure_json(e) + "\n" : failure_text(e));
    return usage;
  } catch (const Error& e) {
    std::fflush(stdout);
    print_error(session.json ? wording::failure_json(e) + "\n"
                             : wording::failure_text(e, screen_columns()));
    return exit_code(e);
  }
}

}  // namespace

int run_app(int argc, const char* const* argv) noexcept {
  std::signal(SIGXFSZ, SIG_IGN);  // a file that may not grow is told like a full disk
  try {
    return run(argc, argv);
  } catch (const std::exception& e) {
    std::fprintf(stderr, "areo: defect: %s\nhint: please report what you did\n", e.what());
  } catch (...) {
    std::fputs("areo: defect: an unknown failure\n", stderr);
  }
  return defect;
}

}  // namespace areo::cli
