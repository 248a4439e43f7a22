// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What people do with a reading: convert, correct, refract, an entry of a correction table. A typed
// layer over the room `measurement`, with no formula of its own; what is said there of ranges,
// errors and uncertainty holds here. For a ferment: drink.hpp.
#include <array>
#include <span>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "areo/front/instruments.hpp"
#include "areo/front/uncertain.hpp"
#include "areo/measurement/extract_kind.hpp"
#include "areo/measurement/temperature_table.hpp"

namespace areo {

using measurement::ExtractKind;

namespace detail {
[[nodiscard]] std::vector<Evidence> converted(const Evidence& from, const physics::Scale& of,
                                              std::span<const physics::Scale> to);

template <class... To, std::size_t... I>
std::tuple<Uncertain<To>...> as_tuple(const std::vector<Evidence>& all, std::index_sequence<I...>) {
  return {Uncertain<To>{all[I]}...};
}
}  // namespace detail

/// An unfermented liquid's mark on other scales: `convert<Plato>(1.048_sg)`, or several at once,
/// `const auto [p, oe] = convert<Plato, Oechsle>(1.048_sg)`. The ± is that of the mark and of the
/// formulas.
/// @throws Error{domain} outside the scales' and models' ranges
/// @source measurement::convert()
template <DensityMark... To, DensityMark From>
[[nodiscard]] auto convert(const Uncertain<From>& mark) {
  static_assert(sizeof...(To) > 0, "name the scale to convert to: convert<Plato>(...)");
  const std::array<physics::Scale, sizeof...(To)> scales{physics::scale_of<To>::value...};
  const std::vector<detail::Evidence> all =
      detail::converted(mark.evidence(), physics::scale_of<From>::value, scales);
  if constexpr (sizeof...(To) == 1)
    return Uncertain<To...>{all[0]};
  else
    return detail::as_tuple<To...>(all, std::index_sequence_for<To...>{});
}
template <DensityMark... To, DensityMark From>
[[nodiscard]] auto convert(From mark) {
  return convert<To...>(Uncertain<From>{mark});
}
/// The strength of a mixture of ethanol and water, by mass and by volume.
/// @source measurement::convert_strength()
[[nodiscard]] Uncertain<StrengthByMass> by_mass(const Uncertain<StrengthByVolume>& strength);
[[nodiscard]] Uncertain<StrengthByVolume> by_volume(const Uncertain<StrengthByMass>& strength);

/// A hydrometer reading brought to what its scale means at its reference temperature.
template <class Mark>
struct Corrected {
  Uncertain<Mark> reading;                   ///< at the reference temperature of the scale
  Uncertain<DifferenceOf<Mark>> correction;  ///< what has to be added to the mark for that
  Uncertain<Density> density;                ///< of the liquid at its own temperature
  std::vector<std::string> notes;            ///< what a reader has to know, a sentence each
};

namespace detail {
struct CorrectedNumbers {
  Evidence reading, correction, density;
  std::vector<std::string> notes;
};
[[nodiscard]] CorrectedNumbers corrected(const HydrometerReading& reading);
}  // namespace detail

/// @throws Error{domain} for a reading off its scale, and a temperature outside 0 °C .. 85 °C
/// @source measurement::correct()
template <class Mark>
[[nodiscard]] Corrected<Mark> correct(const ReadingOf<Mark>& reading) {
  detail::CorrectedNumbers n = detail::corrected(reading);
  return {Uncertain<Mark>{std::move(n.reading)},
          Uncertain<DifferenceOf<Mark>>{std::move(n.correction)},
          Uncertain<Density>{std::move(n.density)}, std::move(n.notes)};
}

/// A refractometer reading of an unfermented liquid.
struct Refracted {
  Uncertain<Plato> extract;      ///< true percent by mass
  Uncertain<Gravity> gravity;    ///< of the liquid
  Uncertain<Density20> density;  ///< likewise
  std::vector<std::string> notes;
};
/// @param kind  what the extract is, as far as it refracts
/// @throws Error{domain} for a reading off its scale, and a temperature outside 10 °C .. 30 °C
/// @source measurement::refract()
[[nodiscard]] Refracted refract(const RefractometerReading& reading, const ExtractKind& kind = {});

/// The same stem as if it had no error: for tables that are to hold for any stem made alike.
/// @source measurement::without_error()
template <class Mark>
[[nodiscard]] Hydrometer<Mark> without_error(Hydrometer<Mark> stem) {
  stem.correction = measurement::without_error(stem.inner()).correction;
  return stem;
}

/// What has to be added to a mark of this stem in a liquid at t, whoever reads it: an entry of a
/// correction table.
/// @source measurement::temperature_correction()
template <class Mark>
[[nodiscard]] Uncertain<DifferenceOf<Mark>> temperature_correction(
    const Hydrometer<Mark>& stem, Mark mark, Temperature t,
    StrengthByVolume alcohol = StrengthByVolume{0});
/// The same for a prism, before anything ferments.
[[nodiscard]] Uncertain<DifferenceOf<Brix>> temperature_correction(const Refractometer<Brix>& prism,
                                                                   Brix mark, Temperature t,
                                                                   const ExtractKind& kind = {});

namespace detail {
[[nodiscard]] Evidence temperature_correction(const measurement::Calibrated& stem, double mark,
                                              Temperature t, StrengthByVolume alcohol);
}  // namespace detail

template <class Mark>
Uncertain<DifferenceOf<Mark>> temperature_correction(const Hydrometer<Mark>& stem, Mark mark,
                                                     Temperature t, StrengthByVolume alcohol) {
  return Uncertain<DifferenceOf<Mark>>{
      detail::temperature_correction(stem.calibrated(), mark.value(), t, alcohol)};
}

}  // namespace areo
