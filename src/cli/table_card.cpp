// areo table card: what to do with the readings of one instrument, to hang by the jar.
#include <fmt/format.h>

#include <memory>

#include "areo/core/error.hpp"
#include "areo/text/json.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/instrument.hpp"
#include "card_grid.hpp"
#include "extract_options.hpp"
#include "reading_options.hpp"
#include "table.hpp"

namespace areo::cli {
namespace {

// The card without its table; the cells follow as objects of their own.
std::string head_json(const CardSubject& s, const std::vector<CardOffset>& all,
                      const document::Headline& headline) {
  std::string offsets;
  for (const CardOffset& o : all)
    offsets +=
        fmt::format(R"({}{{"reading":{},"value":{},"standard_uncertainty":{},)"
                    R"("expanded_uncertainty":{},"unit":{}}})",
                    offsets.empty() ? "" : ",", o.reading, o.correction.estimate, o.correction.u,
                    o.correction.expanded(), text::json_string(wording::unit_of(s.record)));
  const auto& c = s.calibration;
  return fmt::format(
      R"({{"card":{},"kind":"{}","description":{},"as_of":"{}","offsets":[{}],"checks":{},)"
      R"("in_force_from":{},"due":{},"overdue":{},"words":{}}})",
      text::json_string(s.record.name()), s.record.kind(),
      text::json_string(wording::instrument_text(s.record)), s.at.text(), offsets, s.checks.size(),
      c ? wording::moment_json(c->in_force_from) : "null",
      c ? wording::moment_json(c->due) : "null", s.overdue(), text::json_list(headline.lines));
}

void refuse_retired(const notebook::Notebook& book, const notebook::InstrumentRecord& r,
                    Moment at) {
  const auto retired = book.retired(r.id);
  if (retired && at >= retired->at)
    throw Error{Errc::inconsistent,
                fmt::format("{} retired on {}: {}", r.name(), retired->at.date(), retired->reason),
                "no card for what is used no more; areo instrument list shows the others"};
}

int run_card(const CardOptions& o, const Session& session) {
  entry::ReadingResolver resolver = reading_resolver(session, {});
  const Moment at = o.at.empty() ? now() : past_day_end_from_text(o.at, now());
  const notebook::InstrumentRecord record = resolver.notebook().instrument(o.name);
  refuse_retired(resolver.notebook(), record, at);
  const CardSubject s = card_subject(resolver.notebook(), record, at);
  Grid g = card_grid(s, o, resolver);
  g.title = record.name();
  g.called = "the card of " + record.name();
  const auto offsets = card_offsets(s, o, resolver, readings_of(g));
  g.headline = card_headline(s, offsets);
  for (std::string& text : check_lines(s)) g.notes.push_back(std::move(text));
  g.models.insert(g.models.begin(),
                  {fmt::format("card of {}", at.date()), wording::instrument_text(record)});
  if (s.contradicted) g.doubt = "if it were within one division, which its own checks deny";
  g.doubt_of = DoubtOf::entry;
  g.for_the_wall = true;
  g.smooth = false;
  if (session.json) raw_line(head_json(s, offsets, g.headline));
  return write_grid(g, o.sheet, session);
}

}  // namespace

void setup_table_card(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<CardOptions>();
  auto t = tables.add_subcommand("card", "one instrument on one sheet, to hang by the jar");
  t.add_option("name", o->name, "instrument in the notebook").required();
  t.add_option("--at", o->at, "as of this day: the calibration in force, and whether it is due")
      .type_name("DATE");
  t.add_option("--coldest", o->coldest, "first row; 10C unless stated, 0C of a thermometer")
      .type_name("TEMP");
  t.add_option("--warmest", o->warmest,
               "last row; 34C unless stated, 30C of a refractometer, 100C of a thermometer")
      .type_name("TEMP");
  t.add_option("--step", o->step, "between rows; 2C unless stated, 10C of a thermometer")
      .type_name("2C");
  t.add_option("--readings", o->readings, "columns; a handful of usual places unless stated")
      .type_name("1.000,1.050,...");
  t.add_option("--alcohol", o->alcohol, "of the drink, % vol; none unless stated").type_name("5");
  add_extract_options(t, o->extract);
  add_sheet_options(t, o->sheet);
  t.footer(
      "Examples:\n  areo table card stem-1\n  areo table card stem-1 --out stem-1.pdf\n"
      "  areo table card stem-1 --alcohol 5 --paper Letter --out stem-1.pdf\n"
      "  areo table card prism-1 --out prism-1.pdf");
  t.callback([=, &session, &run] {
    check_sheet_options(o->sheet, session);
    check_extract_options(o->extract);
    run = [=, &session] { return run_card(*o, session); };
  });
}

}  // namespace areo::cli
