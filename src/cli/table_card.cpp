// SPDX-License-Identifier: GPL-3.0-or-later
// areo table card: what to do with the readings of one instrument, to hang by the jar.
#include <fmt/format.h>

#include <memory>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/paper/card.hpp"
#include "extract_options.hpp"
#include "failure.hpp"
#include "reading_options.hpp"
#include "sheet.hpp"
#include "table.hpp"

namespace areo::cli {
namespace {

struct Options {
  std::string name, at;
  paper::CardSides sides;
  entry::ExtractWords extract;
  SheetOptions sheet;
};

void refuse(bool given, const char* option, const char* why) {
  if (given) throw UsageError{fmt::format("{} does nothing here: {}", option, why), "leave it out"};
}

// Options that this kind of instrument has no use for.
void refuse_useless(const Options& o, const notebook::InstrumentRecord& r) {
  if (r.hydrometer() == nullptr)
    refuse(!o.sides.alcohol.empty(), "--alcohol", "it is for hydrometers");
  if (r.refractometer() == nullptr) {
    refuse(!o.extract.extract.empty(), "--extract", "it is for refractometers");
    refuse(!o.extract.liquid.empty(), "--liquid", "it is for refractometers");
  } else if (r.refractometer()->compensated) {
    for (const auto& [text, option] : {std::pair{&o.sides.coldest, "--coldest"},
                                       {&o.sides.warmest, "--warmest"},
                                       {&o.sides.step, "--step"}})
      refuse(!text->empty(), option, "the refractometer is temperature-compensated");
  }
  if (r.thermometer() != nullptr)
    refuse(!o.sides.readings.empty(), "--readings",
           "of a thermometer say --coldest, --warmest, --step");
}

int run_card(const Options& o, const Session& session) {
  entry::ReadingResolver resolver = reading_resolver(session, {});
  const notebook::Notebook& book = resolver.notebook();
  const Moment at = o.at.empty() ? now() : past_day_end_from_text(o.at, now());
  const paper::CardSubject subject = paper::card_subject(book, book.instrument(o.name), at);
  refuse_useless(o, subject.record);
  const paper::Card card = paper::card_of(subject, o.sides, resolver.extract(o.extract));
  if (session.json) raw_line(paper::card_json(card));
  return write_grid(card.grid, o.sheet, session);
}

}  // namespace

void setup_table_card(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto t = tables.add_subcommand("card", "one instrument on one sheet, to hang by the jar");
  t.add_option("name", o->name, "instrument in the notebook").required();
  t.add_option("--at", o->at, "as of this day: the calibration in force, and whether it is due")
      .date();
  t.add_option("--coldest", o->sides.coldest, "first row; 10C unless stated, 0C of a thermometer")
      .temperature();
  t.add_option("--warmest", o->sides.warmest,
               "last row; 34C unless stated, 30C of a refractometer, 100C of a thermometer")
      .temperature();
  t.add_option("--step", o->sides.step, "between rows; 2C unless stated, 10C of a thermometer")
      .type_name("2C");
  t.add_option("--readings", o->sides.readings, "columns; a handful of usual places unless stated")
      .type_name("1.000,1.050,...");
  t.add_option("--alcohol", o->sides.alcohol, "of the drink, % vol; none unless stated")
      .type_name("5");
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
