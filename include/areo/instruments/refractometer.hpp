// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A refractometer: from the mark at the boundary line to the refractive index of the sample.
#include <optional>
#include <string>

#include "areo/core/identity.hpp"
#include "areo/core/units.hpp"
#include "areo/instruments/correction.hpp"
#include "areo/instruments/repeated.hpp"
#include "areo/instruments/thermometer.hpp"
#include "areo/physics/refraction.hpp"
#include "areo/uncertainty/input.hpp"

namespace areo::instruments {

/// What the scale is graduated in.
enum class RefractometerScale {
  brix,   ///< percent sucrose by mass at 20 °C
  index,  ///< refractive index, sodium D line, against air
};

/// A refractometer as it is described in the notebook.
struct Refractometer {
  std::string name;  ///< for people; may be empty, and two may have the same
  RefractometerScale scale = RefractometerScale::brix;
  double lo = 0, hi = 32;  ///< ends of the scale, in its unit
  double division = 0.2;   ///< smallest division
  /// With automatic temperature compensation (ATC) the scale shows what the sample would show at
  /// 20 °C, as far as the compensation goes.
  bool compensated = false;
  /// A second scale of specific gravity beside the Brix scale. It repeats the Brix mark as the
  /// gravity of a sugar solution, and readings on it are taken back to Brix by that.
  bool also_gravity = false;
  /// Maximum permissible error that a verdict is made against; one division unless stated.
  std::optional<double> tolerance = std::nullopt;
  /// Which one it is: a copy is the same instrument, one made anew another, whatever its name.
  Identity identity{};

  [[nodiscard]] double maximum_permissible_error() const { return tolerance.value_or(division); }
  friend bool operator==(const Refractometer&, const Refractometer&) = default;
};

/// A refractometer of which nothing is known but its scale (common practice, no source): 0 to 32
/// Brix by 0.2, or index 1.333 to 1.384 by 0.0005. Another instrument at each call.
[[nodiscard]] Refractometer ordinary_refractometer(RefractometerScale scale);

/// @throws Error{domain} if the indication is outside the scale; below the foot of the scale the
///         zero is off, and the hint says to set it in water
void require_on_scale(const Refractometer& r, double indication);

/// What an error-free instrument shows in a liquid; the inverse direction, for checks and tables.
/// @param t            of prism and liquid, 10 °C .. 30 °C; a compensated instrument is taken as
///                     perfectly so
/// @param index_error  added to the index of the liquid: what its formula may be off by
[[nodiscard]] double ideal_indication(
    const Refractometer& r, const physics::Liquid& liquid, ModelTemperature t,
    const physics::ExtractOptics& optics = physics::sucrose_optics, double index_error = 0);

/// What automatic compensation may leave of a temperature, in scale units: half-width. Within one
/// division at 5 °C or more from 20 °C, in proportion nearer; 0 for an instrument without it.
/// @param away_c  distance from 20 °C, >= 0
/// @source engineering judgement, no source: compensation follows water with sugar, not quite, and
///         least at the ends of its range
[[nodiscard]] double compensation_half_width(const Refractometer& r, double away_c);
/// The same as an input of a model.
/// @param of  what was read, for its name
[[nodiscard]] uncertainty::Input compensation_input(const Refractometer& r, double away_c,
                                                    const std::string& of);

/// A reading as made.
struct RefractometerReading {
  double indication = 0;  ///< in the unit of the scale
  double half_width = 0;  ///< of the interpolation by eye; 0 = half a division
  TemperatureReading temperature;
  /// Several readings of the sample; `indication` is their mean.
  std::optional<Repeated> repeated = std::nullopt;
  /// Which reading it is, where its inputs are to be known again in other results.
  std::optional<Identity> identity = std::nullopt;
};

/// What all readings with one refractometer share.
struct RefractometerInputs {
  Refractometer refractometer;
  CorrectionInputs correction;
};
[[nodiscard]] RefractometerInputs add_refractometer(uncertainty::Inputs& inputs,
                                                    const Refractometer& r,
                                                    const Correction& correction);

/// One reading as inputs of a model.
class RefractionInputs {
 public:
  /// @param of      what was read, for the names of the inputs ("the sample")
  /// @param shared  correction inputs of the same thermometer if another reading added them
  /// @throws        Error{domain} if the indication is not on the scale
  RefractionInputs(uncertainty::Inputs& inputs, const RefractometerInputs& refractometer,
                   const RefractometerReading& reading, const std::string& of,
                   const std::optional<CorrectionInputs>& shared = std::nullopt);

  /// The indication after the instrument's correction, in scale units.
  [[nodiscard]] double corrected_indication(const uncertainty::Point& x) const;
  /// Temperature for which the mark stands: the prism's, or 20 °C if that is compensated.
  [[nodiscard]] ModelTemperature temperature(const uncertainty::Point& x) const;
  /// Index of the sample at that temperature.
  [[nodiscard]] RefractiveIndex index(const uncertainty::Point& x) const;
  /// What an error-free instrument would show in this sugar solution.
  [[nodiscard]] double expected(const uncertainty::Point& x, const physics::Liquid& truth,
                                double index_error) const;
  /// The same minus what this one showed: a check of the scale.
  [[nodiscard]] double shortfall(const uncertainty::Point& x, const physics::Liquid& truth,
                                 double index_error) const;
  [[nodiscard]] const TemperatureInputs& temperature_inputs() const { return temperature_; }
  [[nodiscard]] uncertainty::InputRef indication_input() const { return indication_; }

 private:
  RefractometerInputs refractometer_;
  TemperatureInputs temperature_;
  uncertainty::InputRef indication_, compensation_;
};

}  // namespace areo::instruments
