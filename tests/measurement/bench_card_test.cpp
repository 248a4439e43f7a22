// SPDX-License-Identifier: GPL-3.0-or-later
// What has to be added to an indication at some temperature: the same as a reading's result says,
// without what the reading brings.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "areo/core/error.hpp"
#include "areo/measurement/temperature_table.hpp"

namespace areo::measurement {
namespace {

using instruments::Correction;
using instruments::Refractometer;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

CalibratedRefractometer prism(bool compensated, double offset = -0.4, double slope = 0.02) {
  Refractometer r = instruments::ordinary_refractometer(instruments::RefractometerScale::brix);
  r.name = "prism-1";
  r.compensated = compensated;
  Correction c;
  c.r0 = 10;
  c.offset = offset;
  c.u_offset = 0.05;
  c.slope = slope;
  c.u_slope = 0.004;
  c.checked_lo = 0;
  c.checked_hi = 20;
  c.checks = 3;
  return {r, c};
}

Result read(const CalibratedRefractometer& instrument, double brix, double t_c,
            const ExtractKind& kind) {
  instruments::RefractometerReading reading;
  reading.indication = brix;
  reading.temperature.indication_c = t_c;
  return refract({instrument, reading}, kind, {});
}

TEST(RefractometerCorrection, IsThatOfAReading) {
  for (const char* word : {"sucrose", "mixed", "fructose"})
    for (const bool compensated : {false, true})
      for (const double brix : {0.5, 8.0, 12.4, 25.0})
        for (const double t_c : {10.0, 17.3, 20.0, 30.0}) {
          const ExtractKind kind = extract_kind_from_word(word).value();
          const auto instrument = prism(compensated);
          const Result card = temperature_correction(instrument, brix, celsius_point(t_c), kind);
          const Result reading = read(instrument, brix, t_c, kind);
          for (const char* key : {"correction", "extract_percent"}) {
            EXPECT_NEAR(card.at(key).value.estimate, reading.at(key).value.estimate, 1e-12)
                << word << ' ' << brix << " at " << t_c;
            EXPECT_LT(card.at(key).value.u, reading.at(key).value.u) << "the eye is not in it";
          }
        }
}

// Squared, what the reading brings is the difference: the eye's half division, triangular, and the
// thermometer's half degree, rectangular, each by what the result makes of it.
TEST(RefractometerCorrection, LeavesOutOnlyWhatAReadingBrings) {
  const ExtractKind kind = extract_kind_from_word("mixed").value();
  const auto instrument = prism(false, 0, 0);
  const auto extract = [&](double brix, double t_c) {
    return temperature_correction(instrument, brix, celsius_point(t_c), kind)
        .at("extract_percent")
        .value.estimate;
  };
  const double a_brix = (extract(12.1, 25) - extract(11.9, 25)) / 0.2;
  const double a_degree = extract(12, 25.5) - extract(12, 24.5);
  const double eye = 0.1 / std::sqrt(6.0) * a_brix;
  const double thermometer = 0.5 / std::sqrt(3.0) * a_degree;
  const double card =
      temperature_correction(instrument, 12, celsius_point(25), kind).at("correction").value.u;
  const double reading = read(instrument, 12, 25, kind).at("correction").value.u;
  EXPECT_NEAR(std::sqrt(reading * reading - card * card), std::hypot(eye, thermometer),
              1e-5);  // both slopes over other steps than the law's
}

TEST(RefractometerCorrection, OfACompensatedOneIsItsOwnAtAnyTemperature) {
  const ExtractKind kind = extract_kind_from_word("sucrose").value();
  const auto instrument = prism(true);
  for (const double t_c : {10.0, 20.0, 27.0})
    EXPECT_NEAR(temperature_correction(instrument, 15, celsius_point(t_c), kind)
                    .at("correction")
                    .value.estimate,
                -0.4 + 0.02 * 5, 1e-9);
  // Its compensation is known least far from 20 °C: a division, rectangular.
  const auto u = [&](double t_c) {
    return temperature_correction(instrument, 15, celsius_point(t_c), kind)
        .at("correction")
        .value.u;
  };
  EXPECT_NEAR(std::sqrt(u(25) * u(25) - u(20) * u(20)), 0.2 / std::sqrt(3.0), 1e-6);
  EXPECT_NEAR(u(30), u(25), 1e-9);
}

TEST(RefractometerCorrection, HeaderCheck) {
  const ExtractKind sucrose = extract_kind_from_word("sucrose").value();
  EXPECT_NEAR(temperature_correction(prism(false, 0, 0), 15, celsius_point(25), sucrose)
                  .at("correction")
                  .value.estimate,
              0.37, 0.005);
}

TEST(RefractometerCorrection, RefusesWhatItCannotSay) {
  const ExtractKind kind = extract_kind_from_word("mixed").value();
  const auto at = [&](const CalibratedRefractometer& r, double brix, double t_c) {
    return temperature_correction(r, brix, celsius_point(t_c), kind);
  };
  const auto instrument = prism(false);
  for (const bool compensated : {false, true}) {
    EXPECT_NO_THROW((void)at(prism(compensated), 10, 10));
    EXPECT_NO_THROW((void)at(prism(compensated), 10, 30));
    for (const double t_c : {std::nextafter(10.0, 0.0), std::nextafter(30.0, 99.0), nan})
      EXPECT_THROW((void)at(prism(compensated), 10, t_c), Error) << t_c;
  }
  for (const double brix : {-0.1, 32.1, nan}) EXPECT_THROW((void)at(instrument, brix, 20), Error);
  CalibratedRefractometer index = instrument;
  index.refractometer = instruments::ordinary_refractometer(instruments::RefractometerScale::index);
  EXPECT_THROW((void)at(index, 1.35, 20), Error);
}

TEST(ThermometerCorrection, IsItsOwn) {
  instruments::Thermometer probe;
  probe.name = "probe-1";
  Correction c;
  c.r0 = 50;
  c.offset = 0.5;
  c.u_offset = 0.2;
  c.slope = 0.02;
  c.u_slope = 0.003;
  c.checked_hi = 100;
  c.checks = 2;
  for (const double shown : {-10.0, 0.0, 21.5, 100.0, 110.0}) {
    const Result r = temperature_correction(probe, c, shown);
    EXPECT_DOUBLE_EQ(r.at("correction").value.estimate, c.at(shown));
    EXPECT_DOUBLE_EQ(r.at("temperature_c").value.estimate, shown + c.at(shown));
    EXPECT_NEAR(r.at("correction").value.u, c.uncertainty_at(shown), 1e-12);
  }
  for (const double off : {-10.1, 110.1, nan})
    EXPECT_THROW((void)temperature_correction(probe, c, off), Error);
}

// The card of a hydrometer has always had this one.
TEST(HydrometerCorrection, IsThatOfAReading) {
  instruments::Hydrometer h;
  h.name = "stem-1";
  Correction c;
  c.r0 = 1.04;
  c.offset = -0.0017;
  c.u_offset = 0.0003;
  c.slope = 0.01;
  c.checked_lo = 1.0;
  c.checked_hi = 1.08;
  c.checks = 3;
  const Calibrated instrument{h, c};
  for (const double mark : {1.005, 1.04, 1.08})
    for (const double t_c : {10.0, 20.0, 34.0}) {
      instruments::HydrometerReading reading;
      reading.indication = mark;
      reading.temperature.indication_c = t_c;
      const Result said = correct(instrument, reading, {});
      const Result card = temperature_correction(instrument, mark, celsius_point(t_c));
      EXPECT_NEAR(card.at("correction").value.estimate, said.at("correction").value.estimate,
                  1e-10);
      EXPECT_LT(card.at("correction").value.u, said.at("correction").value.u);
    }
}

}  // namespace
}  // namespace areo::measurement
