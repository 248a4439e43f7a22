// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/calibration/correction_budget.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "areo/core/error.hpp"
#include "areo/instruments/thermometer.hpp"
#include "published/rows.hpp"

namespace areo::calibration {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

instruments::Hydrometer stem() {
  instruments::Hydrometer h;
  h.name = "stem";
  return h;
}

CheckSet in_three_liquids() {
  HydrometerChecks checks{stem()};
  instruments::HydrometerReading r;
  r.temperature.indication_c = 21;
  r.indication = 1.001;
  checks.add_in_water(r);
  r.indication = 1.042;
  checks.add_in_solution(r, sugar_solution(52, 448));
  r.indication = 1.083;
  checks.add_in_solution(r, sugar_solution(100, 400));
  return checks.evaluate();
}

// @param apart  their uncertainties have nothing in common
CheckSet certified(const std::vector<std::pair<double, double>>& points, double expanded,
                   bool apart = true) {
  HydrometerChecks checks{stem()};
  for (const auto& [nominal, correction] : points)
    checks.add_certificate_point(nominal, correction, expanded, 2, apart ? "" : "the certificate");
  return checks.evaluate();
}
CorrectionFit fit(const CheckSet& set) { return fit_correction(set, 0.002, 0.110); }

// [gum] F.1.2.3: values err together through the inputs that they share, and through nothing else.
TEST(CheckSet, SharesMakeTheCovariance) {
  const CheckSet set = in_three_liquids();
  ASSERT_EQ(set.shares.size(), 3U);
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j) {
      double sum = 0;
      for (std::size_t k = 0; k < set.inputs.all().size(); ++k)
        sum += set.shares[i].at(k) * set.shares[j].at(k);
      EXPECT_NEAR(sum, set.covariance(i, j), 1e-12 * set.covariance(0, 0));
    }
}

TEST(CheckSet, KnowsWhichChecksShareAnInput) {
  const CheckSet set = in_three_liquids();
  const auto concerned = [&](const std::string& name) {
    for (std::size_t k = 0; k < set.inputs.all().size(); ++k)
      if (set.inputs.all()[k].name == name) return checks_with(set, k);
    throw std::invalid_argument{name};
  };
  using All = std::vector<std::size_t>;
  EXPECT_EQ(concerned("purity of the sugar"), (All{1, 2}));
  EXPECT_EQ(concerned("stem: expansion of the glass"), (All{0, 1, 2}));
  EXPECT_EQ(concerned("reading of the check: water"), All{0});
  EXPECT_EQ(concerned("stem: height of the meniscus"), All{});  // nobody read at its top
  EXPECT_THROW((void)checks_with(set, set.inputs.all().size()), Error);
}

// Two points known to u each: half of each in an offset, so u / √2 of it.
TEST(CorrectionBudget, TwoChecksCountHalfEach) {
  const CheckSet set = certified({{1.000, -0.0012}, {1.040, -0.0008}}, 0.0010);
  const CorrectionFit f = fit(set);
  ASSERT_FALSE(f.slope_used);
  const CorrectionBudget b = correction_budget(set, f, 1.020);
  ASSERT_EQ(b.shares.size(), 2U);
  EXPECT_NEAR(b.shares[0], 0.00025, 1e-12);
  EXPECT_NEAR(b.shares[1], 0.00025, 1e-12);
  EXPECT_NEAR(b.correction.estimate, -0.0010, 1e-12);
  EXPECT_NEAR(b.correction.u, 0.0005 / std::sqrt(2.0), 1e-12);
  EXPECT_NEAR(b.slope, 0, 1e-12);
  EXPECT_GT(correction_budget(set, f, 1.040).slope, 0);
}

// A line through two points: at each of them the other one does not count.
TEST(CorrectionBudget, ALineRestsOnTheNearest) {
  const CheckSet set = certified({{1.000, -0.004}, {1.080, 0.004}}, 0.0010);
  const CorrectionFit f = fit(set);
  ASSERT_TRUE(f.slope_used);
  const CorrectionBudget b = correction_budget(set, f, 1.080);
  EXPECT_NEAR(b.shares[0], 0, 1e-12);
  EXPECT_NEAR(b.shares[1], 0.0005, 1e-12);
  EXPECT_EQ(b.slope, 0);
  EXPECT_EQ(b.beyond, 0);
  EXPECT_GT(correction_budget(set, f, 1.090).beyond, 0);
}

// Its parts are all there is: whatever the fit, inside the checked range and outside.
TEST(CorrectionBudget, AddsUpToTheCorrection) {
  for (const CheckSet& set :
       {in_three_liquids(), certified({{1.000, -0.004}, {1.080, 0.004}}, 0.001),
        certified({{1.000, -0.0012}, {1.040, -0.0008}}, 0.001), certified({{1.04, 0}}, 0.001),
        certified({{1.000, -0.0012}, {1.040, -0.0008}}, 0.001, false)}) {
    const CorrectionFit f = fit(set);
    for (const double mark : {0.990, 1.001, 1.030, 1.083, 1.100}) {
      const CorrectionBudget b = correction_budget(set, f, mark);
      EXPECT_DOUBLE_EQ(b.correction.estimate, f.correction.at(mark));
      const double u = f.correction.uncertainty_at(mark);
      EXPECT_NEAR(b.correction.u, u, 1e-9 * u) << mark << " of " << set.checks.size();
      const double shares = uncertainty::combined(0, b.shares, set.inputs).u;
      EXPECT_NEAR(std::hypot(shares, b.slope, b.beyond), u, 1e-9 * u);
    }
  }
}

// The purity of one bag of sugar does not average out over its solutions; the eye does.
TEST(CorrectionBudget, WhatIsSharedDoesNotAverageOut) {
  HydrometerChecks checks{stem()};
  instruments::HydrometerReading r;
  r.indication = 1.083;
  for (int i = 0; i < 4; ++i) checks.add_in_solution(r, sugar_solution(100, 400));
  const CheckSet set = checks.evaluate();
  const CorrectionBudget b = correction_budget(set, fit(set), 1.083);
  int shared = 0, own = 0;
  for (std::size_t k = 0; k < set.inputs.all().size(); ++k) {
    const std::string& name = set.inputs.all()[k].name;
    const double once = std::abs(set.shares[0][k]);
    if (once == 0) continue;  // of another check
    if (name == "purity of the sugar") {
      EXPECT_NEAR(std::abs(b.shares[k]), once, 1e-6 * once);
      ++shared;
    } else if (name.starts_with("reading")) {
      EXPECT_NEAR(std::abs(b.shares[k]), once / 4, 1e-6 * once);
      ++own;
    }
  }
  EXPECT_EQ(shared, 1);
  EXPECT_EQ(own, 1);
}

// [gum] H.3: eleven corrections of a thermometer; each known to the s = 0.0035 °C that it finds.
TEST(CorrectionBudget, ReproducesTheThermometerOfTheGuide) {
  ThermometerChecks checks{{.name = "probe", .lo_c = 20, .hi_c = 30, .division_c = 0.1}};
  for (const auto& row : published::rows_of("gum-h3-thermometer"))
    checks.add_certificate_point(row.number("t_degC"), row.number("b_degC"), 0.007, 2, "");
  const CheckSet set = checks.evaluate();
  const CorrectionFit f = fit_correction(set, 0.1, 10);
  ASSERT_TRUE(f.slope_used);
  EXPECT_NEAR(f.correction.r0, 24.0085, 5e-5);
  EXPECT_NEAR(f.correction.at(24.0085), -0.1625, 5e-5);
  EXPECT_NEAR(f.correction.slope, 0.00218, 5e-6);
  EXPECT_NEAR(f.correction.at(30), -0.1494, 5e-5);
  EXPECT_NEAR(correction_budget(set, f, 24.0085).correction.u, 0.0011, 5e-5);
  // 30 °C is outside of what was checked: the guide goes on without a further slope.
  const CorrectionBudget b = correction_budget(set, f, 30);
  EXPECT_GT(b.beyond, 0);
  EXPECT_NEAR(uncertainty::combined(0, b.shares, set.inputs).u, 0.0041, 5e-5);
}

TEST(CorrectionBudget, RefusesWhatHasNoShares) {
  const CheckSet set = in_three_liquids();
  const CorrectionFit f = fit(set);
  EXPECT_THROW((void)correction_budget(set, f, nan), Error);
  CheckSet bare = set;
  bare.shares.clear();
  EXPECT_THROW((void)correction_budget(bare, f, 1.04), Error);
}

instruments::Correction checked(double lo, double hi) {
  instruments::Correction c;
  c.checked_lo = lo;
  c.checked_hi = hi;
  c.checks = 2;
  return c;
}

TEST(CorrectionMarks, AreTheEndsAndRoundOnes) {
  const auto expect = [](double lo, double hi, double from, double to,
                         const std::vector<double>& expected) {
    const auto marks = correction_marks(checked(from, to), lo, hi);
    ASSERT_EQ(marks.size(), expected.size()) << lo << " to " << hi;
    for (std::size_t i = 0; i < marks.size(); ++i) EXPECT_NEAR(marks[i], expected[i], 1e-9);
  };
  expect(0.990, 1.100, 1.001, 1.083, {0.990, 1.001, 1.020, 1.040, 1.060, 1.083, 1.100});
  expect(0, 32, 0.4, 10.4, {0, 0.4, 5, 10.4, 15, 20, 25, 30, 32});
  expect(-10, 110, 0.5, 99, {-10, 0.5, 20, 40, 60, 80, 99, 110});
  expect(0, 32, 0.4, 0.4, {0, 0.4, 5, 10, 15, 20, 25, 30, 32});
  expect(0, 30, 0, 30, {0, 5, 10, 15, 20, 25, 30});
  EXPECT_THROW((void)correction_marks(checked(0, 1), 1, 1), Error);
  EXPECT_THROW((void)correction_marks(checked(0, 1), 0, nan), Error);
}

}  // namespace
}  // namespace areo::calibration
