// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Seeded draws: the same on every machine, other ones with AREO_TEST_SEED=<number>, and the seed is
// in every failure message and in the XML report.
#include <gtest/gtest.h>

#include <array>
#include <cstdint>
#include <cstdlib>
#include <ostream>
#include <random>
#include <string>

#include "areo/core/scales.hpp"
#include "areo/physics/scale.hpp"

namespace areo::property {

class Draws {
 public:
  static constexpr int count = 10'000;

  Draws() : seed_{chosen_seed()}, engine_{seed_} {
    testing::Test::RecordProperty("seed", std::to_string(seed_));
  }
  [[nodiscard]] std::string trace() const { return "AREO_TEST_SEED=" + std::to_string(seed_); }
  /// Not std::uniform_real_distribution, whose numbers differ between standard libraries.
  double uniform(double lo, double hi) {
    return lo + (hi - lo) * (static_cast<double>(engine_() >> 11) * 0x1p-53);
  }
  /// Another seed.
  std::uint64_t whole_number() { return engine_(); }

 private:
  static std::uint64_t chosen_seed() {
    const char* text = std::getenv("AREO_TEST_SEED");
    return text != nullptr ? std::strtoull(text, nullptr, 10) : 20010301;
  }
  std::uint64_t seed_;
  std::mt19937_64 engine_;
};

struct NamedScale {
  const char* name;
  physics::Scale scale;
};
/// Every kind of scale, the ratios with every pair of reference temperatures.
inline constexpr std::array all_scales{
    NamedScale{"sg_20_20", physics::sg_20_20},
    NamedScale{"sg_15_15", physics::specific_gravity_scale<Ref15_15>()},
    NamedScale{"sg_60F_60F", physics::specific_gravity_scale<Ref60F>()},
    NamedScale{"sg_20_4", physics::specific_gravity_scale<Ref20_4>()},
    NamedScale{"apparent_20_20", physics::apparent_sg_20_20},
    NamedScale{"density_20", physics::density_20},
    NamedScale{"density_15", {physics::ScaleKind::density, 15}},
    NamedScale{"plato", physics::plato_20},
    NamedScale{"brix", physics::brix_20},
    NamedScale{"plato_17_5", {physics::ScaleKind::plato, 17.5}},
    NamedScale{"baume_145", physics::baume_scale<Modulus145>()},
    NamedScale{"baume_144_3", physics::baume_scale<Modulus144_3>()},
    NamedScale{"oechsle", physics::oechsle_20},
    NamedScale{"sugar_g_l", physics::sugar_g_l_20},
};
inline void PrintTo(const NamedScale& s, std::ostream* out) { *out << s.name; }

}  // namespace areo::property
