// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/instruments/reading.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "areo/core/error.hpp"
#include "areo/core/range.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/water.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo::instruments {
namespace {

const Hydrometer& stem() {
  static const Hydrometer one{.name = "stem"};
  return one;
}

HydrometerReading reading(double indication, double t_c = 20) {
  HydrometerReading r;
  r.indication = indication;
  r.temperature.indication_c = t_c;
  return r;
}

struct Taken {
  uncertainty::Inputs inputs;
  HydrometerInputs shared;
  ReadingInputs taken;
  explicit Taken(const Hydrometer& h, const HydrometerReading& r, const Correction& c = {})
      : shared{add_hydrometer(inputs, h, c)}, taken{inputs, shared, r, "the test"} {}
  [[nodiscard]] double density() const {
    const auto x = inputs.estimates();
    return taken.density(uncertainty::Point{x}).value();
  }
  [[nodiscard]] double u_density() const {
    return propagate(
               inputs,
               [&](const uncertainty::Point& x) { return std::vector{taken.density(x).value()}; })
        .values[0]
        .u;
  }
  [[nodiscard]] double u_indication() const {
    return propagate(inputs,
                     [&](const uncertainty::Point& x) {
                       return std::vector{taken.corrected_indication(x)};
                     })
        .values[0]
        .u;
  }
};

TEST(Reading, DensityAtTheReferenceTemperatureIsTheMarks) {
  EXPECT_NEAR(Taken(stem(), reading(1.05)).density(),
              1.05 * physics::water_density(celsius_point(20)).value(), 1e-9);
}

// Warm glass is larger and displaces more: the liquid is lighter than the mark says [iso1768].
TEST(Reading, GlassExpandsFromTheReferenceTemperature) {
  EXPECT_NEAR(Taken(stem(), reading(1.05, 30)).density() / Taken(stem(), reading(1.05)).density(),
              1 / (1 + 25e-6 * 10), 1e-12);
}

// Warm water pulls less, 69.60 mN/m at 40 °C and 62.67 at 80 °C [iapws-r1-76]: a doubt as far as
// the tables of corrections reach, a correction beyond.
TEST(Reading, WhatAWarmSurfacePullsLess) {
  EXPECT_NEAR(surface_half_width_mn_m(celsius_point(20)), 5, 1e-12);
  EXPECT_NEAR(surface_half_width_mn_m(celsius_point(80)), std::hypot(5, 72.74 - 69.60), 0.01);
  const auto pulls = [](double t_c) {
    return 1000 * surface_of(EthanolFraction{0}, celsius_point(t_c)).value();
  };
  EXPECT_EQ(pulls(40), pulls(5));
  EXPECT_NEAR(pulls(40.001), pulls(40), 1e-3);
  EXPECT_NEAR(pulls(80), pulls(20) - (69.60 - 62.67), 0.01);
}

// At 5 % by mass the surface pulls with 56.4 mN/m [vazquez1995]: the float stands higher, so the
// drink is lighter than its mark says.
TEST(Reading, ADrinkReadsHigh) {
  const Taken taken{stem(), reading(1.010)};
  const auto x = taken.inputs.estimates();
  const double surface = std::numbers::pi * 0.005 * (0.0564 - 0.0727) / (0.025 * 9.80665);
  EXPECT_NEAR(
      taken.taken.density(uncertainty::Point{x}, EthanolFraction{0.05}).value() / taken.density(),
      1 + surface, 1e-5);
}

// What a stem was made for moves a reading in full, unless a check in a clean liquid found it.
TEST(Reading, WhatACheckSharesOfTheSurfaceCancels) {
  const double per_u = std::numbers::pi * 0.005 * 0.0062 / std::sqrt(3.0) / (0.025 * 9.80665);
  Correction c{.checked_lo = 0.99, .checked_hi = 1.1, .checks = 1, .provenance = "test"};
  const double unknown = Taken(stem(), reading(1.05), c).u_density();
  c.u_surface = 1.05 * per_u;
  const double found = Taken(stem(), reading(1.05), c).u_density();
  // The pull of water, 0.0047 of the weight, is in the denominator, and in it twice in the square.
  const double cancelled = std::pow(1048.1 * per_u, 2);
  EXPECT_NEAR(unknown * unknown - found * found, cancelled, 0.01 * cancelled);
  EXPECT_NEAR(c.uncertainty_at(1.05), 1.05 * per_u, 1e-12);
}

TEST(Reading, CorrectionIsAddedToTheIndication) {
  Correction c;
  c.offset = 0.0013;
  c.checks = 1;
  c.checked_lo = c.checked_hi = 1.05;
  EXPECT_NEAR(Taken(stem(), reading(1.05), c).density(), Taken(stem(), reading(1.0513)).density(),
              1e-9);
}

// The numbers rise downwards, so the top of the meniscus shows too small a number: add the climb.
TEST(Reading, TopOfTheMeniscusAddsItsHeight) {
  HydrometerReading r = reading(1.05);
  r.meniscus = Meniscus::top;
  const double usual = usual_meniscus_divisions(stem()) * 0.002;
  EXPECT_NEAR(usual, 0.0023, 0.0001);  // 2.65 mm of divisions 2.34 mm high
  EXPECT_NEAR(Taken(stem(), r).density(), Taken(stem(), reading(1.05 + usual)).density(), 1e-9);
  Hydrometer h = stem();
  h.meniscus_height = 0.0015;
  EXPECT_NEAR(Taken(h, r).density(), Taken(h, reading(1.0515)).density(), 1e-9);
}

// [astm-d1298] table 1, from memory: +1.4 kg/m³ for a division of 1, +0.7 for 0.5, +0.3 for 0.2, in
// petroleum, whose surface pulls with about 28 mN/m at 850 kg/m³ (from memory): within a quarter of
// a division.
TEST(Reading, UsualMeniscusAgreesWithPrintedSeries) {
  for (const auto& [division, printed] : {std::pair{1.0, 1.4}, {0.5, 0.7}, {0.2, 0.3}}) {
    Hydrometer h = stem();
    h.scale = physics::density_20;
    h.lo = 950;
    h.hi = 1100;
    h.division = division;
    const Stem s = stem_of(h);
    const Length diameter = metres(s.diameter_mm.value / 1000);
    const double climb =
        meniscus_height(diameter, newtons_per_metre(0.028), kg_per_m3(850)).value() /
        division_height(h, diameter, grams(s.mass_g.value)).value();
    EXPECT_NEAR(climb * division, printed, division / 4) << division;
  }
}

// Half a division triangular.
TEST(Reading, UncertaintyOfAnIndication) {
  EXPECT_NEAR(Taken(stem(), reading(1.05)).u_indication(), 0.001 / std::sqrt(6.0), 1e-12);
  HydrometerReading coarse = reading(1.05);
  coarse.half_width = 0.005;
  EXPECT_NEAR(Taken(stem(), coarse).u_indication(), 0.005 / std::sqrt(6.0), 1e-12);
}

TEST(Reading, RefusesWhatIsNotOnTheScale) {
  EXPECT_THROW(Taken(stem(), reading(1.2)), Error);
  EXPECT_THROW(Taken(stem(), reading(0.98)), Error);
  EXPECT_THROW(Taken(stem(), reading(std::numeric_limits<double>::quiet_NaN())), Error);
  EXPECT_NO_THROW(Taken(stem(), reading(0.989)));  // just below the last line, still readable
}

TEST(Hydrometer, IdealIndicationIsTheInverse) {
  for (const auto& scale : {physics::sg_20_20, physics::specific_gravity_scale<Ref60F>(),
                            physics::plato_20, physics::baume_scale<Modulus145>()}) {
    Hydrometer h = stem();
    h.scale = scale;
    const Density rho = kg_per_m3(1043.21);
    const Temperature t = celsius_point(27.5);
    EXPECT_NEAR(density_from_indication(h, ideal_indication(h, rho, t), t).value(), rho.value(),
                1e-8);
  }
}

TEST(Temperature, ANamedThermometerIsCorrected) {
  TemperatureReading r;
  r.indication_c = 21;
  r.thermometer = Thermometer{.name = "probe"};
  Correction c;
  c.offset = -0.8;
  c.u_offset = 0.1;
  c.checks = 1;
  c.checked_lo = c.checked_hi = 0;
  r.correction = c;
  uncertainty::Inputs in;
  const TemperatureInputs t = add_temperature(in, "the test", r);
  const auto x = in.estimates();
  EXPECT_NEAR(t.at(uncertainty::Point{x}).celsius(), 20.2, 1e-12);
}

// 3 % of the distance from a room of 10 °C to 30 °C, an input of its own: a better thermometer does
// not stop the cooling.
TEST(Temperature, AHotLiquidCoolsWhileItIsRead) {
  for (const double c : {10.0, 20.0, 30.0}) EXPECT_EQ(cooling_half_width_c(c), 0) << c;
  EXPECT_NEAR(cooling_half_width_c(60), 0.9, 1e-12);
  EXPECT_NEAR(cooling_half_width_c(85), 1.65, 1e-12);
  EXPECT_NEAR(cooling_half_width_c(0), 0.3, 1e-12);
  const auto u = [](const TemperatureReading& r) {
    uncertainty::Inputs in;
    const TemperatureInputs t = add_temperature(in, "the test", r);
    return propagate(in,
                     [&](const uncertainty::Point& x) { return std::vector{t.at(x).celsius()}; })
        .values[0]
        .u;
  };
  TemperatureReading r;
  r.half_width_c = 0.1;
  EXPECT_NEAR(u(r), 0.1 / std::sqrt(3.0), 1e-12);
  r.indication_c = 60;
  EXPECT_NEAR(u(r), std::hypot(0.1, 0.9) / std::sqrt(3.0), 1e-12);
  r.assumed = true;  // its ± 5 °C are all that is known
  EXPECT_NEAR(u(r), 0.1 / std::sqrt(3.0), 1e-12);
}

// The estimate is held to the range, with the thermometer's correction; its spread is not, to 5 °C.
TEST(Temperature, IsAcceptedByItsEstimate) {
  constexpr Range range{"test density", "°C", 0, 40, "sps4"};
  const auto accepts = [&](double c, double half_width_c, double offset = 0) {
    TemperatureReading r;
    r.indication_c = c;
    r.half_width_c = half_width_c;
    if (offset != 0) {
      r.thermometer = Thermometer{.name = "probe"};
      r.correction.emplace();
      r.correction->offset = offset;
    }
    require_temperature(range, r);
  };
  for (const double c : {0.0, 20.0, 40.0}) EXPECT_NO_THROW(accepts(c, 5)) << c;
  EXPECT_NO_THROW(accepts(40.3, 0.5, -0.3));
  for (const double c : {std::nextafter(0.0, -1.0), std::nextafter(40.0, 41.0),
                         std::numeric_limits<double>::quiet_NaN()})
    EXPECT_THROW(accepts(c, 0.5), Error) << c;
  EXPECT_THROW(accepts(40, 0.5, 0.3), Error);
  try {
    accepts(39.95, 6.0 / 1.8 * 2);
    ADD_FAILURE() << "a spread to 46 °C was accepted";
  } catch (const Error& e) {
    EXPECT_STREQ(e.what(),
                 "test density is valid 0 °C to 40 °C [sps4]; 40 ± 6.7 °C reaches too "
                 "far beyond");
  }
}

TEST(Temperature, NothingGivenIsTheReferenceWithinFiveDegrees) {
  const TemperatureReading r = assumed_temperature(celsius_point(sixty_fahrenheit_c));
  EXPECT_TRUE(r.assumed);
  EXPECT_NEAR(r.indication_c, 15.5556, 0.0001);
  EXPECT_EQ(r.half_width_c, 5);
}

}  // namespace
}  // namespace areo::instruments
