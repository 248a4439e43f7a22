// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/parse_refraction.hpp"

#include <gtest/gtest.h>

#include <string>

#include "areo/core/error.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale.hpp"

namespace areo::text {
namespace {

using instruments::Refractometer;
using instruments::RefractometerScale;

// Whose instrument the text was read from.
enum class Own { none, brix, dual, index };
std::optional<Refractometer> instrument(Own own) {
  if (own == Own::none) return std::nullopt;
  Refractometer r = instruments::ordinary_refractometer(
      own == Own::index ? RefractometerScale::index : RefractometerScale::brix);
  r.name = "prism";
  r.also_gravity = own == Own::dual;
  return r;
}

struct Accepted {
  const char* text;
  Own own;
  RefractometerScale scale;
  double value, half_width;
  const char* echo = "";
};
void PrintTo(const Accepted& a, std::ostream* os) { *os << '"' << a.text << '"'; }

class AcceptsRefraction : public testing::TestWithParam<Accepted> {};
TEST_P(AcceptsRefraction, TheReading) {
  const Accepted& a = GetParam();
  const TypedRefraction r = refraction_from_text(a.text, instrument(a.own));
  EXPECT_EQ(r.scale, a.scale);
  EXPECT_DOUBLE_EQ(r.value, a.value);
  EXPECT_DOUBLE_EQ(r.half_width, a.half_width);
  EXPECT_EQ(r.echo, a.echo);
}

INSTANTIATE_TEST_SUITE_P(
    Units, AcceptsRefraction,
    testing::Values(Accepted{"12.4Bx", Own::none, RefractometerScale::brix, 12.4, 0.05},
                    Accepted{"12.4 bx", Own::none, RefractometerScale::brix, 12.4, 0.05},
                    Accepted{"12Brix", Own::none, RefractometerScale::brix, 12, 0.5},
                    Accepted{"12.40 °Bx", Own::none, RefractometerScale::brix, 12.4, 0.005},
                    Accepted{"-0.4Bx", Own::none, RefractometerScale::brix, -0.4, 0.05},
                    Accepted{"12,4Bx", Own::none, RefractometerScale::brix, 12.4, 0.05,
                             "read as 12.4"},
                    Accepted{"1.3512nD", Own::none, RefractometerScale::index, 1.3512, 0.00005},
                    Accepted{"1.3512 n", Own::none, RefractometerScale::index, 1.3512, 0.00005},
                    Accepted{"1,3512nD", Own::none, RefractometerScale::index, 1.3512, 0.00005,
                             "read as 1.3512"}));

INSTANTIATE_TEST_SUITE_P(
    OnANamedInstrument, AcceptsRefraction,
    testing::Values(
        Accepted{"12.4", Own::brix, RefractometerScale::brix, 12.4, 0.05},
        Accepted{"12,4", Own::brix, RefractometerScale::brix, 12.4, 0.05, "read as 12.4"},
        Accepted{"12.4Bx", Own::brix, RefractometerScale::brix, 12.4, 0.05},
        Accepted{"12.4", Own::dual, RefractometerScale::brix, 12.4, 0.05},
        Accepted{"1.0", Own::brix, RefractometerScale::brix, 1, 0.05},  // one Brix, no gravity
        Accepted{"1.1", Own::brix, RefractometerScale::brix, 1.1, 0.05},
        Accepted{"1.05Bx", Own::brix, RefractometerScale::brix, 1.05, 0.005},
        Accepted{"1.3512", Own::index, RefractometerScale::index, 1.3512, 0.00005},
        Accepted{"1.3512nD", Own::index, RefractometerScale::index, 1.3512, 0.00005}));

// The gravity beside a Brix mark is that of the sugar solution.
TEST(RefractionOnADualScale, GravityGoesBackToBrix) {
  const TypedRefraction r = refraction_from_text("1.048", instrument(Own::dual));
  EXPECT_EQ(r.scale, RefractometerScale::brix);
  const physics::Liquid liquid = physics::liquid_from_mark(physics::sg_20_20, 1.048);
  EXPECT_DOUBLE_EQ(r.value, 100 * liquid.extract.value());
  const auto gravity = [](double brix) {
    return physics::mark_from_density(
        physics::sg_20_20,
        physics::density({ExtractFraction{brix / 100}}, physics::sg_20_20.reference()));
  };
  EXPECT_NEAR(gravity(r.value), 1.048, 1e-9);
  EXPECT_EQ(r.echo, "read on the gravity scale: taken as 11.92 Brix");
  // ± 0.0005, but for the curvature of the scale.
  EXPECT_NEAR(gravity(r.value + r.half_width), 1.0485, 2e-6);
  EXPECT_NEAR(gravity(r.value - r.half_width), 1.0475, 2e-6);
}

TEST(RefractionOnADualScale, AWordSaysGravityToo) {
  const TypedRefraction bare = refraction_from_text("1.048", instrument(Own::dual));
  for (const char* text : {"1.048SG", "1.048 sg"}) {
    const TypedRefraction r = refraction_from_text(text, instrument(Own::dual));
    EXPECT_EQ(r.value, bare.value) << text;
    EXPECT_EQ(r.half_width, bare.half_width) << text;
    EXPECT_EQ(r.echo, bare.echo) << text;
  }
  for (const char* text : {"1.05SG", "1.05", "1050"})
    EXPECT_NEAR(refraction_from_text(text, instrument(Own::dual)).value, 12.4, 0.05) << text;
}

struct Refused {
  const char* text;
  Own own;
  const char* what;
  std::size_t position, length;  // bytes
  const char* hint;
};
void PrintTo(const Refused& r, std::ostream* os) { *os << '"' << r.text << '"'; }

class RefusesRefraction : public testing::TestWithParam<Refused> {};
TEST_P(RefusesRefraction, TheReading) {
  const Refused& r = GetParam();
  try {
    (void)refraction_from_text(r.text, instrument(r.own));
    ADD_FAILURE() << "accepted";
  } catch (const ParseError& e) {
    EXPECT_EQ(e.code, Errc::parse);
    EXPECT_STREQ(e.what(), r.what);
    EXPECT_EQ(e.text, r.text);
    EXPECT_EQ(e.position, r.position);
    EXPECT_EQ(e.length, r.length);
    EXPECT_EQ(e.hint, r.hint);
  }
}

constexpr const char* percent = "percent of what? sugar or alcohol";
constexpr const char* say_brix = "a refractometer shows Brix: write 12Bx";
constexpr const char* say_unit = "write 12.4Bx, or 1.3512nD for a refractive index";
constexpr const char* read_brix =
    "read its Brix scale, or give a hydrometer reading with --gravity";

INSTANTIATE_TEST_SUITE_P(
    Bare, RefusesRefraction,
    testing::Values(
        Refused{"12.4", Own::none, "12.4 without a unit could be Brix or a refractive index", 0, 4,
                "write 12.4Bx"},
        Refused{"1.3512", Own::none, "1.3512 without a unit could be Brix or a refractive index", 0,
                6, "write 1.3512nD"},
        Refused{"1.048", Own::none, "1.048 looks like a specific gravity, a hydrometer's", 0, 5,
                "areo correct or areo alcohol takes it; a refractometer shows Brix: 12.4Bx"}));

INSTANTIATE_TEST_SUITE_P(
    OtherUnits, RefusesRefraction,
    testing::Values(
        Refused{"12%", Own::none, percent, 2, 1, say_brix},
        Refused{"5%vol", Own::brix, percent, 1, 4, say_brix},
        Refused{"12.4P", Own::none, "'P' is not a unit of a refractometer", 4, 1, say_unit},
        Refused{"1.048SG", Own::none, "'SG' is not a unit of a refractometer", 5, 2, say_unit},
        Refused{"1.048SG", Own::index, "'SG' is not a unit of a refractometer", 5, 2, say_unit}));

INSTANTIATE_TEST_SUITE_P(
    OnAnotherScale, RefusesRefraction,
    testing::Values(
        Refused{"1.048", Own::brix, "1.048 looks like a specific gravity; prism shows Brix", 0, 5,
                read_brix},
        Refused{"1050", Own::brix, "1050 looks like a specific gravity; prism shows Brix", 0, 4,
                read_brix},
        Refused{"1.05", Own::brix, "1.05 looks like a specific gravity; prism shows Brix", 0, 4,
                "read its Brix scale, or give a hydrometer reading with --gravity; or write "
                "1.05Bx"},
        Refused{"1.3512", Own::brix, "1.3512 looks like a refractive index; prism shows Brix", 0, 6,
                "read its Brix scale"},
        Refused{"1.050", Own::index,
                "1.050 looks like a specific gravity; prism shows a refractive index", 0, 5,
                "read its own scale, or give a hydrometer reading with --gravity"},
        Refused{"1.048SG", Own::brix, "1.048SG looks like a specific gravity; prism shows Brix", 5,
                2, read_brix},
        Refused{"1.3512nD", Own::brix, "prism shows Brix", 6, 2, "write what its scale shows"},
        Refused{"12.4Bx", Own::index, "prism shows a refractive index", 4, 2,
                "write what its scale shows"}));

INSTANTIATE_TEST_SUITE_P(
    NoNumber, RefusesRefraction,
    testing::Values(
        Refused{"", Own::none, "a refractometer reading is missing", 0, 0, ""},
        Refused{"Bx", Own::brix, "a refractometer reading begins with a number", 0, 2, ""},
        Refused{"nan", Own::brix, "a refractometer reading begins with a number", 0, 3, ""}));

}  // namespace
}  // namespace areo::text
