// SPDX-License-Identifier: GPL-3.0-or-later
// Baumé and Brix against another program, GNU units [gnu-units], run as a process of its own. If it
// is not installed these tests fail: a comparison that was not made proves nothing.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <charconv>
#include <cstdio>
#include <memory>
#include <stdexcept>
#include <string>

#include "areo/core/scales.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale.hpp"
#include "areo/physics/water.hpp"
#include "rows.hpp"

namespace areo::published {
namespace {

// The arguments are made here from numbers and words, never from a file.
double units(const std::string& have, const std::string& want) {
  const std::string command =
      fmt::format("LC_ALL=C units --terse --output-format '%.15g' '{}' '{}' 2>&1", have, want);
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> pipe{popen(command.c_str(), "r"), pclose};
  if (!pipe) throw std::runtime_error{"cannot start a process"};
  std::string out;
  for (std::array<char, 256> part; std::fgets(part.data(), part.size(), pipe.get());)
    out += part.data();
  double v = 0;
  const auto [end, error] = std::from_chars(out.data(), out.data() + out.size(), v);
  if (error != std::errc{} || std::string_view{end} != "\n")
    throw std::runtime_error{"'" + command + "' printed '" + out +
                             "'; these tests need GNU units (Debian package units)"};
  return v;
}

// Its Baumé is 145 - 145/d for d in g/cm³, which stands for the specific gravity.
TEST(GnuUnits, Baume) {
  const auto scale = physics::baume_scale<Modulus145>();
  const double water = physics::water_density(celsius_point(sixty_fahrenheit_c)).value();
  for (const double be : {0.0, 0.5, 1.0, 6.5, 10.0, 20.0, 35.0, 66.0}) {
    const double gravity = units(fmt::format("baume({})", be), "g/cm^3");
    EXPECT_NEAR(physics::density_from_mark(scale, be).value() / water, gravity, 1e-12) << be;
    EXPECT_NEAR(physics::mark_from_density(scale, kg_per_m3(gravity * water)), be, 1e-9);
  }
  for (const double gravity : {1.0005, 1.010, 1.050, 1.123, 1.5})
    EXPECT_NEAR(physics::mark_from_density(scale, kg_per_m3(gravity * water)),
                units(fmt::format("{} g/cm^3", gravity), "baume"), 1e-9)
        << gravity;
}

// Its Brix is an apparent density: the apparent gravities of [nbsc440] Table 114 times this.
constexpr double apparent_water_g_cm3 = 0.99717;

class GnuUnitsBrix : public RowTest {};

TEST_P(GnuUnitsBrix, ApparentGravity) {
  const int brix = static_cast<int>(row().number("brix"));
  const double gravity = units(fmt::format("brix({})", brix), "g/cm^3") / apparent_water_g_cm3;
  EXPECT_NEAR(gravity, row().number("sg_apparent_20_20"), 1e-12) << "not the same table";
  if (brix > 85) return;  // beyond the range of the sugar formula
  const physics::Liquid liquid{ExtractFraction{brix / 100.0}};
  // Half of the last digit of the table, and three standard uncertainties of the density; 997.007
  // kg/m³ is one unit of apparent gravity.
  const double limit = 0.5e-5 + 3 * physics::density_model_uncertainty(liquid) / 997.007;
  EXPECT_NEAR(physics::mark_from_liquid(physics::apparent_sg_20_20, liquid), gravity, limit);
}
INSTANTIATE_TEST_SUITE_P(SucroseDensity20C, GnuUnitsBrix,
                         testing::ValuesIn(rows_of("sucrose-density-20c")), line_name);

// Backwards, between the rows of its table: three standard uncertainties of the density, where one
// percent is 3.8 kg/m³ or more. Its straight line between two rows leaves the curve by up to 0.0015
// (1/8 of the second difference 0.00006 of the gravities, by 0.0045 a percent), and 1e-5 in a
// printed gravity is 0.0025 %.
TEST(GnuUnits, BrixFromGravity) {
  for (const double gravity : {1.0100, 1.0250, 1.0400, 1.0555, 1.0800, 1.1100, 1.1700}) {
    const double brix =
        units(fmt::format("{:.10f} g/cm^3", gravity * apparent_water_g_cm3), "brix");
    const auto liquid = physics::liquid_from_mark(physics::apparent_sg_20_20, gravity);
    const double limit = 3 * physics::density_model_uncertainty(liquid) / 3.8 + 0.0015 + 0.0025;
    EXPECT_NEAR(100 * liquid.extract.value(), brix, limit) << gravity;
  }
}

TEST(GnuUnits, SaysWhatItDoesNotKnow) {
  ASSERT_EQ(units("2 kg/m^3", "g/L"), 2) << "else what follows would prove nothing";
  EXPECT_THROW((void)units("brix(-1)", "g/cm^3"), std::runtime_error);
  EXPECT_THROW((void)units("no_such_unit", "g/cm^3"), std::runtime_error);
}

}  // namespace
}  // namespace areo::published
