#include "areo/notebook/recompute.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::notebook {
namespace {

instruments::TemperatureReading temperature_of(const Notebook& notebook,
                                               const instruments::Hydrometer& h,
                                               const CheckRecord& c) {
  if (!c.temperature_c) return instruments::assumed_temperature(h.scale.reference());
  instruments::TemperatureReading t;
  t.indication_c = *c.temperature_c;
  t.half_width_c = c.temperature_half_width_c;
  if (c.thermometer) {
    const InstrumentRecord named = notebook.instrument(*c.thermometer);
    t.provenance = "read from " + named.name();
    t.thermometer = *named.thermometer();
    t.correction = correction_in_force(notebook, named, c.made_at);
  }
  return t;
}

calibration::CheckSet evaluate_hydrometer(const Notebook& notebook,
                                          const instruments::Hydrometer& h,
                                          std::span<const CheckRecord> records) {
  calibration::HydrometerChecks checks{h};
  for (const CheckRecord& c : records) {
    const instruments::HydrometerReading reading{c.reading, c.reading_half_width,
                                                 temperature_of(notebook, h, c), c.meniscus};
    if (c.method == CheckMethod::water)
      checks.add_in_water(reading);
    else if (c.method == CheckMethod::certificate)
      checks.add_certificate_point(c.reading, c.correction.value(), c.expanded.value(),
                                   c.coverage_factor.value());
    else
      checks.add_in_solution(reading, c.solution.value());
  }
  return checks.evaluate();
}

calibration::CheckSet evaluate_thermometer(const instruments::Thermometer& t,
                                           std::span<const CheckRecord> records) {
  calibration::ThermometerChecks checks{t};
  for (const CheckRecord& c : records) {
    // A scale with steps: the reading lies within half of one, or within what was typed.
    const double half_width = c.reading_half_width > 0 ? c.reading_half_width : t.division_c / 2;
    if (c.method == CheckMethod::ice)
      checks.add_in_ice(c.reading, half_width);
    else if (c.method == CheckMethod::certificate)
      checks.add_certificate_point(c.reading, c.correction.value(), c.expanded.value(),
                                   c.coverage_factor.value());
    else
      checks.add_in_boiling_water(c.reading, half_width, pascals(c.pressure_pa.value()),
                                  c.pressure_half_width_pa.value());
  }
  return checks.evaluate();
}

struct ScaleOf {
  double division, lo, hi;
};
ScaleOf scale_of(const InstrumentRecord& r) {
  if (const auto* h = r.hydrometer()) return {h->division, h->lo, h->hi};
  const auto* t = r.thermometer();
  return {t->division_c, t->lo_c, t->hi_c};
}

}  // namespace

void require_method(const InstrumentRecord& instrument, CheckMethod method) {
  const bool of_hydrometer =
      method == CheckMethod::water || method == CheckMethod::sugar || method == CheckMethod::salt;
  const bool of_thermometer = method == CheckMethod::ice || method == CheckMethod::boiling;
  if (of_hydrometer && instrument.hydrometer() == nullptr)
    throw Error{Errc::inconsistent,
                fmt::format("{} is a thermometer; water and solutions check a hydrometer",
                            instrument.name()),
                "check a thermometer with: areo calibrate ice, areo calibrate boiling"};
  if (of_thermometer && instrument.thermometer() == nullptr)
    throw Error{Errc::inconsistent,
                fmt::format("{} is a hydrometer; ice and boiling water check a thermometer",
                            instrument.name()),
                "check a hydrometer with: areo calibrate water, areo calibrate sugar"};
}

calibration::CheckSet evaluate(const Notebook& notebook, const InstrumentRecord& instrument,
                               std::span<const CheckRecord> checks) {
  for (const CheckRecord& c : checks) require_method(instrument, c.method);
  if (const auto* h = instrument.hydrometer()) return evaluate_hydrometer(notebook, *h, checks);
  return evaluate_thermometer(*instrument.thermometer(), checks);
}

calibration::CorrectionFit fit(const Notebook& notebook, const InstrumentRecord& instrument,
                               std::span<const CheckRecord> checks) {
  const auto [division, lo, hi] = scale_of(instrument);
  return calibration::fit_correction(evaluate(notebook, instrument, checks), division, lo, hi);
}

std::vector<CheckRecord> checks_of(const Notebook& notebook, const CalibrationRecord& calibration) {
  std::vector<CheckRecord> used;
  for (CheckRecord& c : notebook.checks(calibration.instrument))
    if (std::find(calibration.checks.begin(), calibration.checks.end(), c.id) !=
        calibration.checks.end())
      used.push_back(std::move(c));
  return used;
}

instruments::Correction correction_in_force(const Notebook& notebook,
                                            const InstrumentRecord& instrument, Moment at) {
  const auto calibration = notebook.in_force(instrument.id, at);
  if (!calibration) {
    const auto [division, lo, hi] = scale_of(instrument);
    return instruments::never_checked(division, lo, hi);
  }
  instruments::Correction c =
      fit(notebook, instrument, checks_of(notebook, *calibration)).correction;
  c.provenance =
      fmt::format("{}, in force from {}", c.provenance, calibration->in_force_from.date());
  return c;
}

}  // namespace areo::notebook
