// A card put together: its table, its words, and the same for programs.
#include <fmt/format.h>

#include <utility>

#include "areo/paper/card.hpp"
#include "areo/text/json.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/instrument.hpp"
#include "card_grid.hpp"

namespace areo::paper {

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
  std::string offsets;
  for (const CardOffset& o : card.offsets)
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
      c ? wording::moment_json(c->due) : "null", s.overdue(),
      text::json_list(card.grid.headline.lines));
}

}  // namespace areo::paper
