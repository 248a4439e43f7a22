// SPDX-License-Identifier: GPL-3.0-or-later
// Pairs of readings of a liquid: kept as they were read, and what they say of its extract.
#include <gtest/gtest.h>

#include <limits>

#include "areo/calibration/liquid_factor.hpp"
#include "areo/core/error.hpp"
#include "areo/notebook/recompute.hpp"
#include "temporary.hpp"

namespace areo::notebook {
namespace {

InstrumentRecord refractometer(const std::string& name) {
  InstrumentRecord r;
  r.instrument = instruments::Refractometer{.name = name};
  r.added_at = moment_from_text("2026-02-28");
  return r;
}

class LiquidPairs : public TemporaryFolder {
 protected:
  [[nodiscard]] LiquidPairRecord pair(const std::string& liquid, double brix, double gravity,
                                      const char* at) const {
    LiquidPairRecord r;
    r.liquid = liquid;
    r.made_at = moment_from_text(at);
    r.refraction = {prism, "as typed", brix, 0, "20C", 20.0};
    r.gravity = {stem, "as typed", gravity, 0, "20C", 20.0};
    return r;
  }
  // A check in water from which on the instrument reads too high by `error`.
  void calibrate(Id instrument, double error, double in_water, const char* from) {
    CheckRecord c = water_check(instrument, in_water + error, from);
    c.temperature_c = 20;
    CalibrationRecord changed_then = calibration(instrument, {book.add(c)}, from);
    changed_then.from_stated = true;
    book.add(changed_then);
  }
  Notebook book{path(), Open::create};
  Id prism = book.add(refractometer("prism-1"));
  Id stem = book.add(hydrometer("stem-1"));
};

void expect_equal(const PairHalf& a, const PairHalf& b) {
  EXPECT_EQ(a.instrument, b.instrument);
  EXPECT_EQ(a.typed, b.typed);
  EXPECT_EQ(a.reading, b.reading);
  EXPECT_EQ(a.half_width, b.half_width);
  EXPECT_EQ(a.temperature_typed, b.temperature_typed);
  EXPECT_EQ(a.temperature_c, b.temperature_c);
}

TEST_F(LiquidPairs, KeepEveryField) {
  LiquidPairRecord full = pair("pear-juice", 0, 0, "2026-03-01T10:15+01:00");
  full.refraction = {prism, "12,8", 12.8, 0.1 + 0.2, "68F", 50.0 / 3};
  full.gravity = {stem, "1050", 1.05, 0.005, "21C", 21.0};
  full.meniscus = instruments::Meniscus::top;
  full.thermometer = book.add(thermometer("probe-1"));
  full.temperature_half_width_c = 0.25;
  full.note = "with a \"note\"";
  LiquidPairRecord bare = pair("pear-juice", 12.6, 1.051, "2026-03-02");
  bare.refraction.temperature_c.reset();
  bare.refraction.temperature_typed = "";
  bare.gravity.temperature_c.reset();
  bare.gravity.temperature_typed = "";
  full.id = book.add(full);
  bare.id = book.add(bare);
  const auto back = Notebook{path()}.liquid_pairs("pear-juice");
  ASSERT_EQ(back.size(), 2u);
  for (const auto& [in, out] : {std::pair{full, back[0]}, std::pair{bare, back[1]}}) {
    EXPECT_EQ(out.id, in.id);
    EXPECT_EQ(out.liquid, in.liquid);
    EXPECT_EQ(out.made_at.text(), in.made_at.text());
    expect_equal(out.refraction, in.refraction);
    expect_equal(out.gravity, in.gravity);
    EXPECT_EQ(out.meniscus, in.meniscus);
    EXPECT_EQ(out.thermometer, in.thermometer);
    EXPECT_EQ(out.temperature_half_width_c, in.temperature_half_width_c);
    EXPECT_EQ(out.note, in.note);
  }
}

TEST_F(LiquidPairs, ComeInOrderOfTheirTime) {
  book.add(pair("pear-juice", 12.3, 1.050, "2026-03-01T12:00+03:00"));  // 09:00Z
  book.add(pair("pear-juice", 12.1, 1.050, "2026-03-01T08:00Z"));
  book.add(pair("pear-juice", 12.2, 1.050, "2026-03-01T10:00+02:00"));  // 08:00Z too: as added
  book.add(pair("malt-wort", 14, 1.050, "2026-03-01T08:30Z"));
  std::vector<double> readings;
  for (const auto& p : book.liquid_pairs("pear-juice")) readings.push_back(p.refraction.reading);
  EXPECT_EQ(readings, (std::vector<double>{12.1, 12.2, 12.3}));
  EXPECT_EQ(book.liquids(), (std::vector<std::string>{"malt-wort", "pear-juice"}));
  EXPECT_TRUE(book.liquid_pairs("pear").empty());
}

TEST_F(LiquidPairs, AreNeverChanged) {
  book.add(pair("pear-juice", 12.4, 1.050, "2026-03-01"));
  const sqlite::Connection db = raw(path());
  for (const char* sql :
       {"UPDATE liquid_pair SET refraction = 1", "UPDATE liquid_pair SET note = 'x' WHERE id = 1",
        "DELETE FROM liquid_pair", "DELETE FROM liquid_pair WHERE id = 1"})
    expect_contains(refusal([&] { db.run(sql); }), "what was read is never");
  EXPECT_EQ(db.number("SELECT count(*) FROM liquid_pair WHERE refraction = 12.4"), 1);
}

TEST_F(LiquidPairs, ARefusedOneLeavesNoRow) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  LiquidPairRecord no_prism = pair("pear-juice", 12.4, 1.050, "2026-03-01");
  no_prism.refraction.instrument = 99;
  for (const auto& r :
       {pair("", 12.4, 1.050, "2026-03-01"), pair("pear-juice", nan, 1.050, "2026-03-01"),
        pair("pear-juice", 12.4, nan, "2026-03-01"), no_prism})
    EXPECT_NE(refusal([&] { book.add(r); }), "accepted");
  EXPECT_TRUE(book.liquids().empty());
}

// --- what they say ------------------------------------------------------------------------------

void expect_same(const calibration::LiquidFactor& a, const calibration::LiquidFactor& b) {
  EXPECT_EQ(a.optics.relative_rise, b.optics.relative_rise);
  EXPECT_EQ(a.optics.uncertainty, b.optics.uncertainty);
  EXPECT_EQ(a.chi_squared, b.chi_squared);
  EXPECT_EQ(a.each.size(), b.each.size());
}

TEST_F(LiquidPairs, TheFactorIsThatOfThePairedReadings) {
  LiquidPairRecord r = pair("pear-juice", 12.8, 1.050, "2026-03-01");
  r.refraction.half_width = 0.3;
  r.gravity.temperature_c = 22;
  r.temperature_half_width_c = 0.2;
  r.meniscus = instruments::Meniscus::top;
  book.add(r);
  const auto temperature = [](double t_c) {
    instruments::TemperatureReading t;
    t.indication_c = t_c;
    t.half_width_c = 0.2;
    return t;
  };
  const auto& p = book.instrument(prism);
  const auto& h = book.instrument(stem);
  const calibration::PairedReading direct{
      *p.refractometer(),
      instruments::never_checked(0.2, 0, 32),
      {12.8, 0.3, temperature(20)},
      *h.hydrometer(),
      instruments::never_checked(h.graduation().division, h.graduation().lo, h.graduation().hi),
      {1.050, 0, temperature(22), instruments::Meniscus::top}};
  expect_same(liquid_factor(book, "pear-juice"), calibration::liquid_factor(std::span{&direct, 1}));
}

// An error that came later does not reach back; one found before the pair is taken off.
TEST_F(LiquidPairs, EachInstrumentCountsWithItsCorrectionAtTheTime) {
  const auto factor = [&](double brix, double gravity, const char* at) {
    const LiquidPairRecord r = pair("pear-juice", brix, gravity, at);
    return liquid_factor(book, std::span{&r, 1}).optics.relative_rise;
  };
  const double right = factor(12.4, 1.050, "2026-03-01T09:00Z");
  calibrate(prism, 0.6, 0, "2026-03-01T10:00Z");
  EXPECT_EQ(factor(12.4, 1.050, "2026-03-01T09:00Z"), right);
  EXPECT_NEAR(factor(13.0, 1.050, "2026-03-01T11:00Z"), right, 1e-9);
  calibrate(stem, 0.003, 1, "2026-03-01T12:00Z");
  EXPECT_NEAR(factor(13.0, 1.050, "2026-03-01T11:00Z"), right, 1e-9);
  EXPECT_NEAR(factor(13.0, 1.053, "2026-03-01T13:00Z"), right, 1e-9);
  EXPECT_EQ(factor(12.4, 1.050, "2026-03-01T09:00Z"), right);
}

TEST_F(LiquidPairs, AThermometerCountsWithItsCorrection) {
  InstrumentRecord probe;
  probe.instrument = instruments::Thermometer{"probe-1", -10, 110, 1};
  const Id id = book.add(probe);
  CheckRecord ice = water_check(id, 2, "2026-03-01T10:00Z");
  ice.method = CheckMethod::ice;
  book.add(calibration(id, {book.add(ice)}, "2026-03-01T10:00Z"));
  LiquidPairRecord r = pair("pear-juice", 12.4, 1.050, "2026-03-01T11:00Z");
  const auto factor = [&] { return liquid_factor(book, std::span{&r, 1}).optics.relative_rise; };
  const double at_20 = factor();
  r.refraction.temperature_c = r.gravity.temperature_c = 22;
  r.thermometer = id;
  EXPECT_NEAR(factor(), at_20, 1e-9);
}

TEST_F(LiquidPairs, NoTemperatureIsThatOfTheScales) {
  LiquidPairRecord r = pair("pear-juice", 12.4, 1.050, "2026-03-01");
  const auto at_20 = liquid_factor(book, std::span{&r, 1}).optics;
  r.refraction.temperature_c.reset();
  r.gravity.temperature_c.reset();
  const auto assumed = liquid_factor(book, std::span{&r, 1}).optics;
  EXPECT_NEAR(assumed.relative_rise, at_20.relative_rise, 1e-12);
  EXPECT_GT(assumed.uncertainty, at_20.uncertainty);
}

TEST_F(LiquidPairs, AnUnknownLiquidIsRefusedWithTheNearest) {
  expect_contains(refusal([&] { (void)liquid_factor(book, "pear-juice"); }),
                  "no pair of readings of 'pear-juice' | read an unfermented sample");
  book.add(pair("pear-juice", 12.4, 1.050, "2026-03-01"));
  expect_contains(refusal([&] { (void)liquid_factor(book, "pear-juise"); }),
                  "did you mean 'pear-juice'?");
}

}  // namespace
}  // namespace areo::notebook
