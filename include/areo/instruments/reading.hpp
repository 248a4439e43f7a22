// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A hydrometer reading as inputs of a measurement model.
#include <optional>
#include <string>

#include "areo/core/identity.hpp"
#include "areo/instruments/correction.hpp"
#include "areo/instruments/hydrometer.hpp"
#include "areo/instruments/repeated.hpp"
#include "areo/instruments/stem.hpp"
#include "areo/instruments/thermometer.hpp"
#include "areo/uncertainty/input.hpp"

namespace areo::instruments {

/// Where the eye was: level with the liquid's surface, or at the top of the meniscus because the
/// liquid is too cloudy to see through.
enum class Meniscus { level, top };

/// A hydrometer reading as made.
struct HydrometerReading {
  double indication = 1;  ///< in the unit of the scale
  double half_width = 0;  ///< of the interpolation by eye; 0 = half a division
  TemperatureReading temperature;
  Meniscus meniscus = Meniscus::level;
  /// Other than reading if something else stands for one, such as weighed sugar.
  uncertainty::Origin origin = uncertainty::Origin::reading;
  /// Several readings of the sample; `indication` is their mean.
  std::optional<Repeated> repeated = std::nullopt;
  /// Which reading it is, where its inputs are to be known again in other results.
  std::optional<Identity> identity = std::nullopt;
};

/// What all readings with one hydrometer share.
struct HydrometerInputs {
  Hydrometer hydrometer;
  CorrectionInputs correction;
  uncertainty::InputRef glass, meniscus;
  uncertainty::InputRef diameter_mm, mass_g, made_for_mn_m;
  double made_for_estimate, u_made_for;  ///< of the last of them, in mN/m

  /// What makes the scale right where it shows `indication`, in the liquid that it was made for.
  [[nodiscard]] double correction_at(const uncertainty::Point& x, double indication) const;
  /// How much denser a liquid is than the mark at its surface says: surface_factor().
  [[nodiscard]] double surface_factor_at(const uncertainty::Point& x,
                                         const SurfaceTension& liquid) const;
  /// Density of a liquid of that surface tension, at its temperature t.
  /// @param corrected  indication, level and after correction_at()
  [[nodiscard]] Density density(const uncertainty::Point& x, double corrected, ModelTemperature t,
                                const SurfaceTension& liquid) const;
};
[[nodiscard]] HydrometerInputs add_hydrometer(uncertainty::Inputs& inputs, const Hydrometer& h,
                                              const Correction& correction);

/// What is known of the surface of the liquid in hand.
enum class LiquidSurface {
  drink,  ///< that of water and its ethanol, ± surface_half_width_mn_m()
  clean,  ///< water, or sugar or salt in it: what is not known of it is in Stem::made_for_mn_m
};

/// One reading; independent of the others but for what HydrometerInputs and a thermometer share.
class ReadingInputs {
 public:
  /// @param of  what was read, for the names of the inputs ("the original gravity")
  /// @throws    Error{domain} if the indication is not on the scale
  ReadingInputs(uncertainty::Inputs& inputs, const HydrometerInputs& hydrometer,
                const HydrometerReading& reading, const std::string& of,
                const std::optional<CorrectionInputs>& shared_thermometer = std::nullopt,
                LiquidSurface surface = LiquidSurface::drink);

  /// The level indication after the instrument's correction and the meniscus, in scale units.
  [[nodiscard]] double corrected_indication(const uncertainty::Point& x) const;
  [[nodiscard]] ModelTemperature temperature(const uncertainty::Point& x) const;
  /// Density of the liquid at its temperature. The less its surface pulls, the higher it was read.
  /// @param ethanol  of the liquid: it takes much of the pull away
  [[nodiscard]] Density density(const uncertainty::Point& x,
                                EthanolFraction ethanol = EthanolFraction{0}) const;
  /// What an error-free instrument would show in this liquid, which holds no ethanol.
  [[nodiscard]] double expected(const uncertainty::Point& x, Density true_density) const;
  /// The same minus what this one showed: a check of the scale.
  [[nodiscard]] double shortfall(const uncertainty::Point& x, Density true_density) const;
  [[nodiscard]] const TemperatureInputs& temperature_inputs() const { return temperature_; }
  /// What the scale was made for, shared by all readings of the instrument.
  [[nodiscard]] uncertainty::InputRef made_for_input() const { return hydrometer_.made_for_mn_m; }
  [[nodiscard]] uncertainty::InputRef indication_input() const { return indication_; }

 private:
  /// The indication without the instrument's correction.
  [[nodiscard]] double level_indication(const uncertainty::Point& x) const;
  [[nodiscard]] SurfaceTension surface(const uncertainty::Point& x, EthanolFraction ethanol) const;
  HydrometerInputs hydrometer_;
  Meniscus meniscus_;
  uncertainty::InputRef indication_;
  std::optional<uncertainty::InputRef> surface_mn_m_;
  TemperatureInputs temperature_;
};

}  // namespace areo::instruments
