// SPDX-License-Identifier: GPL-3.0-or-later
// areo trend: what a ferment did, what it does, and where it leads.
#include <fmt/format.h>

#include <memory>

#include "areo/document/plot.hpp"
#include "areo/measurement/ferments.hpp"
#include "areo/paper/gravity_plot.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/correction_changes.hpp"
#include "areo/wording/strength.hpp"
#include "areo/wording/trend.hpp"
#include "areo/wording/trend_json.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

using batch::Batch;
using batch::Point;
using trend::History;
using trend::Passing;

struct Options {
  std::string name, bottle, expected, limit, level;
  bool plot = false, all = false;
};

void print_points(const History& h, bool full) {
  table(wording::point_rows(h, h.shown, full),
        2);  // extract and attenuation follow from what stands before
  line(fmt::format("  {}", wording::column_level));
  if (const std::string more = wording::not_shown_text(h.readings, h.shown.size()); !more.empty())
    line("  " + more);
}

// Of many readings some stand for the others, which are not computed.
std::string since_text(const History& h) {
  return h.readings == h.points.size() ? fmt::format("{} of them count", h.counted.size())
                                       : fmt::format("it was read {} times", h.readings_since);
}

void print_plot(const History& h) {
  const document::Plot plot = paper::gravity_plot(h);
  if (plot.points.empty()) return;
  for (const std::string& text : document::text_plot(plot)) line("  " + text);
  line(fmt::format("  o reading, | its uncertainty{}",
                   plot.curve ? ", . a curve through them" : ""));
}

// The first line as a headline, the others below it.
void print_below(const std::string& headline, const std::vector<std::string>& lines) {
  for (std::size_t i = 0; i < lines.size(); ++i) line((i == 0 ? headline : "  ") + lines[i]);
}

int run_trend(const Options& o, const Session& session) {
  refuse_together(session.json, "--json", o.plot, "--plot",
                  "a program draws its own: leave --plot out");
  refuse_level_alone(o.limit, o.level);
  const auto expected = text::expected_end_from_text(o.expected);
  const auto limit = wording::limit_from_text(o.limit, o.level);
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  Batch batch{book, o.name};
  batch::require_bottle(batch, o.bottle);
  History h = trend::history_of(batch, o.bottle, o.all ? trend::Shown::all : trend::Shown::few);
  trend::require_possible_end(batch, o.bottle, h, expected);
  (void)wording::note_corrections(batch, h.points);
  std::optional<Passing> passing;
  if (limit) passing = trend::passing_of(batch, h, limit->percent_vol, limit->level);
  if (session.json) {
    wording::each_trend_json(batch, o.bottle, h, expected, passing, raw_line);
    return done;
  }
  line(wording::batch_text(batch.record()) + (o.bottle.empty() ? "" : "; bottle " + o.bottle));
  print_points(h, session.full);
  if (h.since > 0)
    line("  since the last addition " +
         (h.series.size() == 0 ? std::string{"nothing could be computed"} : since_text(h)));
  if (o.plot) print_plot(h);
  line("state: " + wording::state_text(h, expected));
  print_below("outlook: ", wording::outlook_lines(h, session.full));
  if (passing) {
    print_below("", wording::passing_lines(batch, h, *passing));
    if (limit->named != nullptr) line("  " + wording::named_text(*limit->named));
  }
  notes(wording::odd_notes(h));
  notes(wording::notes_of(h.points));
  line(wording::basis_line(wording::basis_text(batch.record().culture)));
  if (h.state.phase == trend::Phase::steady) line(wording::steady_caution);
  line("next: " + wording::next_text(h, expected, batch.record().name));
  return done;
}

}  // namespace

void setup_trend(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("trend", "what a ferment did, what it does, and where it leads");
  c.add_option("name", o->name, "the batch").required();
  c.add_option("--bottle", o->bottle, "of which bottle; the batch as a whole unless stated")
      .type_name("NAME");
  c.add_option("--expected", o->expected, "where it should end: steady above it is stuck")
      .type_name("1.008");
  c.add_option("--limit", o->limit,
               "when it passed, or will pass, so much alcohol, or a named limit")
      .type_name("0.5");
  c.add_option("--level", o->level, "how sure to be on each side of the limit; 95 unless stated")
      .type_name("95%");
  c.add_flag("--plot", o->plot, "the readings and a curve through them, drawn in characters");
  c.add_flag("--all", o->all, "every reading; of more than 60 one a day is shown unless stated");
  c.footer(
      "Examples:\n  areo trend PT-1 --plot\n  areo trend PT-1 --bottle A --expected 1.004\n"
      "  areo trend PT-1 --limit 0.5");
  c.callback([=, &session, &run] { run = [=, &session] { return run_trend(*o, session); }; });
}

}  // namespace areo::cli
