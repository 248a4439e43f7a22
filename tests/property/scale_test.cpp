// SPDX-License-Identifier: GPL-3.0-or-later
// Scales there and back again.
#include "areo/physics/scale.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>
#include <tuple>

#include "areo/core/error.hpp"
#include "areo/physics/mixture.hpp"
#include "draws.hpp"

namespace areo::property {
namespace {

using physics::Liquid;
using physics::mixture_extract_range;

constexpr double there_and_back = 1e-9;  // relative, of fractions absolute

Liquid sugar(double w) { return {ExtractFraction{w}}; }

class EveryScale : public testing::TestWithParam<NamedScale> {
 protected:
  static const physics::Scale& scale() { return GetParam().scale; }

  // From a composition to the mark, and back.
  static void expect_liquid_round_trip(double w) {
    const double mark = physics::mark_from_liquid(scale(), sugar(w));
    const Liquid back = physics::liquid_from_mark(scale(), mark);
    ASSERT_NEAR(back.extract.value(), w, there_and_back) << "mark " << mark;
    ASSERT_EQ(back.ethanol.value(), 0);
  }
  // From a density to the mark, and back; then the mark once more.
  static void expect_density_round_trip(double rho) {
    const double mark = physics::mark_from_density(scale(), kg_per_m3(rho));
    const double back = physics::density_from_mark(scale(), mark).value();
    ASSERT_NEAR(back, rho, there_and_back * rho) << "mark " << mark;
    ASSERT_NEAR(physics::mark_from_density(scale(), kg_per_m3(back)), mark,
                there_and_back * std::fmax(1, std::abs(mark)));
  }
  static std::tuple<double, double> densities() {
    const Temperature t = scale().reference();
    return {physics::density(sugar(mixture_extract_range.lo), t).value(),
            physics::density(sugar(mixture_extract_range.hi), t).value()};
  }
};

TEST_P(EveryScale, LiquidAndBackOnAGrid) {
  for (int i = -100; i <= 850; ++i) {
    const double w = i / 1000.0;
    SCOPED_TRACE(testing::Message() << "w = " << w);
    ASSERT_NO_FATAL_FAILURE(expect_liquid_round_trip(w));
  }
}

TEST_P(EveryScale, LiquidAndBackByDraws) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  for (int i = 0; i < Draws::count; ++i)
    ASSERT_NO_FATAL_FAILURE(expect_liquid_round_trip(
        draws.uniform(mixture_extract_range.lo, mixture_extract_range.hi)));
}

TEST_P(EveryScale, DensityAndBackOnAGrid) {
  const auto [lo, hi] = densities();
  for (int i = 0; i <= 1000; ++i) {
    const double rho = i == 1000 ? hi : lo + (hi - lo) * i / 1000;
    SCOPED_TRACE(testing::Message() << "rho = " << rho);
    ASSERT_NO_FATAL_FAILURE(expect_density_round_trip(rho));
  }
}

TEST_P(EveryScale, DensityAndBackByDraws) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  const auto [lo, hi] = densities();
  for (int i = 0; i < Draws::count; ++i)
    ASSERT_NO_FATAL_FAILURE(expect_density_round_trip(draws.uniform(lo, hi)));
}

// A drink with alcohol shows the mark of its density, whatever made the density.
TEST_P(EveryScale, ShowsTheDensityOfADrink) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  for (int i = 0; i < Draws::count; ++i) {
    const Liquid drink{ExtractFraction{draws.uniform(0, 0.4)},
                       EthanolFraction{draws.uniform(0, physics::mixture_ethanol_range.hi)}};
    const double rho = physics::density(drink, scale().reference()).value();
    ASSERT_NEAR(
        physics::density_from_mark(scale(), physics::mark_from_liquid(scale(), drink)).value(), rho,
        there_and_back * rho);
  }
}

TEST_P(EveryScale, RisesWithDensity) {
  const auto [lo, hi] = densities();
  double previous = -std::numeric_limits<double>::infinity();
  for (int i = 0; i <= 1000; ++i) {
    const double mark =
        physics::mark_from_density(scale(), kg_per_m3(i == 1000 ? hi : lo + (hi - lo) * i / 1000));
    ASSERT_GT(mark, previous) << i;
    previous = mark;
  }
}

TEST_P(EveryScale, RefusesWhatItCannotShow) {
  constexpr double inf = std::numeric_limits<double>::infinity();
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double v : {nan, inf, -inf}) {
    EXPECT_THROW((void)physics::density_from_mark(scale(), v), Error) << v;
    EXPECT_THROW((void)physics::liquid_from_mark(scale(), v), Error) << v;
    EXPECT_THROW((void)physics::mark_from_density(scale(), kg_per_m3(v)), Error) << v;
    EXPECT_THROW((void)physics::mark_from_liquid(scale(), sugar(v)), Error) << v;
    EXPECT_THROW((void)physics::mark_from_liquid(scale(), {ExtractFraction{0}, EthanolFraction{v}}),
                 Error)
        << v;
  }
  for (const double rho : {0.0, -0.0, -1.0, -998.0})
    EXPECT_THROW((void)physics::mark_from_density(scale(), kg_per_m3(rho)), Error) << rho;
  // No liquid has a density of zero or less, so no mark stands for one. (Baumé marks far below zero
  // stand for a vapour, which is a density still.)
  if (scale().kind != physics::ScaleKind::baume) {
    EXPECT_THROW((void)physics::density_from_mark(scale(), -5000), Error);
  }
  switch (scale().kind) {
    case physics::ScaleKind::specific_gravity:
    case physics::ScaleKind::density:
      EXPECT_THROW((void)physics::density_from_mark(scale(), 0), Error);
      break;
    case physics::ScaleKind::oechsle:
      EXPECT_THROW((void)physics::density_from_mark(scale(), -1000), Error);
      break;
    case physics::ScaleKind::baume:
      EXPECT_THROW((void)physics::density_from_mark(scale(), scale().modulus), Error);
      EXPECT_THROW((void)physics::density_from_mark(scale(), 200), Error);
      break;
    case physics::ScaleKind::plato:
    case physics::ScaleKind::brix:
      EXPECT_NO_THROW((void)physics::density_from_mark(scale(), 85));
      EXPECT_NO_THROW((void)physics::density_from_mark(scale(), -10));
      EXPECT_THROW((void)physics::density_from_mark(scale(), 85.001), Error);
      EXPECT_THROW((void)physics::density_from_mark(scale(), -10.001), Error);
      break;
    default: break;
  }
}

std::string scale_name(const testing::TestParamInfo<NamedScale>& info) { return info.param.name; }
INSTANTIATE_TEST_SUITE_P(Scales, EveryScale, testing::ValuesIn(all_scales), scale_name);

// Through any two scales and back: the composition is the hub, so no path may lose anything.
TEST(ScalePairs, ThereAndBack) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  for (const auto& a : all_scales)
    for (const auto& b : all_scales)
      for (int i = 0; i < Draws::count / 100; ++i) {
        const double w = draws.uniform(-0.09, 0.84);
        const double on_a = physics::mark_from_liquid(a.scale, sugar(w));
        const double on_b =
            physics::mark_from_liquid(b.scale, physics::liquid_from_mark(a.scale, on_a));
        ASSERT_NEAR(physics::liquid_from_mark(b.scale, on_b).extract.value(), w, 2 * there_and_back)
            << a.name << " to " << b.name;
      }
}

TEST(TypedScales, AgreeWithTheirValues) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  for (int i = 0; i < Draws::count / 10; ++i) {
    const Plato p{draws.uniform(0, 60)};
    ASSERT_NEAR(physics::convert<Plato>(physics::convert<Oechsle>(p)).value(), p.value(), 1e-7);
    ASSERT_NEAR(physics::convert<Brix>(p).value(), p.value(), 1e-9) << "two words for one scale";
    ASSERT_EQ(physics::density_from(p).value(),
              physics::density_from_mark(physics::plato_20, p.value()).value());
    ASSERT_NEAR(physics::reading_from<Plato>(physics::density_from(p)).value(), p.value(), 1e-9);
  }
}

}  // namespace
}  // namespace areo::property
