// SPDX-License-Identifier: GPL-3.0-or-later
// areo settings: the units and the order of dates that the owner of a notebook is used to.
#include <memory>

#include "areo/wording/settings.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"

namespace areo::cli {
namespace {

struct Options {
  std::string name;
  std::vector<std::string> words;
};

notebook::Settings changed(const Options& o, const Session& session) {
  const std::string value = entry::setting_from_text(o.name, o.words);
  notebook::Notebook book = open_notebook(session, notebook::Open::create);
  book.set(o.name, value, now());
  return book.settings();
}

int run_settings(const Options& o, const Session& session) {
  const notebook::Settings kept =
      o.name.empty() ? session.book->get().settings() : changed(o, session);
  if (session.json) raw_line(wording::settings_json(kept));
  if (!session.json) lines(wording::settings_lines(kept));
  return done;
}

}  // namespace

void setup_settings(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("settings", "the units that you are used to, kept in the notebook");
  c.add_option("name", o->name, "temperature, mass, volume, pressure or dates; all unless stated");
  c.add_option("value", o->words,
               "C, F; g, oz, lb; L, US gal, UK gal; bar, kPa, psi; day first, "
               "month first; none takes it back")
      .expected(0, 3);
  c.footer(
      "A bare number is then in that unit, and temperatures are told in it.\n"
      "Examples:\n  areo settings temperature F\n  areo settings volume US gal\n"
      "  areo settings dates day first\n  areo settings mass none");
  c.callback([=, &session, &run] { run = [=, &session] { return run_settings(*o, session); }; });
}

}  // namespace areo::cli
