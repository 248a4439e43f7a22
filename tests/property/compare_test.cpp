// SPDX-License-Identifier: GPL-3.0-or-later
// Two bottles of one ferment, read with one checked hydrometer: equal ones are called different in
// 5 of 100 cases, and those that differ by what is told as detectable are found in 95.
#include "areo/trend/compare.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "areo/analysis/difference.hpp"
#include "areo/analysis/rounding.hpp"
#include "areo/measurement/original.hpp"
#include "areo/trend/whole_divisions.hpp"
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
    original.readings.emplace_back(
        measurement::HydrometerSample{calibrated, stem.reads(after(0), c)});
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

// Two bottles of one ferment, all of it noted in steps of so many parts of a division, as areo
// compare takes them: of so many pairs that differ by so much how many are called different.
int told_apart(World& world, double parts, double percent_vol, int of) {
  constexpr const char* strength = "alcohol_percent_vol";
  int different = 0;
  for (int i = 0; i < of; ++i) {
    NewStem stem{world};
    const measurement::Calibrated calibrated{stem.hydrometer, checked(world, stem)};
    const double division = stem.hydrometer.division;
    // Of halves and finer the stated error of the eye holds the rounding: u² is half of each.
    stem.times_eye = parts < 1 ? 1 / std::sqrt(2) : 1;
    std::vector<trend::Noted> noted;
    const auto read = [&](const physics::Liquid& liquid) {
      instruments::HydrometerReading r = stem.reads(liquid, world.uniform(15, 26));
      r.indication = std::round(r.indication / (parts * division)) * parts * division;
      noted.emplace_back(r.indication, division);
      return measurement::HydrometerSample{calibrated, r};
    };
    const ExtractFraction extract{world.uniform(0.08, 0.20)};
    const double all = ferment::ethanol_from_extracts(extract, ExtractFraction{0}).value();
    const double part = world.uniform(0.3, 0.8);
    const auto after = [&](double ethanol) {
      return ferment::fermented(extract, EthanolFraction{ethanol});
    };
    const physics::Liquid weaker = after(all * part);
    // Strength grows nearly in proportion, over so little.
    const double more = percent_vol / ferment::strength_by_volume(weaker).value();
    const measurement::Original original{.readings = {read(physics::Liquid{extract})}};
    const auto a = measurement::alcohol(read(weaker), original, ferment::Culture::yeast, "1");
    const auto b = measurement::alcohol(read(after(all * part * (1 + more))), original,
                                        ferment::Culture::yeast, "2");
    const bool whole = trend::in_whole_divisions(noted);
    const auto counted = [&](const measurement::Result& r) {
      return whole ? analysis::with_rounding(r) : r;
    };
    const auto d = analysis::difference(counted(a.result), counted(b.result), strength);
    different += trend::compare(d, 0.1).verdict == trend::Verdict::different ? 1 : 0;
  }
  return different;
}

// At most 5 %, with three times the spread of a count of 1000 (0.7 %).
TEST(Compare, EqualBottlesReadInStepsAreSeldomCalledDifferent) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  constexpr int some = 1000;
  for (const double parts : {1.0, 0.5, 0.25}) {
    SCOPED_TRACE(parts);
    const int different = told_apart(world, parts, 0, some);
    RecordProperty("different_" + std::to_string(parts), different);
    EXPECT_LE(different, (0.05 + 3 * std::sqrt(0.05 * 0.95 / some)) * some);
  }
}

// Half a per cent apart: who reads finer loses little by chance readings that lie on marks.
TEST(Compare, BottlesHalfAPercentApartAreTold) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  constexpr int some = 400;
  for (const double parts : {0.5, 0.25}) {
    SCOPED_TRACE(parts);
    const int different = told_apart(world, parts, 0.5, some);
    RecordProperty("told_" + std::to_string(parts), different);
    EXPECT_GE(different, 0.9 * some);
  }
  RecordProperty("told_whole", told_apart(world, 1, 0.5, some));
}

}  // namespace
}  // namespace areo::property
