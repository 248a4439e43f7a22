// SPDX-License-Identifier: GPL-3.0-or-later
// What readings share: one instrument by its identity, whatever its name.
#include "areo/instruments/readings.hpp"

#include <gtest/gtest.h>

#include "areo/core/error.hpp"

namespace areo::instruments {
namespace {

HydrometerReading reading(double indication) {
  HydrometerReading r;
  r.indication = indication;
  r.temperature.indication_c = 20;
  return r;
}

// Inputs of two readings; of one there are those of the instrument and 3 of its own.
std::size_t inputs_of(const Hydrometer& a, const Correction& of_a, const Hydrometer& b,
                      const Correction& of_b) {
  Readings readings;
  (void)readings.add(a, of_a, reading(1.010), "the first");
  (void)readings.add(b, of_b, reading(1.050), "the second");
  return readings.inputs.all().size();
}
// Of the glass: its expansion, the height of the meniscus, diameter, mass, what it was made for.
constexpr std::size_t own = 3, correction = 4, of_the_glass = 5;

TEST(Readings, TwoWithoutANameAreTwoAndACopyIsTheSame) {
  const Hydrometer one;
  const Hydrometer another;
  const Correction never = never_checked(0.002, 0.99, 1.1);
  EXPECT_EQ(inputs_of(one, never, one, never), 2 * own + correction + of_the_glass);
  EXPECT_EQ(inputs_of(one, never, Hydrometer{one}, never), 2 * own + correction + of_the_glass);
  EXPECT_EQ(inputs_of(one, never, another, never), 2 * (own + correction + of_the_glass));
}

TEST(Readings, CalibratedAnewTheGlassIsSharedAndTheCorrectionIsNot) {
  const Hydrometer one;
  const Correction first{.offset = 0.001, .u_offset = 0.0003, .checks = 1, .provenance = "first"};
  Correction second = first;
  second.provenance = "second";  // the same numbers, from other checks
  EXPECT_EQ(inputs_of(one, first, one, second), 2 * (own + correction) + of_the_glass);
  second = first;
  second.remarks = {"due"};  // what is said about it is no part of it
  EXPECT_EQ(inputs_of(one, first, one, second), 2 * own + correction + of_the_glass);
}

TEST(Readings, OneInstrumentDescribedInTwoWaysIsRefused) {
  const Hydrometer one{.name = "stem"};
  Hydrometer other = one;
  other.scale = physics::plato_20;
  other.lo = 0;
  other.hi = 30;
  const auto code = [&](const Hydrometer& b) {
    Readings readings;
    (void)readings.add(one, {}, reading(1.010), "the first");
    try {
      (void)readings.add(b, {}, reading(1.050), "the second");
    } catch (const Error& e) {
      return e.code;
    }
    return Errc::domain;
  };
  EXPECT_EQ(code(other), Errc::inconsistent);
  other = one;
  other.name = "another stem";
  EXPECT_EQ(code(other), Errc::inconsistent);
}

}  // namespace
}  // namespace areo::instruments
