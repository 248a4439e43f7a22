// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/stream/refract_rows.hpp"

#include <algorithm>
#include <memory>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/stream/rise_detector.hpp"
#include "areo/wording/strength_words.hpp"

namespace areo::stream {
namespace {

using entry::RefractionResolver;
using entry::TypedSample;
using measurement::AlcoholResult;
using measurement::Fermentation;
using measurement::note::Said;

RowOutcome row_outcome(RefractionResolver& samples, const TypedSample& t,
                       const std::vector<physics::Scale>& to) {
  if (t.original.empty() && t.gravity.empty())
    return {samples.unfermented(samples.refraction(t), to), {{"unfermented"}}};
  if (!t.original.empty() && !t.gravity.empty())
    throw Error{Errc::inconsistent, "an original and a gravity of the same sample are one too many",
                "keep the gravity in one row and the original in another"};
  AlcoholResult a = t.gravity.empty() ? samples.fermenting(t) : samples.paired(t);
  const wording::StrengthWords words =
      t.gravity.empty() ? wording::fermenting_words(samples.culture()) : wording::paired_words();
  if (a.state == Fermentation::above || a.state == Fermentation::contradiction)
    a.result.notes.emplace_back(Said{words.above});
  if (a.state == Fermentation::measured || a.state == Fermentation::above)
    return {std::move(a.result), {{wording::word(a.state)}}};
  if (a.state == Fermentation::contradiction) {
    // Nothing but the strength below zero, which is the contradiction, says anything.
    std::vector<std::string> others;
    for (const auto& q : a.result.quantities)
      if (q.key != "alcohol_percent_vol" && q.key != "sg_20_20_present") others.push_back(q.key);
    return {std::move(a.result), {{wording::word(a.state)}}, others};
  }
  std::vector<text::ExtraField> facts{{wording::word(a.state)}};
  for (text::ExtraField& f : wording::bound_facts(a)) facts.push_back(std::move(f));
  a.result.notes.emplace_back(Said{"alcohol " + wording::below_text(a)});
  return {std::move(a.result), std::move(facts), wording::rests_on_strength()};
}

}  // namespace

StreamJob refract_rows(RefractionResolver& samples, const RefractDefaults& o,
                       const std::vector<physics::Scale>& to) {
  entry::require_temperature(o.temperature);
  StreamJob job;
  job.needed = {"reading"};
  job.known = {"temperature", "original", "original_temperature", "gravity", "gravity_temperature"};
  job.results = {"extract_percent",
                 "correction",
                 "sg_20_20",
                 "alcohol_percent_vol",
                 "alcohol_percent_mass",
                 "original_extract_percent",
                 "real_extract_percent",
                 "apparent_extract_percent",
                 "apparent_attenuation_percent",
                 "real_attenuation_percent",
                 "energy_kj_per_100_ml",
                 "sg_20_20_original",
                 "sg_20_20_present"};
  for (const physics::Scale& s : to) job.results.push_back(physics::scale_key(s));
  job.facts = {"state"};
  job.facts.insert(job.facts.end(), wording::bound_keys.begin(), wording::bound_keys.end());
  job.compute = [&samples, o, to, rises = std::make_shared<RiseDetector>()](const RowView& row) {
    const auto first_of = [](const std::string& a, const std::string& b, const std::string& c) {
      return !a.empty() ? a : !b.empty() ? b : c;
    };
    const TypedSample t{row["reading"],
                        first_of(row["temperature"], o.temperature, ""),
                        first_of(row["original"], o.original, ""),
                        first_of(row["original_temperature"], o.original_temperature,
                                 first_of(row["temperature"], o.temperature, "")),
                        row["gravity"],
                        first_of(row["gravity_temperature"], row["temperature"], o.temperature)};
    RowOutcome out = row_outcome(samples, t, to);
    const auto& q = out.result.quantities;
    const auto gravity = std::find_if(q.begin(), q.end(), [](const auto& x) {
      return x.key == "sg_20_20_present" || x.key == "sg_20_20";
    });
    if (gravity != q.end()) rises->flag(row, t.original, out.result, gravity->key);
    return out;
  };
  return job;
}

}  // namespace areo::stream
