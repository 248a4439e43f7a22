// SPDX-License-Identifier: GPL-3.0-or-later
// A card put together: its table, its words, and the same for programs.
#include <fmt/format.h>

#include <utility>

#include "areo/paper/card.hpp"
#include "areo/wording/instrument.hpp"
#include "card_grid.hpp"
#include "text/json_dump.hpp"

namespace areo::paper {

using text::Json;
using text::number_json;

Card card_of(const CardSubject& s, const CardSides& sides, const measurement::ExtractKind& kind) {
  Grid g = card_grid(s, sides, kind);
  g.title = s.record.name();
  g.called = "the card of " + s.record.name();
  auto offsets = card_offsets(s, kind, readings_of(g));
  g.headline = card_headline(s, offsets);
  for (std::string& text : check_lines(s)) g.notes.push_back(std::move(text));
  g.models.insert(g.models.begin(),
                  {fmt::format("card of {}", s.at.date()), wording::instrument_text(s.record)});
  if (s.contradicted) g.doubt = "if it were within one division, which its own checks deny";
  g.doubt_of = DoubtOf::entry;
  g.for_the_wall = true;
  g.smooth = false;
  return {s, std::move(offsets), std::move(g)};
}

std::string card_json(const Card& card) {
  const CardSubject& s = card.subject;
  const auto& c = s.calibration;
  const auto moment = [](const std::optional<Moment>& m) { return m ? Json(m->text()) : Json{}; };
  Json offsets = Json::array();
  for (const CardOffset& o : card.offsets)
    offsets.push_back({{"reading", number_json(o.reading)},
                       {"value", number_json(o.correction.estimate)},
                       {"standard_uncertainty", number_json(o.correction.u)},
                       {"expanded_uncertainty", number_json(o.correction.expanded())},
                       {"unit", wording::unit_of(s.record)}});
  return text::dump({{"card", s.record.name()},
                     {"kind", s.record.kind()},
                     {"description", wording::instrument_text(s.record)},
                     {"as_of", s.at.text()},
                     {"offsets", std::move(offsets)},
                     {"checks", s.checks.size()},
                     {"in_force_from", moment(c ? std::optional{c->in_force_from} : std::nullopt)},
                     {"due", moment(c ? c->due : std::nullopt)},
                     {"overdue", s.overdue()},
                     {"words", card.grid.headline.lines}});
}

}  // namespace areo::paper
