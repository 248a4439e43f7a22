// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The original liquid of a ferment: what was read before it fermented, and what went in later.
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "areo/core/scales.hpp"
#include "areo/measurement/refract.hpp"
#include "areo/measurement/weighed.hpp"

namespace areo::measurement {

struct Original;

/// Something that was added to a ferment. Its extract counts as if it had been there from the
/// start: whether sugar comes early or late makes no difference to Balling's balance.
struct Addition {
  enum class Substance {
    sugar,  ///< as calibration::white_sugar has it
    juice,  ///< a sugar liquid of known extract
    water,
    salt,   ///< does not ferment; counts as the sugar that would raise the density as much
    acid,   ///< likewise; which acid is not known
    drink,  ///< part of another ferment, counted as its original liquid
  };
  std::string name;  ///< for people: "sugar of 2026-03-06"
  Substance substance = Substance::sugar;
  /// How much: mass or volume, as typed; the other one is empty.
  std::optional<double> mass_g, volume_l;
  double mass_half_width_g = 1;  ///< of the balance, triangular
  /// Of a juice.
  ExtractFraction extract{0};
  double extract_half_width = 0;  ///< mass fraction, rectangular
  /// How much was there when it was added; nothing: what the amounts before add up to.
  std::optional<double> into_l;
  /// Of a drink: where it came from.
  std::shared_ptr<const Original> drink;
};

struct Original {
  /// Readings of the unfermented liquid, one or more; their mean counts.
  std::vector<OriginalSample> readings;
  /// Its volume; needed for additions that do not say what they went into.
  std::optional<double> volume_l{};
  std::vector<Addition> additions{};  ///< since these readings, in order of time
  ExtractKind kind{};                 ///< of what was read with a refractometer
  /// Instead of readings: what the weighed sugar makes. Whatever else the liquid held is not in
  /// it.
  std::optional<WeighedSugar> weighed{};
};

/// Sugar that raises the density as much as one part of salt or acid, by mass, in dilute solution.
/// Salt: 1.82 to 1.84 up to 5 % by mass, physics::salt_density() against physics::density(). Acids:
/// acetic 0.36, lactic 0.53, citric 1.06 at 5 % or 6 % by mass [crc102].
inline constexpr double salt_as_sugar = 1.83, salt_as_sugar_half_width = 0.02;
inline constexpr double acid_as_sugar_lo = 0.36, acid_as_sugar_hi = 1.06;

/// The original gravity alone. Quantities: sg_20_20_original, original_extract_percent.
/// @param of  names the inputs of its readings
/// @throws Error{inconsistent} without a reading or weighed sugar, or for an addition to an unknown
///         volume; Error{domain} as correct() and refract(), and for masses and volumes that are
///         not above zero
[[nodiscard]] Result original_gravity(const Original& original,
                                      const std::string& of = "the original gravity");

/// A reading of a ferment, with either instrument, against its original liquid: what alcohol() and
/// refract_fermenting() do with one original reading.
/// @param of  names the inputs of the present reading; readings of one ferment that are compared
///            with each other need different names
/// @throws    as original_gravity(), alcohol() and refract_fermenting()
[[nodiscard]] AlcoholResult alcohol(const OriginalSample& present, const Original& original,
                                    ferment::Culture culture,
                                    const std::string& of = "the present gravity");

/// What a reading shows, as the gravity SG 20/20 of the sugar liquid that would show it: its
/// estimate alone, quickly. Of a drink it is what the hydrometer says; a refractometer's is higher.
/// @throws Error{domain} if no liquid of sugar and water shows that
[[nodiscard]] double seen_gravity(const OriginalSample& sample);

}  // namespace areo::measurement
