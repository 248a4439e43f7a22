// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Two readings of a ferment, and the drink that they stand for.
#include <ostream>
#include <string>
#include <vector>

#include "areo/analysis/limit.hpp"
#include "areo/ferment/culture.hpp"
#include "areo/front/instruments.hpp"
#include "areo/front/uncertain.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/measurement/extract_kind.hpp"
#include "areo/uncertainty/decision.hpp"

namespace areo {

using ferment::Culture;
using measurement::ExtractKind;
using measurement::Fermentation;
using uncertainty::Bounds;
using uncertainty::Decision;
using uncertainty::Side;

/// A drink with all that follows from its readings. There always is one: readings that no drink has
/// are an Error, so no member is ever missing.
struct Drink {
  Uncertain<StrengthByVolume> strength;
  Uncertain<StrengthByMass> strength_by_mass;
  Uncertain<Gravity> original_gravity;  ///< read, or by Balling's balance
  Uncertain<Gravity> present_gravity;
  Uncertain<Plato> original_extract;
  Uncertain<Plato> real_extract;
  Uncertain<Plato> apparent_extract;
  Uncertain<Attenuation> apparent_attenuation;
  Uncertain<Attenuation> real_attenuation;
  Uncertain<Energy> energy;
  std::vector<std::string> notes;  ///< what a reader has to know, a sentence each
  /// What was computed, for what else can be asked of it: bottle(), measures(), sampling.
  measurement::AlcoholResult inner;

  /// `measured`: the strength stands as a figure. `no_change` and `bound`: an upper bound, no more.
  [[nodiscard]] Fermentation state() const { return inner.state; }
  [[nodiscard]] bool is_figure() const { return !inner.has_bound_only(); }
  /// With this probability the strength lies above `lower`, and with the same below `upper`, in
  /// percent by volume.
  [[nodiscard]] Bounds bounds(double level = analysis::usual_level) const;
  /// On which side of a limit the strength lies: `below`, `above` or `cannot_tell`. Never decided
  /// by the estimate alone.
  /// @source analysis::decide_strength(), [jcgm106]
  [[nodiscard]] Decision decide(StrengthByVolume limit, double level = analysis::usual_level) const;
};
/// The strength as it may be told: "5.09 ± 0.33 % vol", or "below 0.42 % vol (about 95 %)" where
/// it is no figure.
std::ostream& operator<<(std::ostream& out, const Drink& drink);

/// Readings before and during, or after, a ferment; either instrument made either. Original and
/// present are named, so that they cannot be swapped by position.
struct Ferment {
  detail::ByName by_name{};
  SampleReading original;
  SampleReading present;
  Culture culture = Culture::yeast;
  ExtractKind extract{};  ///< what it is, as far as it refracts; for a refractometer
  /// What the present reading is called in budgets, where several drinks are compared.
  std::string name = "the present gravity";
};
/// Two drinks with one original reading are of one ferment: what the method leaves open is the same
/// in both.
/// @throws Error{domain} for readings off their scales; Error{inconsistent} if the present reading
///         is above the original beyond the uncertainty, or lower than fermenting everything could
///         make it
/// @source measurement::alcohol()
[[nodiscard]] Drink alcohol(const Ferment& ferment);

/// A refractometer and a hydrometer reading of one fermenting sample: no original is needed.
struct OneSample {
  detail::ByName by_name{};
  RefractometerReading refraction;
  HydrometerReading gravity;
  ExtractKind extract{};
};
/// @throws Error{inconsistent} if no drink has both readings, or one with less alcohol than none
///         beyond the uncertainty; Error{domain} for readings off their scales
/// @source measurement::refract_with_hydrometer()
[[nodiscard]] Drink alcohol_without_original(const OneSample& sample);

}  // namespace areo
