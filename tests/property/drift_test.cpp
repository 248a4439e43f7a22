// SPDX-License-Identifier: GPL-3.0-or-later
// An instrument that did not change must seldom be called drifted, and one that did, often. Its
// offset and slope are as nobody knows them, its checks err with what they share and what they do
// not.
#include "areo/calibration/drift.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "world.hpp"

namespace areo::property {
namespace {

using calibration::CheckSet;
using calibration::DriftVerdict;
using calibration::Selection;

constexpr int histories = 10'000;
constexpr double division = 0.002, lo = 0.990, hi = 1.100;
constexpr double eye = 0.0004, surface = 0.0003, solute = 0.0003;  // standard uncertainties

// Two years of checks: water first, then solutions of one kind of sugar.
struct Year {
  std::vector<double> places;
  double change;  // of the instrument since the first year
};
Selection add_year(CheckSet& set, const Year& year, const std::vector<double>& errors,
                   double offset, double slope) {
  Selection which;
  for (const double r : year.places) {
    which.push_back(set.checks.size());
    const double b = offset + slope * (r - 1.045) + year.change + errors[set.checks.size()];
    set.checks.push_back({"test", r, {r + b, eye}, {b, eye}});
  }
  return which;
}

numeric::Covariance covariance_of(const std::vector<double>& places) {
  numeric::Covariance v{places.size()};
  for (std::size_t i = 0; i < places.size(); ++i)
    for (std::size_t j = 0; j <= i; ++j) {
      const bool in_sugar = places[i] > 1.01 && places[j] > 1.01;
      // The surface of water is one, that of a solution another each time it is made.
      const bool in_water = places[i] < 1.01 && places[j] < 1.01;
      v.set(i, j,
            (in_sugar ? solute * solute : 0) + (in_water || i == j ? surface * surface : 0) +
                (i == j ? eye * eye : 0));
    }
  return v;
}

double rate_of_alarms(World& world, const std::vector<double>& first,
                      const std::vector<double>& second, double change) {
  std::vector<double> places = first;
  places.insert(places.end(), second.begin(), second.end());
  const numeric::Covariance v = covariance_of(places);
  const std::vector<double> l = numeric::cholesky(v);
  const std::size_t n = places.size();
  int alarms = 0;
  for (int i = 0; i < histories; ++i) {
    std::vector<double> errors(n, 0.0);
    for (std::size_t j = 0; j < n; ++j) {
      const double z = world.normal(1);
      for (std::size_t k = j; k < n; ++k) errors[k] += l[k * n + j] * z;
    }
    const double offset = world.rectangular(division);
    const double slope = world.rectangular(division) / (hi - lo);
    CheckSet set{{}, v};
    const Selection before = add_year(set, {first, 0}, errors, offset, slope);
    const Selection after = add_year(set, {second, change}, errors, offset, slope);
    alarms +=
        calibration::drift(set, before, after, division, hi - lo).verdict == DriftVerdict::drifted
            ? 1
            : 0;
  }
  return static_cast<double>(alarms) / histories;
}

const std::vector<double> water{1.000}, two{1.000, 1.040}, three{1.000, 1.040, 1.080};

TEST(Drift, FalseAlarmsAreAboutOneInTwenty) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  // 5 % at one place. Lines are looked at in three places, for a limit that holds for all of a
  // line, so fewer are called; the sampling spread of 10 000 histories is 0.22 %.
  constexpr double fewest = 0.03, most_alarms = 0.057;
  for (const auto& [first, second] : {std::pair{water, water},
                                      {two, two},
                                      {three, three},
                                      {three, water},
                                      {water, three},
                                      {three, two},
                                      {two, three}}) {
    const double rate = rate_of_alarms(world, first, second, 0);
    EXPECT_GE(rate, fewest) << first.size() << ' ' << second.size();
    EXPECT_LE(rate, most_alarms) << first.size() << ' ' << second.size();
  }
}

// One division, in water both times: only the eye is not shared, so the change is 0.002 / (√2
// 0.0004) = 3.54 standard uncertainties, and normal errors leave it above 1.96 of them in 94.2 %.
TEST(Drift, SeesAChangeAsOftenAsItsUncertaintySays) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  const double expected = 0.942;
  const double spread = std::sqrt(expected * (1 - expected) / histories);
  EXPECT_NEAR(rate_of_alarms(world, water, water, division), expected, 5 * spread);
  EXPECT_GT(rate_of_alarms(world, three, three, division), expected);  // more checks see more
}

}  // namespace
}  // namespace areo::property
