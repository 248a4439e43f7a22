// SPDX-License-Identifier: GPL-3.0-or-later
// What may be called from several threads: everything that computes, on objects that are shared.
#include <gtest/gtest.h>

#include <thread>
#include <vector>

#include "areo/front/calibrate.hpp"
#include "areo/front/drink.hpp"
#include "areo/front/jobs.hpp"
#include "areo/front/literals.hpp"
#include "inner.hpp"

namespace areo {
namespace {

struct Outcome {
  double strength, u, difference, corrected, plato, added;
  friend bool operator==(const Outcome&, const Outcome&) = default;
};

TEST(Threads, ShareInstrumentsReadingsAndResults) {
  const auto wort = front_stem().read(1.050_sg, 21_degC);
  const auto now = front_stem().read(1.011_sg, 20_degC);
  const Drink shared = alcohol({.original = wort, .present = now});
  const auto compute = [&] {
    const Drink mine = alcohol({.original = wort, .present = now});
    const auto calibration =
        calibrate(front_stem(), {in_water(front_stem().read(1.001_sg, 21_degC))});
    return Outcome{mine.strength.value().value(),
                   mine.strength.standard_uncertainty().value,
                   (mine.strength - shared.strength).standard_uncertainty().value,
                   correct(now).reading.value().value(),
                   convert<Plato>(1.048_sg).value().value(),
                   calibration.correction(1.050_sg).value().value};
  };
  const Outcome alone = compute();
  EXPECT_EQ(alone.difference, 0);  // the same readings
  constexpr std::size_t threads = 4, times = 5;
  std::vector<std::vector<Outcome>> outcomes(threads);
  std::vector<std::thread> running;
  for (std::vector<Outcome>& mine : outcomes)
    running.emplace_back([&] {
      for (std::size_t i = 0; i < times; ++i) mine.push_back(compute());
    });
  for (std::thread& t : running) t.join();
  for (const std::vector<Outcome>& each : outcomes)
    EXPECT_EQ(each, std::vector<Outcome>(times, alone));
}

TEST(Threads, EachGetsInstrumentsOfItsOwn) {
  std::vector<Identity> made(64);  // made here, so that all are unlike
  std::vector<std::thread> running;
  for (std::size_t t = 0; t < 4; ++t)
    running.emplace_back([&made, t] {
      for (std::size_t i = 16 * t; i < 16 * (t + 1); ++i) made[i] = Hydrometer<Gravity>{}.identity;
    });
  for (std::thread& t : running) t.join();
  for (std::size_t i = 0; i < made.size(); ++i)
    for (std::size_t j = i + 1; j < made.size(); ++j) EXPECT_NE(made[i], made[j]);
}

}  // namespace
}  // namespace areo
