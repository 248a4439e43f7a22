// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Checks of an instrument: what it showed against what it should have shown.
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "areo/calibration/solution.hpp"
#include "areo/core/units.hpp"
#include "areo/instruments/hydrometer.hpp"
#include "areo/instruments/readings.hpp"
#include "areo/instruments/thermometer.hpp"
#include "areo/numeric/covariance.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo::calibration {

/// Outcome of one check, all in the unit of the instrument's scale.
struct Check {
  std::string label;              ///< "water"
  double indication = 0;          ///< what the instrument showed (read level, no correction)
  uncertainty::Value expected;    ///< what an error-free instrument should have shown
  uncertainty::Value correction;  ///< expected minus indication: what has to be added
};

/// Outcome of checks that were evaluated together, in the order they were added.
struct CheckSet {
  std::vector<Check> checks;
  /// Of the corrections. Checks err together through what they share: the glass, the stem, the
  /// meniscus, a named thermometer, what the scale was made for, the solids of tap water, a
  /// balance, the purity and the density formula of a solute; points of a certificate through all
  /// that made it.
  numeric::Covariance covariance{0};
  /// The same with certificate points as independent: what a fit weighs the checks by. Empty if
  /// no two err together.
  numeric::Covariance apart{0};
  /// What the corrections depend on. An input that several checks share stands here once.
  uncertainty::Inputs inputs{};
  /// `shares[i][k]` is the signed contribution of inputs.all()[k] to the correction of checks[i],
  /// in the unit of the scale; a combination of checks has the same combination of shares.
  std::vector<std::vector<double>> shares{};
  /// Of a hydrometer: the input that says what its scale was made for.
  std::optional<uncertainty::InputRef> made_for{};
};

/// What both kinds of instrument have in common: the collected checks and their evaluation.
class Checks {
 public:
  /// @param division  of the instrument's scale
  explicit Checks(double division) : division_{division} {}
  /// A point of a certificate: at the nominal mark add `correction`, known to ± `expanded`.
  /// Points of one certificate were read by one laboratory with one method, and certificates seldom
  /// say how they err together: their uncertainties count as fully correlated.
  /// @param k           coverage factor of the certificate
  /// @param certificate which one it is a point of: points of two have nothing in common. Empty: it
  ///                    has nothing in common with any other point
  /// @throws  Error{domain} unless expanded > 0 and k >= 1, and for a correction of more than ten
  ///          divisions: a slip of the pen, or an instrument for the bin
  void add_certificate_point(double nominal, double correction, double expanded, double k,
                             std::string certificate = "the certificate");
  /// Law of propagation over all checks at once.
  [[nodiscard]] CheckSet evaluate() const;

 protected:
  struct Outcome {
    double correction, expected;
  };
  void add(std::string label, double indication,
           std::function<Outcome(const uncertainty::Point&)> model);
  /// By how much the water of all checks of that kind is denser, and refracts more: in parts of the
  /// most; nothing of pure water.
  [[nodiscard]] std::optional<uncertainty::InputRef> solids(Water water);
  instruments::Readings readings_;
  std::optional<uncertainty::InputRef> made_for_;

 private:
  struct Pending {
    std::string label;
    double indication;
    std::function<Outcome(const uncertainty::Point&)> model;
  };
  double division_;
  std::vector<Pending> pending_;
  struct CertificatePoint {
    std::string certificate;
    uncertainty::InputRef stated;
  };
  std::vector<CertificatePoint> certified_;  ///< those that may err together with others
  std::optional<uncertainty::InputRef> tap_, unknown_water_;
};

/// Checks of one hydrometer.
class HydrometerChecks : public Checks {
 public:
  explicit HydrometerChecks(const instruments::Hydrometer& h)
      : Checks{h.division}, hydrometer_{h} {}
  /// In clean water. The instrument need not show 1.000: its scale and reference temperature
  /// decide.
  /// @throws Error{domain} if the indication is not on the scale or the water not within 0 °C ..
  ///         40 °C
  void add_in_water(const instruments::HydrometerReading& reading, Water water = Water::pure);
  /// In a weighed solution of sugar or salt.
  void add_in_solution(const instruments::HydrometerReading& reading,
                       const WeighedSolution& solution, Water water = Water::pure);

 private:
  using DensityModel = std::function<Density(const uncertainty::Point&, ModelTemperature)>;
  void add_reading(const instruments::HydrometerReading& reading, std::string label, Water water,
                   DensityModel density);
  instruments::Hydrometer hydrometer_;
  std::vector<SoluteInputs> solutes_;
  std::vector<BalanceInputs> balances_;
};

/// Checks of one refractometer: in water for the foot of the scale, further up in weighed sugar.
class RefractometerChecks : public Checks {
 public:
  explicit RefractometerChecks(const instruments::Refractometer& r)
      : Checks{r.division}, refractometer_{r} {}
  /// In clean water, which need not show zero: above 20 °C it shows less. With temperature
  /// compensation it shows about zero; what that leaves open is an input.
  /// @throws Error{domain} if the indication is not on the scale or the temperature not within
  ///         10 °C .. 30 °C
  void add_in_water(const instruments::RefractometerReading& reading, Water water = Water::pure);
  /// In a weighed solution of sugar.
  /// @throws Error{inconsistent} for salt: areo has no model of its index
  void add_in_solution(const instruments::RefractometerReading& reading,
                       const WeighedSolution& solution, Water water = Water::pure);

 private:
  void add_reading(const instruments::RefractometerReading& reading, std::string label, Water water,
                   std::function<double(const uncertainty::Point&)> fraction);
  instruments::Refractometer refractometer_;
  std::vector<SoluteInputs> solutes_;
  std::vector<BalanceInputs> balances_;
};

/// Checks of one thermometer at its fixed points.
class ThermometerChecks : public Checks {
 public:
  explicit ThermometerChecks(const instruments::Thermometer& t)
      : Checks{t.division_c}, thermometer_{t} {}
  /// In crushed melting ice of clean water: 0.00 °C, within ± 0.1 °C as a kitchen makes it
  /// (0.01 °C is easily reached in a laboratory).
  /// @param half_width_c of the indication, as read
  /// @throws Error{domain} if the indication is not on the scale
  void add_in_ice(double indication_c, double half_width_c);
  /// In boiling water: its boiling point at that pressure, within boiling_half_width_c for the
  /// superheat of the water and the part of the stem that stands out of it. Give the station
  /// pressure, not the one reduced to sea level.
  /// @param pressure      absolute
  /// @param known_to_pa   how well it is known (half-width); an altitude alone leaves ± 2 kPa
  void add_in_boiling_water(double indication_c, double half_width_c, Pressure pressure,
                            double known_to_pa);

 private:
  void add_fixed_point(double indication_c, double half_width_c, std::string label,
                       uncertainty::Input condition, double (*expected_c)(double),
                       std::optional<uncertainty::Input> beside_c = std::nullopt);
  instruments::Thermometer thermometer_;
};

/// By how much water that boils in a kettle may be warmer than its boiling point, and a thermometer
/// whose stem stands out of it show too little: a judgement, °C.
inline constexpr double boiling_half_width_c = 0.2;
/// Weather, if only the altitude is known.
inline constexpr double weather_half_width_pa = 2000;
/// A barometer at the place, or one typed from a screen: ± 0.2 kPa.
inline constexpr double barometer_half_width_pa = 200;

}  // namespace areo::calibration
