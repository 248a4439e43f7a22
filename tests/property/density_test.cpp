// SPDX-License-Identifier: GPL-3.0-or-later
// What densities must do everywhere, not only at the rows of a table.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>

#include "areo/core/error.hpp"
#include "areo/physics/ethanol.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/salt.hpp"
#include "areo/physics/sucrose.hpp"
#include "areo/physics/water.hpp"
#include "draws.hpp"

namespace areo::property {
namespace {

using physics::mixture_ethanol_range;
using physics::mixture_extract_range;
using physics::mixture_temperature_range;

double density(double extract, double ethanol, double t_c) {
  return physics::density({ExtractFraction{extract}, EthanolFraction{ethanol}}, celsius_point(t_c))
      .value();
}
double water(double t_c) { return physics::water_density(celsius_point(t_c)).value(); }

constexpr std::array temperatures_c{0.0,  4.0,  10.0, 15.0, sixty_fahrenheit_c,
                                    20.0, 25.0, 30.0, 40.0};
const std::array hot_c{std::nextafter(40.0, 41.0), 40.5, 55.0, 70.0, 85.0};

TEST(DensityProperty, ZeroCompositionIsExactlyWater) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  for (int i = 0; i < Draws::count; ++i) {
    const double t_c = draws.uniform(0, 40);
    ASSERT_EQ(density(0, 0, t_c), water(t_c)) << t_c;
    ASSERT_EQ(density(-0.0, -0.0, t_c), water(t_c)) << t_c;
  }
}

TEST(DensityProperty, ZeroSaltIsExactlyWater) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  for (int i = 0; i < Draws::count; ++i) {
    const double t_c = draws.uniform(0, 40);
    ASSERT_EQ(physics::salt_density(SaltFraction{0}, celsius_point(t_c)).value(), water(t_c))
        << t_c;
  }
}

TEST(DensityProperty, RisesWithExtract) {
  for (const double t_c : temperatures_c)
    for (const double ethanol : {-0.02, 0.0, 0.001, 0.05, 0.10, 0.18})
      for (int i = -100; i < 850 && (i + 1) / 1000.0 + ethanol <= 1; ++i)
        ASSERT_LT(density(i / 1000.0, ethanol, t_c), density((i + 1) / 1000.0, ethanol, t_c))
            << i / 1000.0 << ' ' << ethanol << ' ' << t_c;
  Draws draws;
  SCOPED_TRACE(draws.trace());
  for (int i = 0; i < Draws::count; ++i) {
    const double w = draws.uniform(-0.1, 0.82 - 1e-6), p = draws.uniform(0, 0.18);
    const double t_c = draws.uniform(0, 40);
    ASSERT_LT(density(w, p, t_c), density(w + 1e-6, p, t_c)) << w << ' ' << p << ' ' << t_c;
  }
}

TEST(DensityProperty, RisesWithExtractWhenHot) {
  for (const double t_c : hot_c)
    for (int i = -100; i < 850; ++i)
      ASSERT_LT(density(i / 1000.0, 0, t_c), density((i + 1) / 1000.0, 0, t_c)) << i << ' ' << t_c;
}

// The relation as it is stated, iterated from the drink's own fractions until nothing moves.
double iterated_tabarie(double w_s, double w_e, double t_c) {
  const double water_t = water(t_c);
  const auto sugar = physics::detail::sucrose_increment(t_c);
  const auto ethanol = physics::detail::ethanol_increment(t_c);
  double w = w_s, p = w_e, rho = water_t;
  for (int step = 0; step < 60; ++step) {
    const double rho_s = water_t + sugar.at(w), rho_a = water_t + ethanol.at(p);
    rho = rho_a + rho_s - water_t;
    w = w_s * rho / rho_s;
    p = w_e * rho / rho_a;
  }
  return rho;
}

// Both are sums of some 1000 kg/m³, each rounded to 1e-13: a hundred roundings are allowed.
TEST(DensityProperty, SolvesTabariesRelationBothWays) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  for (int i = 0; i < Draws::count; ++i) {
    const double p = draws.uniform(-0.02, 0.20), w = draws.uniform(-0.1, 0.8);
    const double t_c = draws.uniform(0, 40);
    const double rho = density(w, p, t_c);
    ASSERT_NEAR(rho, iterated_tabarie(w, p, t_c), 1e-11) << w << ' ' << p << ' ' << t_c;
    ASSERT_NEAR(
        physics::extract_from_density(kg_per_m3(rho), celsius_point(t_c), EthanolFraction{p})
            .value(),
        w, 1e-13)
        << p << ' ' << t_c;
  }
}

// A central difference is off by h² / 6 times the third derivative, 4e-7 kg/m³ at most here, and by
// the rounding of values of some 400 kg/m³, 1e-13 / h: together below 1e-6.
TEST(DensityProperty, SlopesAreDerivatives) {
  const auto check = [](const auto& increment, double x) {
    constexpr double h = 1e-5;
    const auto [value, slope] = increment.with_slope(x);
    ASSERT_EQ(value, increment.at(x));
    ASSERT_NEAR(slope, (increment.at(x + h) - increment.at(x - h)) / (2 * h), 1e-6) << x;
  };
  for (const double t_c : temperatures_c)
    for (int i = -10; i <= 85; ++i) {
      check(physics::detail::sucrose_increment(t_c), i / 100.0);
      check(physics::detail::ethanol_increment(t_c), i / 400.0);
    }
}

// Where one water ends and the other begins there is no step, and the slope, -0.38 kg/m³ per °C,
// changes by the 0.00015 that models.md states.
TEST(DensityProperty, NoStepAt40C) {
  const double at = 40, above = std::nextafter(40.0, 41.0);
  constexpr double h = 1e-4;
  for (int i = -100; i <= 850; ++i) {
    const double w = i / 1000.0;
    // One ulp is 7e-15 °C; the rest is rounding at 1000 kg/m³.
    ASSERT_NEAR(density(w, 0, above), density(w, 0, at), 1e-12 * density(w, 0, at)) << w;
    const double before = (density(w, 0, at) - density(w, 0, at - h)) / h;
    const double after = (density(w, 0, at + h) - density(w, 0, at)) / h;
    // Curvature, below 0.02 kg/m³ per °C², over h.
    ASSERT_NEAR(after - before, 0.000153, 2.5e-6) << w;
  }
}

// A hot liquid is lighter, all the way from the densest point of water.
TEST(DensityProperty, FallsWithTemperature) {
  for (int i = 0; i <= 850; i += 10)
    for (double t_c = 4; t_c < 85; t_c += 0.125)
      ASSERT_GT(density(i / 1000.0, 0, t_c), density(i / 1000.0, 0, t_c + 0.125))
          << i << ' ' << t_c;
}

// The spread of a reading at an end of the range: as the formulas go on, they bend no more than
// inside. Cold water bends most, by 0.0182 kg/m³ per °C² at 0 °C and 0.0216 at -4.75 °C, and 60 %
// of sugar adds up to 0.0129 there.
TEST(DensityProperty, SmoothWhereAReadingsSpreadGoes) {
  const auto drawn = [](double w, double p, double t_c) {
    return physics::density({ExtractFraction{w}, EthanolFraction{p}},
                            ModelTemperature::drawn(celsius_point(t_c)))
        .value();
  };
  constexpr double beyond = ModelTemperature::most_beyond_c, h = 0.25;
  const auto bends = [&](double w, double p, double lo, double hi) {
    for (double t_c = lo - beyond + h; t_c <= hi + beyond - h; t_c += h)
      ASSERT_LT(std::abs(drawn(w, p, t_c + h) - 2 * drawn(w, p, t_c) + drawn(w, p, t_c - h)),
                0.035 * h * h)
          << w << ' ' << p << ' ' << t_c;
  };
  for (const double w : {-0.10, 0.0, 0.10, 0.25, 0.60}) {
    ASSERT_NO_FATAL_FAILURE(bends(w, 0, 0, 85));
    for (const double p : {0.01, 0.05, 0.10}) ASSERT_NO_FATAL_FAILURE(bends(w, p, 0, 40));
  }
  // And no further; a value drawn there is told to nobody.
  for (const double outside : {-beyond - 1e-9, 85 + beyond + 1e-9}) try {
      (void)drawn(0.1, 0, outside);
      ADD_FAILURE() << outside;
    } catch (const Error& e) {
      EXPECT_EQ(e.code, Errc::domain);
      EXPECT_STREQ(e.what(),
                   "density of a liquid is valid 0 °C to 85 °C [sps4]; what a reading may stand "
                   "for reaches more than 5 °C beyond");
    }
}

TEST(DensityProperty, FallsWithEthanol) {
  for (const double t_c : temperatures_c)
    for (const double extract : {-0.10, 0.0, 0.001, 0.05, 0.20, 0.50})
      for (int i = -20; i < 180; ++i)
        ASSERT_GT(density(extract, i / 1000.0, t_c), density(extract, (i + 1) / 1000.0, t_c))
            << extract << ' ' << i / 1000.0 << ' ' << t_c;
  Draws draws;
  SCOPED_TRACE(draws.trace());
  for (int i = 0; i < Draws::count; ++i) {
    const double w = draws.uniform(-0.1, 0.5), p = draws.uniform(0, 0.18 - 1e-6);
    const double t_c = draws.uniform(0, 40);
    ASSERT_GT(density(w, p, t_c), density(w, p + 1e-6, t_c)) << w << ' ' << p << ' ' << t_c;
  }
}

TEST(DensityProperty, SaltRisesWithFraction) {
  for (const double t_c : temperatures_c)
    for (int i = 0; i < 260; ++i)
      ASSERT_LT(physics::salt_density(SaltFraction{i / 1000.0}, celsius_point(t_c)).value(),
                physics::salt_density(SaltFraction{(i + 1) / 1000.0}, celsius_point(t_c)).value())
          << i << ' ' << t_c;
}

// Coming to zero from either side there is no step and no kink.
TEST(DensityProperty, ContinuousThroughZero) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  constexpr double tiny = 1e-12, small = 1e-6;
  for (int i = 0; i < Draws::count; ++i) {
    const double t_c = draws.uniform(0, 40);
    const double w = draws.uniform(-0.1, 0.5), p = draws.uniform(-0.02, 0.18);
    // 1e-12 of sugar or ethanol is worth less than 1e-9 kg/m³.
    ASSERT_NEAR(density(tiny, p, t_c), density(0, p, t_c), 1e-9) << p << ' ' << t_c;
    ASSERT_NEAR(density(-tiny, p, t_c), density(0, p, t_c), 1e-9) << p << ' ' << t_c;
    ASSERT_NEAR(density(w, tiny, t_c), density(w, 0, t_c), 1e-9) << w << ' ' << t_c;
    ASSERT_NEAR(density(w, -tiny, t_c), density(w, 0, t_c), 1e-9) << w << ' ' << t_c;
    // Slopes left and right of zero in kg/m³ per unit: some 400 and -200, the same on both sides
    // within curvature (1000 per unit, over 1e-6) and rounding (1e-12 over 1e-6).
    const auto kink = [&](auto f) { return (f(small) - 2 * f(0) + f(-small)) / small; };
    ASSERT_NEAR(kink([&](double x) { return density(x, p, t_c); }), 0, 0.01) << p << ' ' << t_c;
    ASSERT_NEAR(kink([&](double x) { return density(w, x, t_c); }), 0, 0.01) << w << ' ' << t_c;
  }
}

TEST(DensityProperty, ExtractAndBack) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  const auto check = [](double w, double t_c) {
    const auto back =
        physics::extract_from_density(kg_per_m3(density(w, 0, t_c)), celsius_point(t_c));
    ASSERT_NEAR(back.value(), w, 1e-9) << w << ' ' << t_c;
  };
  for (const double t_c : temperatures_c)
    for (int i = -100; i <= 850; ++i) ASSERT_NO_FATAL_FAILURE(check(i / 1000.0, t_c));
  for (const double t_c : hot_c)
    for (int i = -100; i <= 850; ++i) ASSERT_NO_FATAL_FAILURE(check(i / 1000.0, t_c));
  for (int i = 0; i < Draws::count; ++i)
    ASSERT_NO_FATAL_FAILURE(
        check(draws.uniform(mixture_extract_range.lo, mixture_extract_range.hi),
              draws.uniform(mixture_temperature_range.lo, mixture_temperature_range.hi)));
}

TEST(EthanolProperty, StrengthAndBack) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  const auto check = [](double q) {
    const auto p = physics::ethanol_fraction(StrengthByVolume{q});
    ASSERT_NEAR(physics::strength_by_volume(p).value(), q, 1e-9) << q;
    ASSERT_NEAR(
        physics::ethanol_fraction(physics::strength_by_volume(EthanolFraction{q / 100})).value(),
        q / 100, 1e-9)
        << q;
  };
  for (int i = 0; i <= 1000; ++i) ASSERT_NO_FATAL_FAILURE(check(i / 10.0));
  for (int i = 0; i < Draws::count; ++i) ASSERT_NO_FATAL_FAILURE(check(draws.uniform(0, 100)));
  for (int i = 0; i < 1000; ++i)
    ASSERT_LT(physics::strength_by_volume(EthanolFraction{i / 1000.0}).value(),
              physics::strength_by_volume(EthanolFraction{(i + 1) / 1000.0}).value());
}

// The unit of a temperature is nobody's business but the caller's.
TEST(TemperatureProperty, FahrenheitAndKelvinAreTheSamePoint) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  for (int i = 0; i < Draws::count; ++i) {
    const double t_c = draws.uniform(0.001, 39.999);
    const Temperature t_f = fahrenheit_point(32 + 1.8 * t_c);
    ASSERT_NEAR(t_f.celsius(), t_c, 1e-12);
    ASSERT_NEAR(kelvin_point(t_c + 273.15).celsius(), t_c, 1e-12);
    const physics::Liquid liquid{ExtractFraction{draws.uniform(-0.1, 0.6)},
                                 EthanolFraction{draws.uniform(0, 0.18)}};
    ASSERT_NEAR(physics::density(liquid, t_f).value(),
                physics::density(liquid, celsius_point(t_c)).value(), 1e-10);
  }
}

TEST(TemperatureProperty, RangeEndsAreAcceptedInEveryUnit) {
  EXPECT_EQ(fahrenheit_point(32).celsius(), 0);
  EXPECT_EQ(fahrenheit_point(104).celsius(), 40);
  EXPECT_EQ(fahrenheit_point(68).celsius(), 20);
  EXPECT_EQ(kelvin_point(273.15).celsius(), 0);
  EXPECT_EQ(kelvin_point(313.15).celsius(), 40);
  EXPECT_NO_THROW((void)physics::water_density(fahrenheit_point(32)));
  EXPECT_NO_THROW((void)physics::water_density(fahrenheit_point(104)));
  EXPECT_NEAR(fahrenheit_point(60).celsius(), sixty_fahrenheit_c, 1e-14);
}

TEST(UncertaintyProperty, IsPositiveFiniteAndGrows) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  const auto u = [](double w, double p) {
    return physics::density_model_uncertainty({ExtractFraction{w}, EthanolFraction{p}});
  };
  EXPECT_EQ(u(0, 0), 0);
  for (int i = 0; i < Draws::count; ++i) {
    const double w = draws.uniform(0, 0.81), p = draws.uniform(0, 0.17);
    ASSERT_TRUE(std::isfinite(u(w, p)));
    ASSERT_GE(u(w, p), 0);
    ASSERT_LE(u(w, p), u(w + 0.01, p)) << w << ' ' << p;
    ASSERT_LE(u(w, p), u(w, p + 0.01)) << w << ' ' << p;
  }
}

}  // namespace
}  // namespace areo::property
