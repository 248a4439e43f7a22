// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Named inputs of a measurement model: what is known about each quantity that goes in.
#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "areo/core/identity.hpp"
#include "areo/numeric/covariance.hpp"

namespace areo::uncertainty {

/// Shape of the knowledge about an input [gum] 4.3, [jcgm101] 6.4. Linear propagation needs only
/// the standard uncertainty; the shape is kept for the budget and for sampling.
enum class Distribution {
  normal,
  rectangular,
  triangular,
  arcsine,                ///< swings between two limits like a sine
  student_t,              ///< from a few readings: value + u t, with the degrees of freedom
  curvilinear_trapezoid,  ///< between limits that are themselves not known exactly
  sample,                 ///< the values as read, each as likely as the others
};

/// [gum] 4.2 and 4.3: from repeated observations, or from other knowledge.
enum class Evaluation { type_a, type_b };

/// Units that are none of measurement: of an instrument's scale, whichever it has, and of a
/// formula's error, in standard uncertainties of the formula.
inline constexpr const char* unit_of_scale = "scale";
inline constexpr const char* unit_of_formula = "standard uncertainties";

/// What an input is knowledge of. It decides what could be done to know more.
enum class Origin {
  other,         ///< none of these
  typed,         ///< a value as it was typed
  reading,       ///< the eye at a scale
  temperature,   ///< the temperature as read or assumed
  cooling,       ///< of a hot liquid while it is read
  thermometer,   ///< the correction of a thermometer
  calibration,   ///< the correction of the instrument that a result rests on
  glass,         ///< the expansion of a hydrometer
  meniscus,      ///< how far the liquid climbs the stem
  surface,       ///< the pull of a surface: of the liquid, or of that a scale was made for
  stem,          ///< diameter and mass: how much a surface moves the instrument
  compensation,  ///< what a refractometer makes of its temperature
  mass,          ///< an amount from a balance or a recipe
  composition,   ///< how pure and dry what is dissolved is
  refraction,    ///< how the extract refracts
  method,        ///< a measurement method against a better one
  formula,       ///< a physical formula against its measurements
};

/// One input quantity.
struct Input {
  std::string name;  ///< "reading of the original gravity"
  std::string unit;  ///< of value and u; may be empty
  double value = 0;
  double u = 0;  ///< standard uncertainty, same unit, >= 0
  Distribution shape = Distribution::normal;
  Evaluation type = Evaluation::type_b;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
  std::string provenance;      ///< where it comes from, in words a reader can check
  double limit_error = 0;      ///< of a curvilinear trapezoid: its limits are known to ± this
  std::vector<double> read{};  ///< of a sample: its values
  Origin origin = Origin::other;
  /// Step of what was noted, same unit: the mean of several cannot see below it [gum]
  /// F.2.2.1. 0 = none.
  double step = 0;
  /// The one thing that it is a property of, such as an instrument; nothing if there is none.
  /// Inputs of two things are two, however much alike.
  std::optional<Identity> thing{};
  /// Of what one reading alone has: its "temperature", and how the reading is called,
  /// "the original gravity", with which the name ends. Else empty.
  std::string what{}, of{};
};

/// Makers that turn the usual statements into standard uncertainties [gum] 4.3.
[[nodiscard]] Input normal(std::string name, std::string unit, double value, double u,
                           std::string provenance);
/// "within ± half_width, nothing else known": u = half_width / √3.
[[nodiscard]] Input rectangular(std::string name, std::string unit, double value, double half_width,
                                std::string provenance);
/// "within ± half_width, the middle most likely": u = half_width / √6.
[[nodiscard]] Input triangular(std::string name, std::string unit, double value, double half_width,
                               std::string provenance);
/// Bounds lo .. hi of equal likelihood: the middle, and u = (hi - lo) / √12.
[[nodiscard]] Input between(std::string name, std::string unit, double lo, double hi,
                            std::string provenance);
/// "swings within ± half_width like a sine" (a thermostat): u = half_width / √2 [jcgm101] 6.4.6.
[[nodiscard]] Input arcsine(std::string name, std::string unit, double value, double half_width,
                            std::string provenance);
/// "within ± half_width, and this only to ± limit_error": with a, b = value ∓ half_width and
/// d = limit_error, u² = (b - a)² / 12 + d² / 9 [jcgm101] 6.4.3.
/// @param limit_error 0 .. half_width; Inputs::add() refuses others
[[nodiscard]] Input curvilinear_trapezoid(std::string name, std::string unit, double value,
                                          double half_width, double limit_error,
                                          std::string provenance);
/// Known from observations with few degrees of freedom (type A): value + u t [jcgm101] 6.4.9.
/// u is what the law of propagation takes; the distribution itself is wider, its standard deviation
/// is u √(ν / (ν - 2)), and has none below three degrees of freedom.
[[nodiscard]] Input student_t(std::string name, std::string unit, double value, double u,
                              double degrees_of_freedom, std::string provenance);
/// Repeated readings of one quantity: their mean, u = s / √n with n - 1 degrees of freedom, type A
/// [gum] 4.2, as student_t(). The division or last digit of the instrument is not counted twice
/// [gum] F.2.2.1: if resolution / √12 is larger than s / √n, then the input is rectangular within
/// half a resolution, type B, because averaging cannot see below the steps of a scale.
/// @param readings   two or more, finite
/// @param resolution step of the indication, same unit, >= 0
/// @throws Error{domain} for fewer readings, NaN or a negative resolution
/// @check  9.9, 10.0, 10.1 with resolution 0.1 -> 10.0, u = 0.0577, 2 degrees of freedom
[[nodiscard]] Input repeated(std::string name, std::string unit, std::span<const double> readings,
                             double resolution, std::string provenance);
/// A quantity that takes the values of a sample: their mean and their standard deviation s with
/// n - 1 degrees of freedom [gum] 4.2.2. Sampling draws the values as they are; its standard
/// deviation is smaller than s by the factor √((n - 1) / n), 2.5 % for the least number of values.
/// @param values at least 20, finite; fewer are readings for repeated()
/// @throws Error{domain} for fewer values, or for NaN
[[nodiscard]] Input sample(std::string name, std::string unit, std::vector<double> values,
                           std::string provenance);

/// The same input with its origin and step.
[[nodiscard]] Input from(Origin origin, Input input, double step = 0);

/// Handle of an input within its Inputs.
struct InputRef {
  std::size_t index;
};

/// The values of all inputs at which a model is evaluated.
class Point {
 public:
  explicit Point(std::span<const double> values) : values_{values} {}
  [[nodiscard]] double operator[](InputRef ref) const { return values_[ref.index]; }

 private:
  std::span<const double> values_;
};

/// Correlation of two inputs.
struct Correlation {
  InputRef a, b;
  double r;  ///< -1 .. 1
};

/// The inputs of one model. Readings that share an input (the calibration of their instrument) are
/// correlated through it without further ado.
class Inputs {
 public:
  /// @throws Error{domain} if value or u is not finite, u < 0, degrees of freedom < 1, a step
  ///         is below zero or not finite, or what a shape needs besides is missing;
  ///         Error{inconsistent} if a sample has another mean or standard deviation than the input
  InputRef add(Input input);
  /// @throws Error{domain} unless a and b differ and -1 <= r <= 1; Error{inconsistent} if they have
  ///         a correlation already
  void correlate(InputRef a, InputRef b, double r);

  [[nodiscard]] std::span<const Input> all() const noexcept { return inputs_; }
  [[nodiscard]] std::span<const Correlation> correlations() const noexcept { return correlations_; }
  [[nodiscard]] std::vector<double> estimates() const;
  /// Ones on the diagonal, stated correlations elsewhere.
  [[nodiscard]] numeric::Covariance correlation_matrix() const;

 private:
  std::vector<Input> inputs_;
  std::vector<Correlation> correlations_;
};

}  // namespace areo::uncertainty
