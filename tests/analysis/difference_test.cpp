// SPDX-License-Identifier: GPL-3.0-or-later
// What two results share by the instruments they were read with.
#include "areo/analysis/difference.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "areo/measurement/correct.hpp"

namespace areo::analysis {
namespace {

using instruments::Hydrometer;

constexpr const char* key = "sg_20_20";

// From the top of the meniscus, so that it counts.
measurement::Result read(const Hydrometer& h, const instruments::Correction& correction,
                         const char* name) {
  instruments::HydrometerReading r;
  r.indication = 1.050;
  r.temperature.indication_c = 20;
  r.meniscus = instruments::Meniscus::top;
  return measurement::correct({h, correction}, r, std::array{physics::sg_20_20}, name);
}

double u_of_difference(const measurement::Result& a, const measurement::Result& b) {
  return difference(a, b, key).u;
}

TEST(Difference, TwoInstrumentsShareNothingHoweverAlike) {
  const Hydrometer one{.name = "stem"};
  const Hydrometer another{.name = "stem"};
  const auto never = instruments::never_checked(one.division, one.lo, one.hi);
  const measurement::Result first = read(one, never, "the first");
  const measurement::Result of_one = read(one, never, "the second");
  const measurement::Result of_another = read(another, never, "the second");
  // Of the correction u is 0.0012, of the meniscus 0.0006; of eye, temperature and surface 0.0005.
  EXPECT_LT(u_of_difference(first, of_one), 0.0008);
  EXPECT_GT(u_of_difference(first, of_another), 0.0018);
}

TEST(Difference, CalibratedAnewItSharesGlassAndMeniscusOnly) {
  const Hydrometer stem{.name = "stem"};
  instruments::Correction before{.u_offset = 0.0003,
                                 .checked_lo = 0.99,
                                 .checked_hi = 1.1,
                                 .checks = 3,
                                 .provenance = "before"};
  instruments::Correction after = before;
  after.provenance = "after";  // the same numbers, from other checks
  const measurement::Result first = read(stem, before, "the first");
  const double same = u_of_difference(first, read(stem, before, "the second"));
  const double anew = u_of_difference(first, read(stem, after, "the second"));
  EXPECT_NEAR(anew * anew - same * same, 2 * 0.0003 * 0.0003, 1e-9);
  // The meniscus is 0.0006, and shared by all of them.
  EXPECT_LT(anew, 0.001);
}

}  // namespace
}  // namespace areo::analysis
