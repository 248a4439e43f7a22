// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/stream/alcohol_rows.hpp"

#include <memory>
#include <utility>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/entry/strength.hpp"
#include "areo/stream/rise_detector.hpp"
#include "areo/wording/strength.hpp"

namespace areo::stream {

using measurement::AlcoholResult;
using measurement::Fermentation;
using measurement::note::Said;

StreamJob alcohol_rows(entry::ReadingResolver& resolver, const AlcoholDefaults& o,
                       const std::optional<wording::Limit>& limit) {
  (void)wording::culture_from_text(o.culture);
  for (const std::string& t : {o.temperature, o.original_temperature, o.present_temperature})
    entry::require_temperature(t);
  StreamJob job;
  job.needed = {"original", "present"};
  job.known = {"temperature", "original_temperature", "present_temperature", "culture"};
  job.results = {
      "alcohol_percent_vol",      "alcohol_percent_mass",     "original_extract_percent",
      "real_extract_percent",     "apparent_extract_percent", "apparent_attenuation_percent",
      "real_attenuation_percent", "energy_kj_per_100_ml",     "rule_of_thumb_percent_vol",
      "sg_20_20_original",        "sg_20_20_present"};
  job.facts = {"state"};
  job.facts.insert(job.facts.end(), wording::bound_keys.begin(), wording::bound_keys.end());
  if (limit)
    job.facts.insert(job.facts.end(), wording::limit_keys.begin(), wording::limit_keys.end());
  job.compute = [&resolver, o, limit,
                 rises = std::make_shared<RiseDetector>()](const RowView& row) {
    const auto temperature = [&](const char* column, const std::string& own) {
      for (const std::string& t : {row[column], row["temperature"], own})
        if (!t.empty()) return t;
      return o.temperature;
    };
    if (row["original"].empty())
      throw Error{Errc::inconsistent, "no original gravity, so no figure for the alcohol"};
    const entry::TakenOriginal original = entry::taken_original(resolver.take(
        row["original"], temperature("original_temperature", o.original_temperature)));
    const std::string own = row["culture"];
    const entry::TakenReading present =
        resolver.take(row["present"], temperature("present_temperature", o.present_temperature));
    const ferment::Culture culture = wording::culture_from_text(own.empty() ? o.culture : own);
    AlcoholResult a = entry::strength(original, present, culture);
    std::vector<text::ExtraField> facts{{wording::word(a.state)}};
    for (text::ExtraField& f : wording::bound_facts(a, wording::bound_beside(limit)))
      facts.push_back(std::move(f));
    if (limit && a.has_strength()) {
      const auto decision = analysis::decide_strength(a, limit->percent_vol, limit->level);
      a.result.notes.emplace_back(Said{wording::verdict_text(*limit, a, decision)});
      for (text::ExtraField& f : wording::limit_facts(*limit, decision))
        facts.push_back(std::move(f));
    }
    if (a.state == Fermentation::above)
      a.result.notes.emplace_back(
          Said{"present above original: bubbles, swapped or misread, temperature, sugar added, "
               "layers?"});
    rises->flag(row, row["original"], a.result, "sg_20_20_present");
    if (!a.has_bound_only()) return RowOutcome{std::move(a.result), std::move(facts)};
    a.result.notes.emplace_back(
        Said{"alcohol " + wording::below_text(a, wording::bound_beside(limit))});
    return RowOutcome{std::move(a.result), std::move(facts), wording::rests_on_strength()};
  };
  return job;
}

}  // namespace areo::stream
