// SPDX-License-Identifier: GPL-3.0-or-later
// The second evaluation: as often as it claims, the sampled interval has to hold the truth too.
//
// A sampling takes 50 000 trials or more until its digits are stable; 20 000 of these take hours.
// But an interval from few trials has an exact claim of its own: if the truth is one more draw from
// the distribution that the trials come from, each of the M + 1 gaps that M trials leave is as
// likely to hold it, and q of them lie between trial r and trial r + q: the truth is in there with
// probability q / (M + 1). With M = 59 and q = 56 this is 93.3 %, not 95 %, and so much is asked
// for; that the ends wander with so few trials is part of this probability. 59, because two gaps
// are then left beyond each end, and more trials only take longer. What is tested is whether
// inputs, model and draws are those of the world; that monte_carlo() draws its trials and takes its
// interval like this is tested elsewhere.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/physics/scale.hpp"
#include "areo/uncertainty/monte_carlo.hpp"
#include "stem.hpp"
#include "uncertainty/sampler.hpp"
#include "world.hpp"

namespace areo::property {
namespace {

constexpr std::size_t trials = 59;
constexpr double claim = 56.0 / (trials + 1);
// As wide as for 95 %: 94 % to 96 % about the claim, the sampling spread of 20 000 cases, 0.18 %,
// inside.
constexpr double lowest = claim + (least - 0.95), highest = claim + (most - 0.95);

uncertainty::Interval sampled(const measurement::Result& result, std::size_t output,
                              std::uint64_t seed, int& beyond) {
  uncertainty::Sampler sampler{result.inputs, seed};
  std::vector<double> sample;
  while (sample.size() < trials) try {
      sample.push_back(result.model(uncertainty::Point{sampler.next()})[output]);
    } catch (const Error&) {
      ++beyond;  // drawn anew, as monte_carlo() does
    }
  std::sort(sample.begin(), sample.end());
  return uncertainty::symmetric_interval(sample, 0.95);
}

bool holds(const uncertainty::Interval& i, double truth) { return i.lo <= truth && truth <= i.hi; }

TEST(SampledCoverage, FromTheChecksToTheAlcohol) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  int held = 0;
  int beyond = 0;
  for (int i = 0; i < cases; ++i) {
    NewStem stem{world};
    const measurement::Calibrated calibrated{stem.hydrometer, checked(world, stem)};
    const Ferment f{world, stem};
    const auto a = measurement::alcohol(calibrated, f.now, calibrated, f.first);
    ASSERT_EQ(a.result.quantities[0].key, "alcohol_percent_vol");
    held += holds(sampled(a.result, 0, draws.whole_number(), beyond), f.strength) ? 1 : 0;
  }
  RecordProperty("held", held);
  EXPECT_GE(held, lowest * cases);
  EXPECT_LE(held, highest * cases);
  EXPECT_LE(beyond, 0.01 * trials * cases);  // as monte_carlo() has it
}

// An instrument that nobody checked: rectangular inputs rule, and the law of propagation states an
// interval that is wider than 95 %. The sampled one is not.
TEST(SampledCoverage, OfAGravityWithAnInstrumentNobodyChecked) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  int held = 0;
  int held_by_the_law = 0;
  int beyond = 0;
  for (int i = 0; i < cases; ++i) {
    NewStem stem{world};
    stem.make_as_stated(world);
    const auto calibrated = measurement::Calibrated::never_checked(stem.hydrometer);
    const ExtractFraction extract{world.uniform(0.06, 0.20)};
    const double t = world.uniform(15, 26);
    const auto reading = stem.reads(physics::Liquid{extract}, t);
    const measurement::Result r = measurement::correct(calibrated, reading, {});
    const double truth = physics::mark_from_liquid(stem.hydrometer.scale, {extract});
    const uncertainty::Value& law = r.quantities[0].value;
    held += holds(sampled(r, 0, draws.whole_number(), beyond), truth) ? 1 : 0;
    held_by_the_law += std::abs(law.estimate - truth) <= law.expanded() ? 1 : 0;
  }
  RecordProperty("held", held);
  RecordProperty("held_by_the_law", held_by_the_law);
  EXPECT_GE(held, lowest * cases);
  EXPECT_LE(held, highest * cases);
  EXPECT_LE(beyond, 0.01 * trials * cases);
  EXPECT_GT(held_by_the_law, most * cases) << "this test no longer tests what it says";
}

}  // namespace
}  // namespace areo::property
