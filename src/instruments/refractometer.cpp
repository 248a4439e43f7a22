// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/instruments/refractometer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "areo/core/error.hpp"
#include "indication.hpp"

namespace areo::instruments {
namespace {

constexpr double reference_c = 20;

constexpr double full_doubt_c = 5;  // of compensation

double distance_c(const TemperatureReading& t) {
  return std::abs(t.indication_c - reference_c) + t.half_width_c;
}

const char* unit_of(const Refractometer& r) {
  return r.scale == RefractometerScale::brix ? " Brix" : "";
}

}  // namespace

Refractometer ordinary_refractometer(RefractometerScale scale) {
  Refractometer r;
  r.name = "the refractometer";
  r.scale = scale;
  if (scale == RefractometerScale::index) {
    r.lo = 1.333;
    r.hi = 1.384;
    r.division = 0.0005;
  }
  return r;
}

void require_on_scale(const Refractometer& r, double indication) {
  const std::string name = r.name.empty() ? "the refractometer" : r.name;
  const auto refuse = [&](const char* hint) {
    throw Error{Errc::domain,
                fmt::format("{} cannot show {}{}: its scale goes from {} to {}", name,
                            number_text(indication), unit_of(r), r.lo, r.hi),
                hint};
  };
  if (!(indication >= r.lo)) refuse("clean the prism, re-zero in water and read again");
  if (!(indication <= r.hi)) refuse("check the digits, or thin the sample with weighed water");
}

double ideal_indication(const Refractometer& r, const physics::Liquid& liquid, ModelTemperature t,
                        const physics::ExtractOptics& optics, double index_error) {
  const ModelTemperature at = r.compensated ? celsius_point(reference_c) : t;
  const RefractiveIndex n{refractive_index(liquid, at, optics).value() + index_error};
  return r.scale == RefractometerScale::brix ? physics::brix_shown_from_index(n).value()
                                             : n.value();
}

double compensation_half_width(const Refractometer& r, double away_c) {
  return r.compensated ? r.division * std::min(1.0, away_c / full_doubt_c) : 0;
}

uncertainty::Input compensation_input(const Refractometer& r, double away_c,
                                      const std::string& of) {
  uncertainty::Input input = uncertainty::rectangular(
      "temperature compensation for " + of, uncertainty::unit_of_scale, 0,
      compensation_half_width(r, away_c),
      "within a division at 5 °C or more from 20 °C: engineering judgement");
  input.what = "temperature compensation";
  input.of = of;
  return from(uncertainty::Origin::compensation, std::move(input));
}

RefractometerInputs add_refractometer(uncertainty::Inputs& inputs, const Refractometer& r,
                                      const Correction& correction) {
  return {r, add_correction(inputs, {r.identity, r.name}, uncertainty::unit_of_scale, correction)};
}

namespace {

uncertainty::InputRef add_compensation(uncertainty::Inputs& inputs, const Refractometer& r,
                                       const RefractometerReading& reading, const std::string& of) {
  uncertainty::Input input = compensation_input(r, distance_c(reading.temperature), of);
  input.thing = reading.identity;
  return inputs.add(std::move(input));
}

}  // namespace

RefractionInputs::RefractionInputs(uncertainty::Inputs& inputs,
                                   const RefractometerInputs& refractometer,
                                   const RefractometerReading& r, const std::string& of,
                                   const std::optional<CorrectionInputs>& shared)
    : refractometer_{refractometer},
      temperature_{add_temperature(inputs, of, r.temperature, shared)},
      indication_{add_indication(inputs, of,
                                 {r.indication, r.half_width, refractometer.refractometer.division,
                                  uncertainty::Origin::reading, r.repeated, r.identity})},
      compensation_{add_compensation(inputs, refractometer.refractometer, r, of)} {
  require_on_scale(refractometer.refractometer, r.indication);
  // With compensation too: it is known for this range only.
  require_temperature(physics::index_temperature_range, r.temperature);
}

double RefractionInputs::corrected_indication(const uncertainty::Point& x) const {
  return x[indication_] + x[compensation_] + refractometer_.correction.at(x, x[indication_]);
}

ModelTemperature RefractionInputs::temperature(const uncertainty::Point& x) const {
  if (refractometer_.refractometer.compensated) return celsius_point(reference_c);
  return temperature_.at(x);
}

RefractiveIndex RefractionInputs::index(const uncertainty::Point& x) const {
  const double mark = corrected_indication(x);
  return refractometer_.refractometer.scale == RefractometerScale::brix
             ? physics::index_from_brix_shown(Brix{mark})
             : RefractiveIndex{mark};
}

double RefractionInputs::expected(const uncertainty::Point& x, const physics::Liquid& truth,
                                  double index_error) const {
  return ideal_indication(refractometer_.refractometer, truth, temperature(x),
                          physics::sucrose_optics, index_error);
}

double RefractionInputs::shortfall(const uncertainty::Point& x, const physics::Liquid& truth,
                                   double index_error) const {
  return expected(x, truth, index_error) - x[indication_] - x[compensation_];
}

}  // namespace areo::instruments
