#pragma once
// A hydrometer reading as inputs of a measurement model.
#include <optional>
#include <string>

#include "areo/instruments/correction.hpp"
#include "areo/instruments/hydrometer.hpp"
#include "areo/instruments/repeated.hpp"
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
};

/// What all readings with one hydrometer share.
struct HydrometerInputs {
  Hydrometer hydrometer;
  CorrectionInputs correction;
  uncertainty::InputRef glass, meniscus;
};
[[nodiscard]] HydrometerInputs add_hydrometer(uncertainty::Inputs& inputs, const Hydrometer& h,
                                              const Correction& correction);

/// One reading; independent of the others but for what HydrometerInputs and a thermometer share.
class ReadingInputs {
 public:
  /// @param of  what was read, for the names of the inputs ("the original gravity")
  /// @param surface  of an earlier reading in the same liquid: its surface pulls the same way
  /// @throws    Error{domain} if the indication is not on the scale
  ReadingInputs(uncertainty::Inputs& inputs, const HydrometerInputs& hydrometer,
                const HydrometerReading& reading, const std::string& of,
                const std::optional<CorrectionInputs>& shared_thermometer = std::nullopt,
                const std::optional<uncertainty::InputRef>& surface = std::nullopt);

  /// The level indication after the instrument's correction and the meniscus, in scale units.
  [[nodiscard]] double corrected_indication(const uncertainty::Point& x) const;
  [[nodiscard]] ModelTemperature temperature(const uncertainty::Point& x) const;
  /// Density of the liquid at its temperature.
  [[nodiscard]] Density density(const uncertainty::Point& x) const;
  /// What an error-free instrument would show in this liquid.
  [[nodiscard]] double expected(const uncertainty::Point& x, Density true_density) const;
  /// The same minus what this one showed: a check of the scale.
  [[nodiscard]] double shortfall(const uncertainty::Point& x, Density true_density) const;
  [[nodiscard]] const TemperatureInputs& temperature_inputs() const { return temperature_; }
  [[nodiscard]] uncertainty::InputRef surface() const { return surface_; }
  [[nodiscard]] uncertainty::InputRef indication_input() const { return indication_; }

 private:
  /// The indication without the instrument's correction.
  [[nodiscard]] double level_indication(const uncertainty::Point& x) const;
  HydrometerInputs hydrometer_;
  Meniscus meniscus_;
  uncertainty::InputRef indication_, surface_;
  TemperatureInputs temperature_;
};

}  // namespace areo::instruments
