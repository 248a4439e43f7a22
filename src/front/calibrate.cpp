#include "areo/front/calibrate.hpp"

#include <fmt/format.h>

#include <variant>

#include "areo/core/error.hpp"

namespace areo {

ReferenceLiquid weighed(const SugarAndWater& s) {
  return calibration::sugar_solution(number(s.sugar), number(s.water), number(s.balance_division));
}

ReferenceLiquid weighed(const SaltAndWater& s) {
  return calibration::salt_solution(number(s.salt), number(s.water), number(s.balance_division));
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

}  // namespace detail
}  // namespace areo
