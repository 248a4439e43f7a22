// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/batch.hpp"
#include "areo/wording/compare.hpp"
#include "areo/wording/correction_changes.hpp"
#include "text/json_dump.hpp"

namespace areo::wording {
namespace {

const char* word(trend::Verdict v) {
  switch (v) {
    case trend::Verdict::different: return "different";
    case trend::Verdict::same: return "same";
    case trend::Verdict::not_told_apart: break;
  }
  return "not_told_apart";
}

std::string pair_json(const ComparedPair& p, const std::optional<double>& within,
                      const std::vector<std::string>& notes) {
  const uncertainty::Value& d = p.c.difference;
  return text::dump({{"compare", text::Json::array({p.a->key, p.b->key})},
                     {"verdict", word(p.c.verdict)},
                     {"difference_percent_vol", text::number_json(d.estimate)},
                     {"standard_uncertainty", text::number_json(d.u)},
                     {"expanded_uncertainty", text::number_json(d.expanded())},
                     {"within_percent_vol", text::number_json(within)},
                     {"detectable_percent_vol", text::number_json(p.c.detectable)},
                     {"apart_s", p.apart_s()},
                     {"notes", notes}});
}

}  // namespace

void each_comparison_json(std::span<batch::Batch* const> batches,
                          const std::vector<ComparedReading>& all,
                          const std::vector<ComparedPair>& pairs,
                          const std::optional<double>& within,
                          const std::function<void(const std::string&)>& line) {
  for (const ComparedReading& c : all)
    for (batch::Batch* batch : batches)
      if (batch->record().name == c.batch) line(point_json(*batch, c.point));
  const std::vector<std::string> rounding = notes_on_rounding(batches);
  for (const ComparedPair& p : pairs) {
    std::vector<std::string> notes = notes_on_odd({*p.a, *p.b});
    for (const auto& more : {rounding, notes_on_corrections(batches, {&p, 1})})
      notes.insert(notes.end(), more.begin(), more.end());
    line(pair_json(p, within, notes));
  }
}

}  // namespace areo::wording
