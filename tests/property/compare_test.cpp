// Two bottles of one ferment, read with one checked hydrometer: equal ones are called different in
// 5 of 100 cases, and those that differ by what is told as detectable are found in 95.
#include "areo/trend/compare.hpp"

#include <gtest/gtest.h>

#include "areo/analysis/difference.hpp"
#include "areo/measurement/original.hpp"
#include "stem.hpp"

namespace areo::property {
namespace {

constexpr const char* gravity = "sg_20_20_present";
constexpr int pairs = 10'000;

struct Pair {
  NewStem stem;
  measurement::Calibrated calibrated;
  measurement::Original original{};
  double extract;

  explicit Pair(World& world)
      : stem{world},
        calibrated{stem.hydrometer, checked(world, stem)},
        extract{world.uniform(0.06, 0.20)} {
    const double c = world.uniform(15, 26);
    original.readings.push_back(measurement::HydrometerSample{calibrated, stem.reads(after(0), c)});
  }
  // After this part of its sugar is gone.
  [[nodiscard]] physics::Liquid after(double part) const {
    const ExtractFraction first{extract};
    const double all = ferment::ethanol_from_extracts(first, ExtractFraction{0}).value();
    return ferment::fermented(first, EthanolFraction{all * part});
  }
  [[nodiscard]] measurement::Result read(World& world, double part, const char* name) {
    const double c = world.uniform(15, 26);
    return measurement::alcohol(
               measurement::HydrometerSample{calibrated, stem.reads(after(part), c)}, original,
               ferment::Culture::yeast, name)
        .result;
  }
};

// How many of the equal pairs are called different.
int called_different(const char* second, analysis::Common common) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  int different = 0;
  for (int i = 0; i < pairs; ++i) {
    Pair p{world};
    const double part = world.uniform(0.3, 0.98);
    const auto a = p.read(world, part, "reading 1"), b = p.read(world, part, second);
    const auto c = trend::compare(analysis::difference(a, b, gravity, common), 0.002);
    different += c.verdict == trend::Verdict::different ? 1 : 0;
  }
  return different;
}

TEST(Compare, EqualBottlesAreCalledDifferentInFiveOfAHundred) {
  const int different = called_different("reading 2", analysis::Common::ferment);
  RecordProperty("different", different);
  EXPECT_GE(different, 0.04 * pairs);
  EXPECT_LE(different, 0.06 * pairs);
}

// Readings of two ferments may have one name, and even show the same.
TEST(Compare, EqualBatchesAreCalledDifferentInFiveOfAHundred) {
  const int different = called_different("reading 1", analysis::Common::instruments);
  RecordProperty("different", different);
  EXPECT_GE(different, 0.04 * pairs);
  EXPECT_LE(different, 0.06 * pairs);
}

TEST(Compare, ADetectableDifferenceIsFound) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  int found = 0;
  constexpr int some = 2'000;
  for (int i = 0; i < some; ++i) {
    Pair p{world};
    const double part = world.uniform(0.3, 0.9);
    const auto a = p.read(world, part, "reading 1");
    const double detectable =
        trend::compare(analysis::difference(a, p.read(world, part, "reading 2"), gravity), 0.002)
            .detectable;
    // How much more has to be gone for that difference.
    const auto sg = [&](double at) {
      return physics::density(p.after(at), celsius_point(20)).value();
    };
    const double slope = (sg(part) - sg(part + 0.01)) / 0.01 / 998.2;
    const auto b = p.read(world, part + detectable / slope, "reading 2");
    const auto c = trend::compare(analysis::difference(a, b, gravity), 0.002);
    found += c.verdict == trend::Verdict::different && c.difference.estimate < 0 ? 1 : 0;
  }
  RecordProperty("found", found);
  // 95 % within three standard deviations of the count.
  EXPECT_GE(found, 0.935 * some);
  EXPECT_LE(found, 0.965 * some);
}

}  // namespace
}  // namespace areo::property
