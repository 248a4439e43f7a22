// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/front/drink.hpp"

#include <fmt/format.h>

#include <utility>
#include <variant>

#include "areo/core/error.hpp"
#include "areo/measurement/original.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/notes.hpp"
#include "areo/wording/strength.hpp"

namespace areo {
namespace {

const Identity& identity_of(const SampleReading& reading) {
  return std::visit([](const auto& r) -> const Identity& { return r.identity(); }, reading);
}

measurement::OriginalSample sample_of(const SampleReading& reading) {
  return std::visit([](const auto& r) -> measurement::OriginalSample { return r.sample(); },
                    reading);
}

// Nothing that could be told of a drink is there, so there is none.
void require_a_drink(const measurement::AlcoholResult& a) {
  if (a.state == Fermentation::above) {
    const auto& read = a.result.quantities;  // original, then present
    throw Error{
        Errc::inconsistent,
        fmt::format("the present gravity, {}, is above the original, {}: no alcohol "
                    "follows from that",
                    text::value_text(read[1].value, ""), text::value_text(read[0].value, "")),
        "swapped or misread, bubbles, a wrong temperature, sugar added since, or layers "
        "that were not mixed"};
  }
  if (a.state == Fermentation::contradiction)
    throw Error{Errc::inconsistent,
                fmt::format("the two readings contradict each other: they would make {} of alcohol",
                            text::value_text(a.result.at("alcohol_percent_vol").value, "% vol")),
                "read both again, of one sample, without bubbles"};
}

// @param ferment  whose method, and whose extract
Drink drink(measurement::AlcoholResult a, const Identity& ferment) {
  require_a_drink(a);
  const detail::EvidenceOf evidence{a.result, ferment};
  return {Uncertain<StrengthByVolume>{evidence("alcohol_percent_vol")},
          Uncertain<StrengthByMass>{evidence("alcohol_percent_mass")},
          Uncertain<Gravity>{evidence("sg_20_20_original")},
          Uncertain<Gravity>{evidence("sg_20_20_present")},
          Uncertain<Plato>{evidence("original_extract_percent")},
          Uncertain<Plato>{evidence("real_extract_percent")},
          Uncertain<Plato>{evidence("apparent_extract_percent")},
          Uncertain<Attenuation>{evidence("apparent_attenuation_percent")},
          Uncertain<Attenuation>{evidence("real_attenuation_percent")},
          Uncertain<Energy>{evidence("energy_kj_per_100_ml")},
          wording::all_notes(a.result),
          std::move(a)};
}

}  // namespace

Bounds Drink::bounds(double level) const { return analysis::strength_bounds(inner, level); }

Decision Drink::decide(StrengthByVolume limit, double level) const {
  return analysis::decide_strength(inner, limit.value(), level);
}

std::ostream& operator<<(std::ostream& out, const Drink& drink) {
  return out << (drink.is_figure() ? drink.strength.text() : wording::below_text(drink.inner));
}

Drink alcohol(const Ferment& f) {
  return drink(measurement::alcohol(sample_of(f.present),
                                    {.readings = {sample_of(f.original)}, .kind = f.extract},
                                    f.culture, f.name),
               identity_of(f.original));
}

Drink alcohol_without_original(const OneSample& s) {
  return drink(
      measurement::refract_with_hydrometer(s.refraction.sample(), s.gravity.sample(), s.extract),
      s.gravity.identity());
}

}  // namespace areo
