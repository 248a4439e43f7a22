#include "areo/instruments/correction.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo::instruments {
namespace {

Correction checked() {
  Correction c;
  c.r0 = 1.040;
  c.offset = 0.001;
  c.u_offset = 0.0003;
  c.slope = 0.02;
  c.u_slope = 0.005;
  c.checked_lo = 1.000;
  c.checked_hi = 1.080;
  c.u_slope_beyond = 0.01;
  c.checks = 3;
  return c;
}

TEST(Correction, IsALineAboutItsCentre) {
  EXPECT_DOUBLE_EQ(checked().at(1.040), 0.001);
  EXPECT_NEAR(checked().at(1.080), 0.0018, 1e-15);
}

TEST(Correction, GrowsOutsideTheCheckedRangeOnly) {
  const Correction c = checked();
  EXPECT_EQ(c.beyond(1.000), 0);
  EXPECT_EQ(c.beyond(1.080), 0);
  EXPECT_NEAR(c.beyond(1.100), 0.020, 1e-15);
  EXPECT_NEAR(c.beyond(0.990), -0.010, 1e-15);
  EXPECT_NEAR(c.uncertainty_at(1.080), std::hypot(0.0003, 0.005 * 0.04), 1e-15);
  EXPECT_NEAR(c.uncertainty_at(1.100), std::hypot(0.0003, 0.005 * 0.06, 0.01 * 0.02), 1e-15);
}

TEST(Correction, AsInputsItSaysTheSame) {
  uncertainty::Inputs in;
  const CorrectionInputs b = add_correction(in, "stem-1", "", checked());
  for (const double r : {0.990, 1.000, 1.040, 1.100}) {
    const auto v = propagate(in, [&](const uncertainty::Point& x) {
                     return std::vector{b.at(x, r)};
                   }).values[0];
    EXPECT_NEAR(v.estimate, checked().at(r), 1e-15);
    EXPECT_NEAR(v.u, checked().uncertainty_at(r), 1e-12);
  }
}

// A tolerance has limits, a fit has none: with the same u, sampling draws them differently.
TEST(Correction, HasTheShapeOfWhatIsKnown) {
  const auto shapes = [](const Correction& c) {
    uncertainty::Inputs in;
    (void)add_correction(in, "stem-1", "", c);
    std::vector<uncertainty::Distribution> all;
    for (const uncertainty::Input& i : in.all()) all.push_back(i.shape);
    return all;
  };
  using D = uncertainty::Distribution;
  EXPECT_EQ(shapes(checked()), (std::vector{D::normal, D::normal, D::normal}));
  EXPECT_EQ(shapes(never_checked(0.002, 0.990, 1.100)),
            (std::vector{D::rectangular, D::rectangular, D::rectangular}));
}

TEST(NeverChecked, OneDivisionAtTheMiddleMoreAtTheEnds) {
  const Correction c = never_checked(0.002, 0.990, 1.100);
  EXPECT_EQ(c.at(1.05), 0);
  EXPECT_EQ(c.beyond(2), 0);  // no checked range to leave
  EXPECT_NEAR(c.uncertainty_at(1.045), 0.002 / std::sqrt(3.0), 1e-15);
  EXPECT_GT(c.uncertainty_at(1.100), c.uncertainty_at(1.045));
  EXPECT_THROW((void)never_checked(0, 0, 1), Error);
  EXPECT_THROW((void)never_checked(0.1, 1, 1), Error);
  EXPECT_THROW((void)never_checked(std::nan(""), 0, 1), Error);
}

}  // namespace
}  // namespace areo::instruments
