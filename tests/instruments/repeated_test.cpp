// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/instruments/repeated.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/instruments/readings.hpp"

namespace areo::instruments {
namespace {

using uncertainty::Repeatability;

constexpr Repeatability nothing{};

TEST(Repeated, AreNoBetterThanTheirOwnScatter) {
  const std::array readings{1.048, 1.047, 1.048};
  const Repeated r = mean_of(readings, 0.001, nothing);
  EXPECT_NEAR(r.mean, 3.143 / 3, 1e-12);
  EXPECT_NEAR(r.u, 0.001 / 3, 1e-12);  // s = 0.001 / √3
  EXPECT_FALSE(r.type_a);
  EXPECT_TRUE(std::isinf(r.degrees_of_freedom));
}

TEST(Repeated, ThatAgreeAreAsGoodAsTheEyeOverTheRootOfTheirNumber) {
  const std::array readings{1.048, 1.048};
  // Triangular within 0.001: 0.000408, over √2 = 0.000289, which is just the step over √12.
  EXPECT_NEAR(mean_of(readings, 0.001, nothing).u, 0.001 / std::sqrt(12.0), 1e-15);
}

TEST(Repeated, NeverLookBehindTheStepsOfTheScale) {
  const std::array readings{1.048, 1.048, 1.048, 1.048, 1.048};
  EXPECT_NEAR(mean_of(readings, 0.001, nothing).u, 0.001 / std::sqrt(12.0), 1e-15);
  // Not even with a pooled scatter of nothing at all.
  const Repeated r = mean_of(readings, 0.001, {0, 20, 10});
  EXPECT_NEAR(r.u, 0.001 / std::sqrt(12.0), 1e-15);
  EXPECT_FALSE(r.type_a);
}

TEST(Repeated, ProfitFromWhatWasRepeatedBefore) {
  const std::array readings{1.048, 1.048, 1.048, 1.048};
  const Repeated r = mean_of(readings, 0.001, {0.0008, 9, 6});
  EXPECT_NEAR(r.u, 0.0004, 1e-15);
  EXPECT_EQ(r.degrees_of_freedom, 9);
  EXPECT_TRUE(r.type_a);
  // One reading by the same eye is known as well.
  EXPECT_NEAR(mean_of(std::array{1.048}, 0.001, {0.0008, 9, 6}).u, 0.0008, 1e-15);
  // A scatter from a few readings is not known well enough.
  EXPECT_NEAR(mean_of(std::array{1.048}, 0.001, {0.0008, 4, 3}).u, 0.001 / std::sqrt(6.0), 1e-15);
}

TEST(Repeated, RefusesWhatIsNoReading) {
  const std::array bad{1.048, std::nan("")};
  EXPECT_THROW((void)mean_of(bad, 0.001, nothing), Error);
  EXPECT_THROW((void)mean_of(std::span<const double>{}, 0.001, nothing), Error);
  EXPECT_THROW((void)mean_of(std::array{1.048}, 0, nothing), Error);
  EXPECT_THROW((void)mean_of(std::array{1.048}, std::nan(""), nothing), Error);
}

TEST(Repeated, IsTheReadingsPartOfAModel) {
  Readings readings;
  HydrometerReading reading;
  reading.repeated = mean_of(std::array{1.048, 1.046}, 0.001, {0.0008, 9, 6});
  reading.indication = reading.repeated->mean;
  const Hydrometer h{.name = "stem-1"};
  const auto in = readings.add(h, never_checked(h.division, h.lo, h.hi), reading, "the sample");
  const auto& input = readings.inputs.all()[in.indication_input().index];
  EXPECT_EQ(input.value, reading.repeated->mean);
  EXPECT_EQ(input.u, reading.repeated->u);
  EXPECT_EQ(input.degrees_of_freedom, 9);
  EXPECT_EQ(input.type, uncertainty::Evaluation::type_a);
  EXPECT_EQ(input.shape, uncertainty::Distribution::student_t);
  EXPECT_EQ(input.provenance, "mean of 2 readings, scatter pooled from 6 samples");
}

}  // namespace
}  // namespace areo::instruments
