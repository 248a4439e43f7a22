#include "areo/notebook/recompute.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::notebook {
namespace {

instruments::HydrometerReading reading_of(const instruments::Hydrometer& h, const CheckRecord& c) {
  instruments::HydrometerReading r;
  r.indication = c.reading;
  r.half_width = c.reading_half_width;
  r.meniscus = c.meniscus;
  if (c.temperature_c) {
    r.temperature.indication_c = *c.temperature_c;
    r.temperature.half_width_c = c.temperature_half_width_c;
  } else {
    r.temperature = instruments::assumed_temperature(h.scale.reference());
  }
  return r;
}

calibration::Check evaluate_hydrometer(const instruments::Hydrometer& h, const CheckRecord& c) {
  switch (c.method) {
    case CheckMethod::water: return calibration::check_in_water(h, reading_of(h, c));
    case CheckMethod::sugar:
    case CheckMethod::salt:
      return calibration::check_in_solution(h, reading_of(h, c), c.solution.value());
    case CheckMethod::certificate:
      return calibration::certificate_point(c.reading, c.correction.value(), c.expanded.value(),
                                            c.coverage_factor.value());
    case CheckMethod::ice:
    case CheckMethod::boiling: break;
  }
  throw Error{Errc::inconsistent, "ice and boiling water check a thermometer, not a hydrometer"};
}

calibration::Check evaluate_thermometer(const instruments::Thermometer& t, const CheckRecord& c) {
  // A scale with steps: the reading lies within half of one, or within what was typed.
  const double half_width = c.reading_half_width > 0 ? c.reading_half_width : t.division_c / 2;
  switch (c.method) {
    case CheckMethod::ice: return calibration::check_in_ice(t, c.reading, half_width);
    case CheckMethod::boiling:
      return calibration::check_in_boiling_water(t, c.reading, half_width,
                                                 pascals(c.pressure_pa.value()),
                                                 c.pressure_half_width_pa.value());
    case CheckMethod::certificate:
      return calibration::certificate_point(c.reading, c.correction.value(), c.expanded.value(),
                                            c.coverage_factor.value());
    case CheckMethod::water:
    case CheckMethod::sugar:
    case CheckMethod::salt: break;
  }
  throw Error{Errc::inconsistent, "water and solutions check a hydrometer, not a thermometer"};
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

calibration::Check evaluate(const InstrumentRecord& instrument, const CheckRecord& check) {
  if (const auto* h = instrument.hydrometer()) return evaluate_hydrometer(*h, check);
  return evaluate_thermometer(*instrument.thermometer(), check);
}

calibration::CorrectionFit fit(const InstrumentRecord& instrument,
                               std::span<const CheckRecord> checks) {
  std::vector<calibration::Check> evaluated;
  for (const CheckRecord& c : checks) evaluated.push_back(evaluate(instrument, c));
  const auto [division, lo, hi] = scale_of(instrument);
  return calibration::fit_correction(evaluated, division, lo, hi);
}

instruments::Correction correction_in_force(const Notebook& notebook,
                                            const InstrumentRecord& instrument, Moment at) {
  const auto calibration = notebook.in_force(instrument.id, at);
  const auto [division, lo, hi] = scale_of(instrument);
  if (!calibration) return instruments::never_checked(division, lo, hi);
  std::vector<CheckRecord> used;
  for (CheckRecord& c : notebook.checks(instrument.id))
    if (std::find(calibration->checks.begin(), calibration->checks.end(), c.id) !=
        calibration->checks.end())
      used.push_back(std::move(c));
  instruments::Correction c = fit(instrument, used).correction;
  c.provenance =
      fmt::format("{}, in force from {}", c.provenance, calibration->in_force_from.date());
  return c;
}

}  // namespace areo::notebook
