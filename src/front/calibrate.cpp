// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/front/calibrate.hpp"

#include <fmt/format.h>

#include <utility>
#include <variant>

#include "areo/core/error.hpp"

namespace areo {

ReferenceLiquid weighed(const SugarAndWater& s) {
  return calibration::sugar_solution(number(s.sugar), number(s.water), number(s.balance_division));
}

ReferenceLiquid weighed(const SaltAndWater& s) {
  return calibration::salt_solution(number(s.salt), number(s.water), number(s.balance_division));
}

Calibration<Thermometer> calibrate(const Thermometer& thermometer,
                                   const std::vector<ThermometerCheck>& checks) {
  calibration::CorrectionFit fitted = detail::fit(thermometer, checks);
  Thermometer calibrated = thermometer;
  calibrated.correction = fitted.correction;
  return {std::move(calibrated), std::move(fitted)};
}

namespace detail {
namespace {

void require_same(bool same, const std::string& name) {
  if (!same)
    throw Error{Errc::inconsistent,
                fmt::format("a check of {} was read on another instrument, or on one that was "
                            "described in another way then",
                            name),
                "read its checks with the instrument that is calibrated, or a copy of it"};
}

const instruments::Hydrometer& of(const measurement::HydrometerSample& sample) {
  return sample.instrument.hydrometer;
}
const instruments::Refractometer& of(const measurement::RefractometerSample& sample) {
  return sample.instrument.refractometer;
}

// @param length  of the scale
template <class Checks, class OwnReading, class Instrument>
calibration::CorrectionFit fitted(const Instrument& instrument, double length,
                                  const std::vector<AnyCheck>& checks) {
  Checks all{instrument};
  for (const AnyCheck& check : checks) {
    const auto& sample = std::get<OwnReading>(check.reading).sample();
    require_same(of(sample) == instrument, instrument.name);
    if (check.solution)
      all.add_in_solution(sample.reading, *check.solution, check.water);
    else
      all.add_in_water(sample.reading, check.water);
  }
  return calibration::fit_correction(all.evaluate(), instrument.division, length);
}

Evidence evidence(uncertainty::Inputs inputs, const uncertainty::Model& model) {
  const auto result = measurement::evaluate(std::move(inputs), model, {{"correction", "", ""}});
  return EvidenceOf{result, Identity{}}("correction");
}

}  // namespace

calibration::CorrectionFit fit(const instruments::Hydrometer& h,
                               const std::vector<AnyCheck>& checks) {
  return fitted<calibration::HydrometerChecks, HydrometerReading>(h, h.scale_length(), checks);
}

calibration::CorrectionFit fit(const instruments::Refractometer& r,
                               const std::vector<AnyCheck>& checks) {
  return fitted<calibration::RefractometerChecks, RefractometerReading>(r, r.hi - r.lo, checks);
}

calibration::CorrectionFit fit(const Thermometer& instrument,
                               const std::vector<ThermometerCheck>& checks) {
  const instruments::Thermometer t = instrument.inner();
  calibration::ThermometerChecks all{t};
  for (const ThermometerCheck& check : checks) {
    const instruments::TemperatureReading& r = check.reading.inner();
    require_same(r.thermometer == t, t.name);
    if (check.boiling_at)
      all.add_in_boiling_water(r.indication_c, r.half_width_c, *check.boiling_at,
                               check.known_to.value());
    else
      all.add_in_ice(r.indication_c, r.half_width_c);
  }
  return calibration::fit_correction(all.evaluate(), t.division_c, t.hi_c - t.lo_c);
}

Evidence correction_at(const measurement::Calibrated& instrument, double mark) {
  uncertainty::Inputs inputs;
  const auto stem =
      instruments::add_hydrometer(inputs, instrument.hydrometer, instrument.correction);
  return evidence(inputs, [=](const uncertainty::Point& x) {
    return std::vector{stem.correction_at(x, mark)};
  });
}

Evidence correction_at(const measurement::CalibratedRefractometer& instrument, double mark) {
  uncertainty::Inputs inputs;
  const auto prism =
      instruments::add_refractometer(inputs, instrument.refractometer, instrument.correction);
  return evidence(inputs, [=](const uncertainty::Point& x) {
    return std::vector{prism.correction.at(x, mark)};
  });
}

Evidence correction_at(const Thermometer& instrument, double mark) {
  const instruments::Thermometer t = instrument.inner();
  uncertainty::Inputs inputs;
  const auto own = instruments::add_correction(inputs, {t.identity, t.name}, "°C",
                                               instrument.correction_or_unchecked(),
                                               uncertainty::Origin::thermometer);
  return evidence(inputs,
                  [=](const uncertainty::Point& x) { return std::vector{own.at(x, mark)}; });
}

}  // namespace detail
}  // namespace areo
