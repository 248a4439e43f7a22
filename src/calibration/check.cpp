#include "areo/calibration/check.hpp"

#include <fmt/format.h>

#include <cmath>
#include <functional>

#include "areo/core/error.hpp"
#include "areo/physics/boiling.hpp"
#include "areo/physics/water.hpp"

namespace areo::calibration {
namespace {

using instruments::Hydrometer;
using instruments::HydrometerReading;
using instruments::ReadingInputs;
using uncertainty::Inputs;
using uncertainty::Point;

// The instrument's own correction is what the check looks for, so it enters as exactly zero.
const instruments::Correction& no_correction() {
  static const instruments::Correction none{.provenance = "the check itself"};
  return none;
}

Check run(const Hydrometer& h, const HydrometerReading& reading, Inputs& inputs, std::string label,
          const std::function<Density(const Point&, Temperature)>& density) {
  const auto shared = instruments::add_hydrometer(inputs, h, no_correction());
  const ReadingInputs r{inputs, shared, reading, "the check"};
  const auto result = propagate(inputs, [&](const Point& x) {
    const Temperature t = r.temperature(x);
    const double correction = r.shortfall(x, density(x, t));
    return std::vector{correction,
                       instruments::ideal_indication(h, density(x, t), t, x[shared.glass])};
  });
  return {std::move(label), reading.indication, result.values[1], result.values[0]};
}

void require_on_scale(const instruments::Thermometer& t, double c) {
  if (!(c >= t.lo_c && c <= t.hi_c))
    throw Error{Errc::domain, fmt::format("{} cannot show {} °C: its scale goes from {} to {} °C",
                                          t.name, c, t.lo_c, t.hi_c)};
}

Check fixed_point(const instruments::Thermometer& thermometer, double indication_c,
                  double half_width_c, std::string label, uncertainty::Input condition,
                  const std::function<double(double)>& expected_c) {
  require_on_scale(thermometer, indication_c);
  Inputs inputs;
  const auto shown = inputs.add(uncertainty::rectangular(
      "reading of the thermometer", "°C", indication_c, half_width_c, "resolution as read"));
  const auto at = inputs.add(std::move(condition));
  const auto result = propagate(inputs, [&](const Point& x) {
    const double expected = expected_c(x[at]);
    return std::vector{expected - x[shown], expected};
  });
  return {std::move(label), indication_c, result.values[1], result.values[0]};
}

}  // namespace

Check check_in_water(const Hydrometer& h, const HydrometerReading& reading) {
  Inputs inputs;
  return run(h, reading, inputs, "water",
             [](const Point&, Temperature t) { return physics::water_density(t); });
}

Check check_in_solution(const Hydrometer& h, const HydrometerReading& reading,
                        const WeighedSolution& solution) {
  Inputs inputs;
  const SolutionInputs s{inputs, solution};
  return run(
      h, reading, inputs,
      fmt::format("{} {:g} g + {:g} g water", solution.solute == Solute::sucrose ? "sugar" : "salt",
                  solution.solute_g, solution.water_g),
      [&](const Point& x, Temperature t) { return s.density(x, t); });
}

Check certificate_point(double nominal, double correction, double expanded, double k) {
  if (!(expanded > 0) || !(k >= 1) || !std::isfinite(nominal) || !std::isfinite(correction))
    throw Error{
        Errc::domain,
        "a certificate's point needs finite numbers, an expanded uncertainty above zero and "
        "a coverage factor of at least 1"};
  const double u = expanded / k;
  return {"certificate", nominal, {nominal + correction, u}, {correction, u}};
}

Check check_in_ice(const instruments::Thermometer& thermometer, double indication_c,
                   double half_width_c) {
  constexpr double ice_half_width_c = 0.1;
  return fixed_point(thermometer, indication_c, half_width_c, "melting ice",
                     uncertainty::rectangular("temperature of the ice", "°C", 0, ice_half_width_c,
                                              "crushed ice and water from a kitchen: judgement"),
                     [](double ice_c) { return ice_c; });
}

Check check_in_boiling_water(const instruments::Thermometer& thermometer, double indication_c,
                             double half_width_c, Pressure pressure, double half_width_pa) {
  static constexpr Range station{
      "pressure at the place", "kPa", 50, 110, "isa", "check the unit: 982 hPa are 98.2 kPa"};
  require(station, pressure.value() / 1000);
  return fixed_point(
      thermometer, indication_c, half_width_c,
      fmt::format("boiling water, {:.2f} kPa", pressure.value() / 1000),
      uncertainty::rectangular("pressure at the place", "Pa", pressure.value(), half_width_pa,
                               "as stated; weather alone moves it by ± 2 kPa"),
      [](double p) { return physics::boiling_point(pascals(p)).celsius(); });
}

}  // namespace areo::calibration
