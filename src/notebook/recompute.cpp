// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/notebook/recompute.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/core/nearest.hpp"
#include "areo/core/shell_word.hpp"

namespace areo::notebook {
namespace {

// A temperature as noted: with the thermometer's correction at that time, or assumed.
instruments::TemperatureReading temperature_of(const Notebook& notebook, Temperature reference,
                                               const std::optional<double>& temperature_c,
                                               double half_width_c,
                                               const std::optional<Id>& thermometer, Moment at) {
  if (!temperature_c) return instruments::assumed_temperature(reference);
  instruments::TemperatureReading t;
  t.indication_c = *temperature_c;
  t.half_width_c = half_width_c;
  if (thermometer) {
    const InstrumentRecord named = notebook.instrument(*thermometer);
    t.provenance = "read from " + named.name();
    t.thermometer = *named.thermometer();
    t.correction = correction_in_force(notebook, named, at);
  }
  return t;
}
instruments::TemperatureReading temperature_of(const Notebook& notebook, Temperature reference,
                                               const CheckRecord& c) {
  return temperature_of(notebook, reference, c.temperature_c, c.temperature_half_width_c,
                        c.thermometer, c.made_at);
}

calibration::PairedReading pair_of(const Notebook& notebook, const LiquidPairRecord& r) {
  const InstrumentRecord prism = notebook.instrument(r.refraction.instrument);
  const InstrumentRecord stem = notebook.instrument(r.gravity.instrument);
  const auto temperature = [&](Temperature reference, const PairHalf& half) {
    return temperature_of(notebook, reference, half.temperature_c, r.temperature_half_width_c,
                          r.thermometer, r.made_at);
  };
  return {
      *prism.refractometer(),
      correction_in_force(notebook, prism, r.made_at),
      {r.refraction.reading, r.refraction.half_width, temperature(celsius_point(20), r.refraction)},
      *stem.hydrometer(),
      correction_in_force(notebook, stem, r.made_at),
      {r.gravity.reading, r.gravity.half_width,
       temperature(stem.hydrometer()->scale.reference(), r.gravity), r.meniscus}};
}

// Points noted of one day are of one certificate.
void add_certificate_point(calibration::Checks& checks, const CheckRecord& c) {
  checks.add_certificate_point(c.reading, c.correction.value(), c.expanded.value(),
                               c.coverage_factor.value(), c.apart ? "" : c.made_at.date());
}

// Water, solutions and certificates check a hydrometer and a refractometer alike.
// @param reading_of  turns a record into a reading of that instrument
template <class Checks, class ReadingOf>
calibration::CheckSet evaluate_in_liquids(Checks checks, std::span<const CheckRecord> records,
                                          const ReadingOf& reading_of) {
  for (const CheckRecord& c : records) {
    const calibration::Water water = c.water.value_or(calibration::Water::unknown);
    if (c.method == CheckMethod::water)
      checks.add_in_water(reading_of(c), water);
    else if (c.method == CheckMethod::certificate)
      add_certificate_point(checks, c);
    else
      checks.add_in_solution(reading_of(c), c.solution.value(), water);
  }
  return checks.evaluate();
}

calibration::CheckSet evaluate_hydrometer(const Notebook& notebook,
                                          const instruments::Hydrometer& h,
                                          std::span<const CheckRecord> records) {
  return evaluate_in_liquids(calibration::HydrometerChecks{h}, records, [&](const CheckRecord& c) {
    return instruments::HydrometerReading{c.reading, c.reading_half_width,
                                          temperature_of(notebook, h.scale.reference(), c),
                                          c.meniscus};
  });
}

calibration::CheckSet evaluate_refractometer(const Notebook& notebook,
                                             const instruments::Refractometer& r,
                                             std::span<const CheckRecord> records) {
  return evaluate_in_liquids(
      calibration::RefractometerChecks{r}, records, [&](const CheckRecord& c) {
        return instruments::RefractometerReading{c.reading, c.reading_half_width,
                                                 temperature_of(notebook, celsius_point(20), c)};
      });
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
      add_certificate_point(checks, c);
    else
      checks.add_in_boiling_water(c.reading, half_width, pascals(c.pressure_pa.value()),
                                  c.pressure_half_width_pa.value());
  }
  return checks.evaluate();
}

// The calibrations that a moment lies between, and the one that holds then.
struct Calibrations {
  std::optional<CalibrationRecord> before, after, holds;
};
Calibrations calibrations_about(const Notebook& notebook, const InstrumentRecord& instrument,
                                Moment at) {
  Calibrations known;
  // In order of time; of two from the same moment the one added last is in force.
  const std::vector<CalibrationRecord> all = notebook.calibrations(instrument.id);
  for (const CalibrationRecord& r : all) {
    if (r.in_force_from <= at)
      known.before = r;
    else if (!known.after || known.after->in_force_from == r.in_force_from)
      known.after = r;
  }
  if (const CalibrationRecord* holds = in_force(all, at)) known.holds = *holds;
  return known;
}

instruments::Correction never_in_force(const Notebook& notebook, const InstrumentRecord& instrument,
                                       const std::optional<CalibrationRecord>& later) {
  const Graduation g = instrument.graduation();
  instruments::Correction never = instruments::never_checked(g.division, g.lo, g.hi, g.length);
  never.not_in_force = later || !notebook.checks(instrument.id).empty();
  if (later)
    never.provenance = fmt::format(
        "no calibration in force before {}, as its owner stated: error taken as within one "
        "division",
        later->in_force_from.date());
  else if (never.not_in_force)
    never.provenance = fmt::format(
        "no calibration in force, though it was checked (areo calibrate fit {}): error taken as "
        "within one division",
        shell_word(instrument.name()));
  return never;
}

// What to do about an overdue calibration, or what was done about it later.
std::string reminder(const InstrumentRecord& instrument, Moment due,
                     const std::optional<CalibrationRecord>& next) {
  const std::string what_next =
      next ? fmt::format("calibrated again on {}", next->in_force_from.date())
      : instrument.thermometer() == nullptr
          ? fmt::format("areo calibrate water {} READING TEMP", shell_word(instrument.name()))
          : fmt::format("areo calibrate ice {} READING", shell_word(instrument.name()));
  return fmt::format("{} was due for a check on {} ({})", instrument.name(), due.date(), what_next);
}

void add_retirement(instruments::Correction& c, const Notebook& notebook,
                    const InstrumentRecord& instrument, Moment at) {
  const auto retired = notebook.retired(instrument.id);
  if (retired && at > retired->at)
    c.remarks.push_back(fmt::format("{} retired on {}: {}", instrument.name(), retired->at.date(),
                                    retired->reason));
}

}  // namespace

void require_method(const InstrumentRecord& instrument, CheckMethod method) {
  using enum CheckMethod;
  const std::vector<CheckMethod> allowed =
      instrument.hydrometer() != nullptr      ? std::vector{water, sugar, salt, certificate}
      : instrument.refractometer() != nullptr ? std::vector{water, sugar, certificate}
                                              : std::vector{ice, boiling, certificate};
  if (std::find(allowed.begin(), allowed.end(), method) != allowed.end()) return;
  std::string ways;
  for (const CheckMethod m : allowed)
    ways += fmt::format("{}{}", ways.empty() ? "" : ", ", word(m));
  throw Error{Errc::inconsistent,
              fmt::format("{} is a {}, and '{}' does not check one", instrument.name(),
                          instrument.kind(), word(method)),
              fmt::format("what does: areo calibrate {}", ways)};
}

calibration::CheckSet evaluate(const Notebook& notebook, const InstrumentRecord& instrument,
                               std::span<const CheckRecord> checks) {
  for (const CheckRecord& c : checks) require_method(instrument, c.method);
  return notebook.evaluated(instrument, checks, [&] {
    if (const auto* h = instrument.hydrometer()) return evaluate_hydrometer(notebook, *h, checks);
    if (const auto* r = instrument.refractometer())
      return evaluate_refractometer(notebook, *r, checks);
    return evaluate_thermometer(*instrument.thermometer(), checks);
  });
}

calibration::CorrectionFit fit(const Notebook& notebook, const InstrumentRecord& instrument,
                               std::span<const CheckRecord> checks) {
  const Graduation g = instrument.graduation();
  return calibration::fit_correction(evaluate(notebook, instrument, checks), g.division, g.length);
}

std::vector<CheckRecord> checks_of(const Notebook& notebook, const CalibrationRecord& calibration) {
  std::vector<CheckRecord> used;
  for (CheckRecord& c : notebook.checks(calibration.instrument))
    if (std::find(calibration.checks.begin(), calibration.checks.end(), c.id) !=
        calibration.checks.end())
      used.push_back(std::move(c));
  return used;
}

instruments::Correction correction_of(const Notebook& notebook, const InstrumentRecord& instrument,
                                      const CalibrationRecord& calibration) {
  return notebook.corrected(calibration, [&] {
    instruments::Correction c =
        fit(notebook, instrument, checks_of(notebook, calibration)).correction;
    c.provenance =
        fmt::format("{}, in force from {}", c.provenance, calibration.in_force_from.date());
    return c;
  });
}

void add_drift(instruments::Correction& c, const instruments::Correction& before) {
  c.drift_offset = c.offset - before.at(c.r0);
  c.drift_slope = c.slope - before.slope;
}

double drift_part(std::span<const CalibrationRecord> all, const CalibrationRecord& holds,
                  Moment at) {
  const CalibrationRecord* before = predecessor(all, holds);
  if (before == nullptr || at <= holds.in_force_from) return 0;
  const auto seconds = [](Moment from, Moment to) {
    return static_cast<double>(to.seconds - from.seconds);
  };
  return std::min(
      1.0, seconds(holds.in_force_from, at) / seconds(before->in_force_from, holds.in_force_from));
}

bool is_old(const CalibrationRecord& calibration, Moment at) {
  constexpr std::int64_t year_s = 366 * std::int64_t{86400};
  return !calibration.due && at.seconds - calibration.in_force_from.seconds > year_s;
}

instruments::Correction correction_in_force(const Notebook& notebook,
                                            const InstrumentRecord& instrument, Moment at) {
  const Calibrations known = calibrations_about(notebook, instrument, at);
  instruments::Correction c = known.holds ? correction_of(notebook, instrument, *known.holds)
                                          : never_in_force(notebook, instrument, known.after);
  if (known.holds) {
    const auto all = notebook.calibrations(instrument.id);
    if (const CalibrationRecord* before = predecessor(all, *known.holds))
      add_drift(c, correction_of(notebook, instrument, *before));
    c.drift_part = drift_part(all, *known.holds, at);
    if (is_old(*known.holds, at))
      c.remarks.push_back(fmt::format("{} was last calibrated on {}, more than a year before",
                                      instrument.name(), known.holds->in_force_from.date()));
  }
  if (known.holds && at < known.holds->in_force_from)
    c.remarks.push_back(
        fmt::format("{} was checked later, on {}: that holds for earlier readings too",
                    instrument.name(), known.holds->in_force_from.date()));
  if (known.before && known.before->due && at > *known.before->due)
    c.remarks.push_back(reminder(instrument, *known.before->due, known.after));
  add_retirement(c, notebook, instrument, at);
  return c;
}

std::vector<ReadWith> changed(const Notebook& notebook, const InstrumentRecord& instrument,
                              std::span<const CalibrationRecord> before,
                              std::span<const CalibrationRecord> after) {
  // Each only once, however many readings there are; 0 is none.
  std::map<Id, instruments::Correction> known;
  const auto correction = [&](const CalibrationRecord* c) -> const instruments::Correction& {
    const Id id = c != nullptr ? c->id : 0;
    const auto found = known.find(id);
    if (found != known.end()) return found->second;
    return known
        .emplace(id, c != nullptr ? fit(notebook, instrument, checks_of(notebook, *c)).correction
                                  : never_in_force(notebook, instrument, {}))
        .first->second;
  };
  std::vector<ReadWith> all;
  for (ReadWith& r : notebook.read_with(instrument.id)) {
    const CalibrationRecord* was = in_force(before, r.made_at);
    const CalibrationRecord* is = in_force(after, r.made_at);
    if (was != is && !instruments::same_knowledge(correction(was), correction(is)))
      all.push_back(std::move(r));
  }
  return all;
}

instruments::Correction interpolated_correction(const Notebook& notebook,
                                                const InstrumentRecord& instrument, Moment at) {
  const Calibrations known = calibrations_about(notebook, instrument, at);
  if (!known.before || !known.after) {
    instruments::Correction c = correction_in_force(notebook, instrument, at);
    c.remarks.push_back(fmt::format("{}: no calibration {} {} to interpolate with",
                                    instrument.name(), known.before ? "after" : "before",
                                    at.date()));
    return c;
  }
  const auto since = [&](Moment m) {
    return static_cast<double>(m.seconds - known.before->in_force_from.seconds);
  };
  instruments::Correction c =
      instruments::interpolated(correction_of(notebook, instrument, *known.before),
                                correction_of(notebook, instrument, *known.after),
                                since(at) / since(known.after->in_force_from));
  add_retirement(c, notebook, instrument, at);
  return c;
}

calibration::Drift drift(const Notebook& notebook, const InstrumentRecord& instrument,
                         const CalibrationRecord& before, const CalibrationRecord& after) {
  std::vector<CheckRecord> together;
  const auto uses = [](const CalibrationRecord& calibration, const CheckRecord& c) {
    return std::find(calibration.checks.begin(), calibration.checks.end(), c.id) !=
           calibration.checks.end();
  };
  calibration::Selection of_before;
  calibration::Selection of_after;
  for (CheckRecord& c : notebook.checks(instrument.id)) {
    if (uses(before, c)) of_before.push_back(together.size());
    if (uses(after, c)) of_after.push_back(together.size());
    if (uses(before, c) || uses(after, c)) together.push_back(std::move(c));
  }
  const Graduation g = instrument.graduation();
  return calibration::drift(evaluate(notebook, instrument, together), of_before, of_after,
                            g.division, g.length);
}

std::vector<std::string> remarks_on_thermometers(const Notebook& notebook,
                                                 std::span<const CheckRecord> checks) {
  std::vector<std::string> all;
  for (const CheckRecord& c : checks) {
    if (!c.thermometer) continue;
    const InstrumentRecord named = notebook.instrument(*c.thermometer);
    for (std::string& r : correction_in_force(notebook, named, c.made_at).remarks)
      if (std::find(all.begin(), all.end(), r) == all.end()) all.push_back(std::move(r));
  }
  return all;
}

calibration::LiquidFactor liquid_factor(const Notebook& notebook,
                                        std::span<const LiquidPairRecord> pairs) {
  std::vector<calibration::PairedReading> readings;
  for (const LiquidPairRecord& r : pairs) readings.push_back(pair_of(notebook, r));
  return calibration::liquid_factor(readings);
}

calibration::LiquidFactor liquid_factor(const Notebook& notebook, std::string_view liquid) {
  auto pairs = notebook.liquid_pairs(liquid);
  const bool any = !pairs.empty();
  std::erase_if(pairs, [](const LiquidPairRecord& p) { return !p.left_out.empty(); });
  if (any && pairs.empty())
    throw Error{Errc::store, fmt::format("all pairs of '{}' are left out", liquid),
                "read an unfermented sample with both instruments: areo liquid pair"};
  if (!pairs.empty()) return liquid_factor(notebook, pairs);
  const std::string near = nearest(liquid, notebook.liquids());
  throw Error{Errc::store, fmt::format("the notebook has no pair of readings of '{}'", liquid),
              near.empty() ? "read an unfermented sample with both instruments: areo liquid pair"
                           : fmt::format("did you mean '{}'?", near)};
}

}  // namespace areo::notebook
