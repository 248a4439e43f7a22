#include "app.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <exception>
#include <string>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/core/nearest.hpp"
#include "areo/report/text.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "version.hpp"

namespace areo::cli {
namespace {

void print_error(const std::string& text) { std::fwrite(text.data(), 1, text.size(), stderr); }

// A word in the place of a command that is none.
std::string unknown_command(const CLI::App& app, int argc, const char* const* argv) {
  std::vector<std::string> names;
  for (const CLI::App* c : app.get_subcommands({})) names.push_back(c->get_name());
  for (int i = 1; i < argc; ++i) {
    const std::string word = argv[i];
    if (word.starts_with('-')) continue;
    if (std::find(names.begin(), names.end(), word) != names.end()) return {};
    const std::string near = nearest(word, names);
    return fmt::format(
        "areo: error: '{}' is not a command\nhint: {}\n", report::printable(word),
        near.empty() ? "areo --help lists them" : fmt::format("did you mean '{}'?", near));
  }
  return {};
}

int usage_failure(const CLI::App& app, const CLI::ParseError& e, int argc,
                  const char* const* argv) {
  if (e.get_exit_code() == 0) return app.exit(e);  // --help, --version
  const std::string unknown = unknown_command(app, argc, argv);
  print_error(!unknown.empty()
                  ? unknown
                  : fmt::format("areo: error: {}\nhint: areo COMMAND --help shows how\n",
                                report::printable(e.what())));
  return usage;
}

int failure(const Error& e, const Session& session) {
  print_error(session.json ? failure_json(e) + "\n" : failure_text(e));
  return exit_code(e);
}

int run(int argc, const char* const* argv) {
  Session session;
  Run chosen;
  CLI::App app{
      "areo: readings of a hydrometer and a thermometer, corrected, converted, with their "
      "uncertainty"};
  app.name("areo");
  app.require_subcommand(1);
  app.fallthrough();
  app.set_version_flag("--version", fmt::format("areo {} (tables {})", version, tables_digest));
  app.add_option("--notebook", session.notebook,
                 "file of the notebook; $AREO_NOTEBOOK unless stated")
      ->type_name("FILE");
  app.add_flag("--json", session.json, "one JSON object per line");
  app.add_flag("--full", session.full, "more digits than the uncertainty supports");
  for (const auto setup : {setup_convert, setup_correct, setup_alcohol, setup_solution,
                           setup_instrument, setup_calibrate, setup_table})
    setup(app, session, chosen);
  try {
    app.parse(argc, argv);
    const int code = chosen();
    finish_output();
    return code;
  } catch (const CLI::ParseError& e) {
    return usage_failure(app, e, argc, argv);
  } catch (const Error& e) {
    std::fflush(stdout);
    return failure(e, session);
  }
}

}  // namespace

int run_app(int argc, const char* const* argv) noexcept {
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
