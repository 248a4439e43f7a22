// SPDX-License-Identifier: GPL-3.0-or-later
// What refractive indices must do everywhere, not only at the rows of a table.
#include "areo/physics/refraction.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <string>

#include "areo/core/error.hpp"
#include "draws.hpp"

namespace areo::property {
namespace {

using namespace areo::physics;  // NOLINT: a test that lists all of it

constexpr double there_and_back = 1e-9;
constexpr std::array temperatures_c{10.0, 12.5, 17.0, 20.0, 23.0, 30.0};
constexpr std::array all_optics{sucrose_optics,        glucose_optics, fructose_optics,
                                invert_sugar_optics,   maltose_optics, malt_extract_optics,
                                unknown_extract_optics};

double index(double extract, double ethanol, double t_c,
             const ExtractOptics& optics = sucrose_optics) {
  return refractive_index({ExtractFraction{extract}, EthanolFraction{ethanol}}, celsius_point(t_c),
                          optics)
      .value();
}
double water(double t_c) { return water_refractive_index(celsius_point(t_c)).value(); }
double scale(double w) { return sucrose_refractive_index_20(ExtractFraction{w}).value(); }
double shown(double extract, double ethanol, double t_c,
             const ExtractOptics& optics = sucrose_optics) {
  return ideal_brix_shown({ExtractFraction{extract}, EthanolFraction{ethanol}}, celsius_point(t_c),
                          optics)
      .value();
}
double draw_temperature(Draws& draws) {
  return draws.uniform(index_temperature_range.lo, index_temperature_range.hi);
}

TEST(RefractionProperty, ZeroCompositionIsExactlyWater) {
  EXPECT_EQ(index_from_brix_shown(Brix{0}).value(), water(20));
  EXPECT_NEAR(shown(0, 0, 20), 0, 1e-11);  // the solver's last step, 1e-13 of a fraction
  Draws draws;
  SCOPED_TRACE(draws.trace());
  for (int i = 0; i < Draws::count; ++i) {
    const double t_c = draw_temperature(draws);
    for (const auto& optics : all_optics) {
      ASSERT_EQ(index(0, 0, t_c, optics), water(t_c)) << t_c;
      ASSERT_EQ(index(-0.0, -0.0, t_c, optics), water(t_c)) << t_c;
    }
  }
}

// At the scale's own temperature a sucrose solution is on the scale, down to the last bits.
TEST(RefractionProperty, SucroseAt20CIsTheScale) {
  for (int i = 0; i <= 750; ++i) {
    const double w = i / 1000.0;
    // One water: the scale as published starts from 1.3329889.
    ASSERT_NEAR(index(w, 0, 20) - water(20), scale(w) - scale(0), 1e-14) << w;
    ASSERT_NEAR(shown(w, 0, 20), 100 * w, 1e-9) << w;
  }
}

TEST(RefractionProperty, WaterFallsWithTemperature) {
  // The index is highest near 0 °C.
  for (double t_c = 1; t_c < 60; t_c += 0.25) ASSERT_GT(water(t_c), water(t_c + 0.25)) << t_c;
}

TEST(RefractionProperty, RisesWithExtract) {
  for (int i = 0; i < 850; ++i) ASSERT_LT(scale(i / 1000.0), scale((i + 1) / 1000.0)) << i;
  for (const double t_c : temperatures_c)
    for (const double ethanol : {-0.02, 0.0, 0.001, 0.05, 0.16})
      for (const auto& optics : all_optics)
        for (int i = -20; i < 750; ++i)
          ASSERT_LT(index(i / 1000.0, ethanol, t_c, optics),
                    index((i + 1) / 1000.0, ethanol, t_c, optics))
              << i / 1000.0 << ' ' << ethanol << ' ' << t_c;
}

TEST(RefractionProperty, RisesWithEthanol) {
  for (const double t_c : temperatures_c)
    for (const double extract : {-0.02, 0.0, 0.001, 0.05, 0.20})
      for (int i = -20; i < 160; ++i)
        ASSERT_LT(index(extract, i / 1000.0, t_c), index(extract, (i + 1) / 1000.0, t_c))
            << extract << ' ' << i / 1000.0 << ' ' << t_c;
}

TEST(RefractionProperty, FallsWithTemperatureAndRisesWithTheOptics) {
  for (const double extract : {0.001, 0.05, 0.20, 0.75})
    for (const double ethanol : {0.0, 0.05, 0.16})
      for (int t_c = 10; t_c < 30; ++t_c) {
        ASSERT_GT(index(extract, ethanol, t_c), index(extract, ethanol, t_c + 1)) << t_c;
        ASSERT_LT(index(extract, ethanol, t_c, {0.99, 0}), index(extract, ethanol, t_c)) << t_c;
      }
}

// Coming to zero from either side, and through 2 %, where a form with the specific refraction of
// sugar would need a second piece, there is no step and no kink.
TEST(RefractionProperty, Smooth) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  constexpr double tiny = 1e-12, small = 1e-4;
  // Slopes are 0.14 and 0.06 and change by less than 1 per unit; rounding is 1e-15 over 1e-4.
  constexpr double bend = 1.5 * small;
  const auto kink = [](auto f, double x) {
    return (f(x + small) - 2 * f(x) + f(x - small)) / small;
  };
  for (int i = 0; i < Draws::count; ++i) {
    const double t_c = draw_temperature(draws);
    const double w = draws.uniform(-0.019, 0.5), p = draws.uniform(-0.019, 0.159);
    for (const double step : {tiny, -tiny}) {
      ASSERT_NEAR(index(step, p, t_c), index(0, p, t_c), 1e-12) << p << ' ' << t_c;
      ASSERT_NEAR(index(w, step, t_c), index(w, 0, t_c), 1e-12) << w << ' ' << t_c;
    }
    const auto of_extract = [&](double x) { return index(x, p, t_c); };
    const auto of_ethanol = [&](double x) { return index(w, x, t_c); };
    for (const double at : {0.0, 0.02, w}) ASSERT_NEAR(kink(of_extract, at), 0, bend) << at;
    for (const double at : {0.0, p}) ASSERT_NEAR(kink(of_ethanol, at), 0, bend) << at;
  }
}

TEST(RefractionProperty, MarkToIndexAndBack) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  const auto check = [](double shown) {
    ASSERT_NEAR(brix_shown_from_index(index_from_brix_shown(Brix{shown})).value(), shown,
                100 * there_and_back)
        << shown;
  };
  const auto& range = brix_shown_range;
  for (int i = -50; i <= 850; ++i) ASSERT_NO_FATAL_FAILURE(check(i / 10.0));
  for (int i = 0; i < Draws::count; ++i)
    ASSERT_NO_FATAL_FAILURE(check(draws.uniform(range.lo, range.hi)));
}

TEST(RefractionProperty, ExtractFromIndexAndBack) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  for (int i = 0; i < Draws::count; ++i) {
    const double w = draws.uniform(-0.019, 0.5), p = draws.uniform(-0.019, 0.159);
    const double t_c = draw_temperature(draws);
    const RefractiveIndex n{index(w, p, t_c)};
    ASSERT_NEAR(
        extract_from_index(n, celsius_point(t_c), sucrose_optics, EthanolFraction{p}).value(), w,
        there_and_back)
        << w << ' ' << p << ' ' << t_c;
  }
}

TEST(RefractionProperty, ShownAndBack) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  const auto check = [](double w, double t_c, const ExtractOptics& optics) {
    const Brix brix{shown(w, 0, t_c, optics)};
    ASSERT_NEAR(extract_from_brix_shown(brix, celsius_point(t_c), optics).value(), w,
                there_and_back)
        << w << ' ' << t_c;
  };
  for (const double t_c : temperatures_c)
    for (int i = -20; i <= 750; ++i)
      ASSERT_NO_FATAL_FAILURE(check(i / 1000.0, t_c, sucrose_optics));
  for (int i = 0; i < Draws::count; ++i)
    ASSERT_NO_FATAL_FAILURE(check(
        draws.uniform(index_extract_range.lo, index_extract_range.hi), draw_temperature(draws),
        {draws.uniform(relative_rise_range.lo, 1.1), 0}));  // above, 75 % is off the scale
}

TEST(RefractionProperty, UncertaintyIsPositiveFiniteAndGrows) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  const auto u = [](double w, double p, double t_c) {
    return refractive_index_model_uncertainty({ExtractFraction{w}, EthanolFraction{p}},
                                              celsius_point(t_c));
  };
  for (int i = 0; i < Draws::count; ++i) {
    const double w = draws.uniform(0, 0.70), p = draws.uniform(0, 0.15);
    const double away = draws.uniform(0, 9);
    ASSERT_TRUE(std::isfinite(u(w, p, 20 + away)));
    ASSERT_GT(u(w, p, 20 + away), 0);
    ASSERT_LE(u(w, p, 20 + away), u(w + 0.01, p, 20 + away));
    ASSERT_LE(u(w, p, 20 + away), u(w, p + 0.01, 20 + away));
    ASSERT_LT(u(w, p, 20 + away), u(w, p, 20 + away + 1));
    ASSERT_NEAR(u(w, p, 20 - away), u(w, p, 20 + away), 1e-15);
  }
}

// The sizes that the header states.
TEST(RefractionProperty, UncertaintyIsAsStated) {
  const auto u = [](double w, double p, double t_c) {
    return refractive_index_model_uncertainty({ExtractFraction{w}, EthanolFraction{p}},
                                              celsius_point(t_c));
  };
  EXPECT_DOUBLE_EQ(u(0, 0, 20), 3e-6);
  EXPECT_DOUBLE_EQ(u(0.5, 0, 20), 3e-6);
  EXPECT_DOUBLE_EQ(u(0.5, 0, 30), std::hypot(3e-6, 15e-6));
  EXPECT_DOUBLE_EQ(u(0, 0.08, 20), std::hypot(3e-6, 30e-6));
  EXPECT_DOUBLE_EQ(u(0, 0.04, 20), std::hypot(3e-6, 15e-6));
  EXPECT_DOUBLE_EQ(u(0, 0.16, 16), std::hypot(std::hypot(3e-6, 6e-6), 30e-6, 40e-6));
  EXPECT_DOUBLE_EQ(u(0.05, 0.04, 20), std::hypot(3e-6, 15e-6, 8e-6));
}

// What a person reads when a reading cannot be.
template <class F>
Error refusal(F f) {
  try {
    f();
  } catch (const Error& e) {
    return e;
  }
  ADD_FAILURE() << "accepted";
  return {Errc::domain, ""};
}

TEST(RefractionRefusal, OffTheScaleSaysReZero) {
  const double below = std::nextafter(index_from_brix_shown(Brix{brix_shown_range.lo}).value(), 0);
  const Error e = refusal([&] { (void)brix_shown_from_index(RefractiveIndex{below}); });
  EXPECT_EQ(e.code, Errc::domain);
  EXPECT_NE(std::string{e.what()}.find("is off the scale of a Brix refractometer, -5 to 85 Brix"),
            std::string::npos)
      << e.what();
  EXPECT_EQ(e.hint, "clean the prism and re-zero in water, or thin the sample with weighed water");
}

TEST(RefractionRefusal, ReadingThatNoExtractShows) {
  const Error low = refusal([] { (void)extract_from_brix_shown(Brix{-4}, celsius_point(20)); });
  EXPECT_EQ(low.code, Errc::domain);
  EXPECT_STREQ(
      low.what(),
      "-4 Brix at 20 °C needs an extract mass fraction outside -0.03 to 0.75 [oiv-as2-02]");
  EXPECT_EQ(low.hint, "clean the prism, re-zero in water and read again");
  const Error high = refusal([] { (void)extract_from_brix_shown(Brix{75}, celsius_point(30)); });
  EXPECT_EQ(high.code, Errc::domain);
  EXPECT_EQ(high.hint, "thin the sample with a weighed amount of water");
}

TEST(RefractionRefusal, OffTheScale) {
  const Error e = refusal([] { (void)shown(0.75, 0.16, 10, {1.4, 0}); });
  EXPECT_EQ(e.code, Errc::domain);
  EXPECT_NE(std::string{e.what()}.find("off the scale of a Brix refractometer"), std::string::npos)
      << e.what();
}

}  // namespace
}  // namespace areo::property
