// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/notebook/recompute.hpp"

#include <gtest/gtest.h>

#include "areo/core/error.hpp"
#include "temporary.hpp"

namespace areo::notebook {
namespace {

using calibration::Check;

void expect_same(const Check& a, const Check& b) {
  EXPECT_EQ(a.label, b.label);
  EXPECT_EQ(a.indication, b.indication);
  EXPECT_EQ(a.expected.estimate, b.expected.estimate);
  EXPECT_EQ(a.expected.u, b.expected.u);
  EXPECT_EQ(a.correction.estimate, b.correction.estimate);
  EXPECT_EQ(a.correction.u, b.correction.u);
  EXPECT_GT(a.correction.u, 0);
}

InstrumentRecord thermometer() {
  InstrumentRecord r;
  r.instrument = instruments::Thermometer{"probe-1", -10, 110, 1};
  return r;
}

CheckRecord check(CheckMethod method, double reading) {
  CheckRecord c = water_check(1, reading, "2026-03-01T10:00Z");
  c.method = method;
  c.temperature_half_width_c = 0.3;
  return c;
}

instruments::HydrometerReading reading(double indication) {
  instruments::HydrometerReading r;
  r.indication = indication;
  r.temperature.indication_c = 21;
  r.temperature.half_width_c = 0.3;
  return r;
}

// None of these checks names a thermometer, so no notebook is looked into.
const Notebook& empty_notebook() {
  static const Folder folder;
  static const Notebook book{folder.path() / "notebook.db", Open::create};
  return book;
}
Check evaluate(const InstrumentRecord& instrument, const CheckRecord& record) {
  return evaluate(empty_notebook(), instrument, std::span{&record, 1}).checks.at(0);
}
calibration::CorrectionFit fit(const InstrumentRecord& instrument,
                               const std::vector<CheckRecord>& records) {
  return fit(empty_notebook(), instrument, records);
}
Check in_water(const InstrumentRecord& h, const instruments::HydrometerReading& r) {
  calibration::HydrometerChecks checks{*h.hydrometer()};
  checks.add_in_water(r);
  return checks.evaluate().checks.at(0);
}

TEST(Evaluate, IsTheCheckInWater) {
  const auto stem = hydrometer("stem-1");
  expect_same(evaluate(stem, check(CheckMethod::water, 1.001)), in_water(stem, reading(1.001)));
}

TEST(Evaluate, PassesOnHowItWasRead) {
  const auto stem = hydrometer("stem-1");
  CheckRecord c = check(CheckMethod::water, 1.001);
  c.reading_half_width = 0.005;
  c.meniscus = instruments::Meniscus::top;
  auto r = reading(1.001);
  r.half_width = 0.005;
  r.meniscus = instruments::Meniscus::top;
  expect_same(evaluate(stem, c), in_water(stem, r));
  EXPECT_GT(evaluate(stem, c).correction.u,
            evaluate(stem, check(CheckMethod::water, 1.001)).correction.u);
}

TEST(Evaluate, AssumesTheReferenceTemperatureIfNoneWasGiven) {
  const auto stem = hydrometer("stem-1");
  CheckRecord c = check(CheckMethod::water, 1.001);
  c.temperature_c.reset();
  auto r = reading(1.001);
  r.temperature = instruments::assumed_temperature(stem.hydrometer()->scale.reference());
  expect_same(evaluate(stem, c), in_water(stem, r));
}

TEST(Evaluate, IsTheCheckInASolution) {
  const auto stem = hydrometer("stem-1");
  for (const auto& [method, solution] :
       {std::pair{CheckMethod::sugar, calibration::sugar_solution(52, 448, 0.1)},
        std::pair{CheckMethod::salt, calibration::salt_solution(28.5, 471.5, 1)}}) {
    CheckRecord c = check(method, 1.041);
    c.solution = solution;
    calibration::HydrometerChecks checks{*stem.hydrometer()};
    checks.add_in_solution(reading(1.041), solution);
    expect_same(evaluate(stem, c), checks.evaluate().checks.at(0));
  }
}

TEST(Evaluate, IsThePointOfACertificate) {
  CheckRecord c = check(CheckMethod::certificate, 1.040);
  c.correction = -0.0004;
  c.expanded = 0.0003;
  c.coverage_factor = 3;
  calibration::HydrometerChecks checks{*hydrometer("stem-1").hydrometer()};
  checks.add_certificate_point(1.040, -0.0004, 0.0003, 3);
  const Check expected = checks.evaluate().checks.at(0);
  expect_same(evaluate(hydrometer("stem-1"), c), expected);
  expect_same(evaluate(thermometer(), c), expected);
  EXPECT_NEAR(expected.correction.u, 0.0001, 1e-15);
}

TEST(Evaluate, IsTheFixedPointOfAThermometer) {
  const auto probe = thermometer();
  const auto direct = [&](const auto& add) {
    calibration::ThermometerChecks checks{*probe.thermometer()};
    add(checks);
    return checks.evaluate().checks.at(0);
  };
  CheckRecord ice = check(CheckMethod::ice, 0.5);
  expect_same(evaluate(probe, ice), direct([](auto& c) { c.add_in_ice(0.5, 0.5); }));
  ice.reading_half_width = 0.05;
  expect_same(evaluate(probe, ice), direct([](auto& c) { c.add_in_ice(0.5, 0.05); }));
  CheckRecord boiling = check(CheckMethod::boiling, 99);
  boiling.pressure_pa = 98200;
  boiling.pressure_half_width_pa = 200;
  expect_same(evaluate(probe, boiling),
              direct([](auto& c) { c.add_in_boiling_water(99, 0.5, pascals(98200), 200); }));
}

TEST(Evaluate, RefusesTheWrongInstrument) {
  for (const CheckMethod m : {CheckMethod::ice, CheckMethod::boiling})
    EXPECT_THROW((void)evaluate(hydrometer("stem-1"), check(m, 1)), Error);
  for (const CheckMethod m : {CheckMethod::water, CheckMethod::sugar, CheckMethod::salt})
    EXPECT_THROW((void)evaluate(thermometer(), check(m, 1)), Error);
}

std::vector<CheckRecord> three_checks() {
  std::vector<CheckRecord> checks{check(CheckMethod::water, 1.001),
                                  check(CheckMethod::sugar, 1.042),
                                  check(CheckMethod::sugar, 1.083)};
  checks[1].solution = calibration::sugar_solution(52, 448);
  checks[2].solution = calibration::sugar_solution(100, 400);
  return checks;
}

void expect_same(const instruments::Correction& a, const instruments::Correction& b) {
  EXPECT_EQ(a.r0, b.r0);
  EXPECT_EQ(a.offset, b.offset);
  EXPECT_EQ(a.u_offset, b.u_offset);
  EXPECT_EQ(a.slope, b.slope);
  EXPECT_EQ(a.u_slope, b.u_slope);
  EXPECT_EQ(a.checked_lo, b.checked_lo);
  EXPECT_EQ(a.checked_hi, b.checked_hi);
  EXPECT_EQ(a.u_slope_beyond, b.u_slope_beyond);
  EXPECT_EQ(a.checks, b.checks);
}

TEST(Fit, IsTheFitOfTheEvaluatedChecks) {
  const auto stem = hydrometer("stem-1");
  const auto records = three_checks();
  const auto* h = stem.hydrometer();
  const auto direct = calibration::fit_correction(evaluate(empty_notebook(), stem, records),
                                                  h->division, h->scale_length());
  const auto fitted = fit(stem, records);
  expect_same(fitted.correction, direct.correction);
  EXPECT_EQ(fitted.residuals, direct.residuals);
  EXPECT_EQ(fitted.slope_used, direct.slope_used);
  EXPECT_EQ(fitted.line.chi_squared, direct.line.chi_squared);
  EXPECT_NE(fitted.correction.offset, 0);
}

TEST(Fit, OfNoChecksIsRefused) { EXPECT_THROW((void)fit(hydrometer("stem-1"), {}), Error); }

using InForce = TemporaryFolder;

TEST_F(InForce, IsTheFitOfTheChecksNamedInTheCalibration) {
  Notebook book{path(), Open::create};
  book.add(hydrometer("stem-1"));
  const InstrumentRecord stem = book.instrument("stem-1");
  auto records = three_checks();
  for (auto& c : records) {
    c.instrument = stem.id;
    c.id = book.add(c);
  }
  const auto now = moment_from_text("2026-03-05");
  const auto* h = stem.hydrometer();
  const auto never = instruments::never_checked(h->division, h->lo, h->hi, h->length);
  // Checks alone change nothing until a calibration names them.
  expect_same(correction_in_force(book, stem, now), never);
  book.add(calibration(stem.id, {records[0].id, records[2].id}, "2026-03-02"));
  const std::vector<CheckRecord> two{records[0], records[2]};
  expect_same(correction_in_force(book, stem, now), fit(stem, two).correction);
  EXPECT_EQ(correction_in_force(book, stem, now).provenance, "2 checks, in force from 2026-03-02");
  book.add(calibration(stem.id, {records[0].id, records[1].id, records[2].id}, "2026-03-04"));
  expect_same(correction_in_force(book, stem, now), fit(stem, records).correction);
  // A reading made before keeps the correction of its time.
  expect_same(correction_in_force(book, stem, moment_from_text("2026-03-03")),
              fit(stem, two).correction);
  // One made before the first has that one's; the glass is the same.
  expect_same(correction_in_force(book, stem, moment_from_text("2026-03-01")),
              fit(stem, two).correction);
}

// A temperature counts with the correction that its thermometer had when the check was made.
TEST_F(InForce, AThermometerNamedInACheckIsCorrected) {
  Notebook book{path(), Open::create};
  book.add(thermometer());
  book.add(hydrometer("stem-1"));
  const InstrumentRecord probe = book.instrument("probe-1");
  const InstrumentRecord stem = book.instrument("stem-1");
  CheckRecord ice = check(CheckMethod::ice, 1);
  ice.instrument = probe.id;
  CalibrationRecord from_then_on = calibration(probe.id, {book.add(ice)}, "2026-03-01");
  from_then_on.from_stated = true;
  book.add(from_then_on);
  CheckRecord water = check(CheckMethod::water, 1.001);
  water.instrument = stem.id;
  water.made_at = moment_from_text("2026-03-02");
  const auto expected = [&] {
    return evaluate(book, stem, std::span{&water, 1}).checks.at(0).expected;
  };
  const double unnamed = expected().estimate;
  water.thermometer = probe.id;
  const auto named = expected();
  // Water of 20 °C, not 21 °C: 0.21 kg/m³ more, less the glass.
  EXPECT_NEAR(named.estimate - unnamed, (0.211 - 0.025) / 998.2, 2e-6);
  EXPECT_GT(named.u, 0);
  water.made_at = moment_from_text("2026-02-01");  // before the ice
  EXPECT_DOUBLE_EQ(expected().estimate, unnamed);
}

TEST_F(InForce, OfAThermometerThatWasNeverChecked) {
  Notebook book{path(), Open::create};
  book.add(thermometer());
  const auto c = correction_in_force(book, book.instrument("probe-1"), now());
  expect_same(c, instruments::never_checked(1, -10, 110));
  EXPECT_EQ(c.checks, 0);
}

}  // namespace
}  // namespace areo::notebook
