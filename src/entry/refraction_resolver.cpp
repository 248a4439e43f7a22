// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/refraction_resolver.hpp"

#include <fmt/format.h>

#include <utility>

#include "areo/instruments/bare_number.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/parse_refraction.hpp"
#include "areo/wording/strength.hpp"

namespace areo::entry {

using measurement::AlcoholResult;
using measurement::note::Said;

namespace {

// The hydrometer that original gravities, and gravities of the same sample, were read with.
ReadingOptions hydrometer_options(const RefractionTools& o) {
  ReadingOptions with = o.with;
  with.instrument = o.hydrometer;
  with.refractometer = false;
  with.division.clear();
  if (with.instrument.empty() && with.thermometer.empty()) {
    with.at.clear();
    with.interpolate = false;
  }
  return with;
}

void prepend(AlcoholResult& a, const std::vector<std::string>& echoes) {
  std::vector<measurement::Note> all;
  all.reserve(echoes.size() + a.result.notes.size());
  for (const std::string& e : echoes) all.emplace_back(Said{e});
  for (measurement::Note& n : a.result.notes) all.push_back(std::move(n));
  a.result.notes = std::move(all);
}

// One temperature for both readings is a claim that the reader should see.
void note_same_temperature(const TypedSample& t, const std::string& own, const char* of,
                           std::vector<std::string>& notes) {
  if (own == t.temperature && !own.empty())
    notes.push_back(fmt::format("{} read at {}, as the present refraction", of, own));
}

}  // namespace

RefractionResolver::RefractionResolver(const RefractionTools& o, ReadingResolver prism)
    : prism_{std::move(prism)},
      stem_{prism_.book(), hydrometer_options(o)},
      kind_{prism_.extract(o.extract)},
      culture_{wording::culture_from_text(o.culture)},
      named_prism_{!o.with.instrument.empty()},
      stem_in_brix_{!o.hydrometer.empty() &&
                    stem_.hydrometer(o.hydrometer).hydrometer.scale == physics::brix_20} {}

TakenRefraction RefractionResolver::refraction(const TypedSample& t) {
  TakenRefraction taken = prism_.take_refraction(t.reading, t.temperature);
  taken.sample.reading = one_reading(taken.sample.reading);
  return taken;
}

measurement::HydrometerSample RefractionResolver::gravity(const std::string& reading,
                                                          const std::string& temperature,
                                                          std::vector<std::string>& notes) {
  const TakenReading taken = stem_.take(reading, temperature);
  if (!taken.echo.empty()) notes.push_back("gravity " + taken.echo);
  return {taken.instrument, taken.reading};
}

measurement::OriginalSample RefractionResolver::original(const TypedSample& t,
                                                         std::vector<std::string>& notes) {
  if (!by_refractometer(t.original)) return gravity(t.original, t.original_temperature, notes);
  const TakenRefraction taken = prism_.take_refraction(t.original, t.original_temperature);
  // Whether it is compensated was said of the present reading already.
  if (!taken.echo.empty() && !taken.compensation_assumed) notes.push_back("original " + taken.echo);
  return taken.sample;
}

bool RefractionResolver::by_refractometer(const std::string& text) const {
  const text::TypedNumber n = text::number_with_unit(text, "an original reading");
  if (text::says_brix(n.unit)) return !stem_in_brix_;
  if (text::says_index(n.unit)) return true;
  return n.unit.empty() && named_prism_ && !instruments::may_be_gravity(n.value);
}

AlcoholResult RefractionResolver::fermenting(const TypedSample& t) {
  const TakenRefraction present = refraction(t);
  std::vector<std::string> echoes;
  note_same_temperature(t, t.original_temperature, "original", echoes);
  if (!present.echo.empty()) echoes.push_back(present.echo);
  const auto first = original(t, echoes);
  AlcoholResult a = measurement::refract_fermenting(present.sample, first, kind_, culture_);
  prepend(a, echoes);
  return a;
}

AlcoholResult RefractionResolver::paired(const TypedSample& t) {
  const TakenRefraction taken = refraction(t);
  std::vector<std::string> echoes;
  if (!taken.echo.empty()) echoes.push_back(taken.echo);
  note_same_temperature(t, t.gravity_temperature, "gravity", echoes);
  auto stem = gravity(t.gravity, t.gravity_temperature, echoes);
  stem.reading = one_reading(stem.reading);
  AlcoholResult a = measurement::refract_with_hydrometer(taken.sample, stem, kind_);
  prepend(a, echoes);
  return a;
}

measurement::Result RefractionResolver::unfermented(const TakenRefraction& taken,
                                                    const std::vector<physics::Scale>& to) const {
  measurement::Result r = measurement::refract(taken.sample, kind_, to);
  if (!taken.echo.empty()) r.notes.insert(r.notes.begin(), Said{taken.echo});
  return r;
}

}  // namespace areo::entry
