// SPDX-License-Identifier: GPL-3.0-or-later
// Every public function of physics and of the hydrometer: range ends accepted, one ulp outside
// refused, NaN and infinities refused, and always with Errc::domain.
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <limits>
#include <optional>
#include <ostream>
#include <string>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/instruments/hydrometer.hpp"
#include "areo/physics/boiling.hpp"
#include "areo/physics/carbon_dioxide.hpp"
#include "areo/physics/ethanol.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/refraction.hpp"
#include "areo/physics/salt.hpp"
#include "areo/physics/scale.hpp"
#include "areo/physics/sucrose.hpp"
#include "areo/physics/water.hpp"

namespace areo::property {
namespace {

using namespace areo::physics;  // NOLINT: a test that lists all of it

/// One argument of one function; the others are held at a harmless value.
struct Argument {
  const char* name;
  std::function<double(double)> f;
  std::optional<double> lo, hi;  ///< none: only NaN and infinities must be refused
};
void PrintTo(const Argument& a, std::ostream* out) { *out << a.name; }

constexpr double inf = std::numeric_limits<double>::infinity();
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

Argument ranged(const char* name, const Range& r, std::function<double(double)> f) {
  return {name, std::move(f), r.lo, r.hi};
}
const Temperature mild = celsius_point(20);
const instruments::Hydrometer instrument{};

std::vector<Argument> arguments() {
  return {
      ranged("water_density_t", water_range,
             [](double t) { return water_density(celsius_point(t)).value(); }),
      ranged("sucrose_density_w", sucrose_fraction_range,
             [](double w) { return sucrose_density(ExtractFraction{w}, mild).value(); }),
      ranged(
          "sucrose_density_t", sucrose_temperature_range,
          [](double t) { return sucrose_density(ExtractFraction{0.1}, celsius_point(t)).value(); }),
      ranged("ethanol_density_p", ethanol_fraction_range,
             [](double p) { return ethanol_density(EthanolFraction{p}, mild).value(); }),
      ranged(
          "ethanol_density_t", ethanol_temperature_range,
          [](double t) { return ethanol_density(EthanolFraction{0.5}, celsius_point(t)).value(); }),
      ranged("strength_by_volume_p", ethanol_fraction_range,
             [](double p) { return strength_by_volume(EthanolFraction{p}).value(); }),
      {"ethanol_fraction_q", [](double q) { return ethanol_fraction(StrengthByVolume{q}).value(); },
       0.0, 100.0},
      ranged("density_extract", mixture_extract_range,
             [](double w) { return density({ExtractFraction{w}}, mild).value(); }),
      ranged("density_ethanol", mixture_ethanol_range,
             [](double p) {
               return density({ExtractFraction{0}, EthanolFraction{p}}, mild).value();
             }),
      ranged("density_ethanol_in_a_drink", mixture_ethanol_range,
             [](double p) {
               return density({ExtractFraction{0.05}, EthanolFraction{p}}, mild).value();
             }),
      ranged("density_t", mixture_temperature_range,
             [](double t) { return density({ExtractFraction{0.1}}, celsius_point(t)).value(); }),
      ranged(
          "density_t_of_a_drink", drink_temperature_range,
          [](double t) {
            return density({ExtractFraction{0.1}, EthanolFraction{0.04}}, celsius_point(t)).value();
          }),
      ranged("fermented_to_density_t", drink_temperature_range,
             [](double t) {
               const Density rho = density({ExtractFraction{0.03}}, celsius_point(t));
               return ferment::fermented_to_density(ExtractFraction{0.1}, rho, celsius_point(t))
                   .ethanol.value();
             }),
      {"extract_from_density_rho",
       [](double rho) { return extract_from_density(kg_per_m3(rho), mild).value(); },
       density({ExtractFraction{mixture_extract_range.lo}}, mild).value(),
       density({ExtractFraction{mixture_extract_range.hi}}, mild).value()},
      ranged(
          "extract_from_density_t", mixture_temperature_range,
          [](double t) { return extract_from_density(kg_per_m3(1040), celsius_point(t)).value(); }),
      {"density_model_uncertainty_extract",
       [](double w) { return density_model_uncertainty({ExtractFraction{w}}); },
       {},
       {}},
      {"density_model_uncertainty_ethanol",
       [](double p) {
         return density_model_uncertainty({ExtractFraction{0}, EthanolFraction{p}});
       },
       {},
       {}},
      ranged("salt_density_w", salt_fraction_range,
             [](double w) { return salt_density(SaltFraction{w}, mild).value(); }),
      ranged("salt_density_t", salt_temperature_range,
             [](double t) { return salt_density(SaltFraction{0.1}, celsius_point(t)).value(); }),
      {"salt_density_uncertainty_w",
       [](double w) { return salt_density_uncertainty(SaltFraction{w}); },
       {},
       {}},
      ranged("water_refractive_index_t", water_index_range,
             [](double t) { return water_refractive_index(celsius_point(t)).value(); }),
      ranged("sucrose_refractive_index_20_w", sucrose_index_range,
             [](double w) { return sucrose_refractive_index_20(ExtractFraction{w}).value(); }),
      {"brix_shown_from_index_n",
       [](double n) { return brix_shown_from_index(RefractiveIndex{n}).value(); },
       index_from_brix_shown(Brix{brix_shown_range.lo}).value(),
       index_from_brix_shown(Brix{brix_shown_range.hi}).value()},
      ranged("refractive_index_extract", index_extract_range,
             [](double w) { return refractive_index({ExtractFraction{w}}, mild).value(); }),
      ranged("refractive_index_ethanol", index_ethanol_range,
             [](double p) {
               return refractive_index({ExtractFraction{0.05}, EthanolFraction{p}}, mild).value();
             }),
      ranged("refractive_index_t", index_temperature_range,
             [](double t) {
               return refractive_index({ExtractFraction{0.05}, EthanolFraction{0.04}},
                                       celsius_point(t))
                   .value();
             }),
      ranged("refractive_index_relative_rise", relative_rise_range,
             [](double rise) {
               return refractive_index({ExtractFraction{0.1}}, mild, {rise, 0}).value();
             }),
      ranged(
          "refractive_index_model_uncertainty_extract", index_extract_range,
          [](double w) { return refractive_index_model_uncertainty({ExtractFraction{w}}, mild); }),
      ranged("refractive_index_model_uncertainty_ethanol", index_ethanol_range,
             [](double p) {
               return refractive_index_model_uncertainty({ExtractFraction{0}, EthanolFraction{p}},
                                                         mild);
             }),
      ranged("refractive_index_model_uncertainty_t", index_temperature_range,
             [](double t) { return refractive_index_model_uncertainty({}, celsius_point(t)); }),
      ranged("ideal_brix_shown_extract", index_extract_range,
             [](double w) { return ideal_brix_shown({ExtractFraction{w}}, mild).value(); }),
      ranged("ideal_brix_shown_ethanol", index_ethanol_range,
             [](double p) {
               return ideal_brix_shown({ExtractFraction{0}, EthanolFraction{p}}, mild).value();
             }),
      ranged("ideal_brix_shown_t", index_temperature_range,
             [](double t) { return ideal_brix_shown({}, celsius_point(t)).value(); }),
      {"extract_from_brix_shown_brix",
       [](double b) { return extract_from_brix_shown(Brix{b}, mild).value(); },
       {},
       {}},
      ranged("extract_from_brix_shown_t", index_temperature_range,
             [](double t) { return extract_from_brix_shown(Brix{10}, celsius_point(t)).value(); }),
      ranged("extract_from_brix_shown_relative_rise", relative_rise_range,
             [](double rise) {
               return extract_from_brix_shown(Brix{10}, mild, {rise, 0}).value();
             }),
      ranged("boiling_point_p", boiling_pressure_range,
             [](double kpa) { return boiling_point(pascals(1000 * kpa)).celsius(); }),
      ranged("henry_constant_t", henry_range,
             [](double k) { return henry_constant(kelvin_point(k)).value(); }),
      ranged("solubility_in_water_t", solubility_temperature_range,
             [](double t) { return solubility_in_water(celsius_point(t)); }),
      ranged("solubility_ratio_strength", solubility_strength_range,
             [](double a) { return solubility_ratio(StrengthByVolume{a}, MassConcentration{10}); }),
      ranged("solubility_ratio_sugar", solubility_sugar_range,
             [](double s) { return solubility_ratio(StrengthByVolume{5}, MassConcentration{s}); }),
      ranged("standard_pressure_h", altitude_range,
             [](double m) { return standard_pressure(metres(m)).value(); }),
      {"density_from_indication_mark",
       [](double m) { return instruments::density_from_indication(instrument, m, mild).value(); },
       {},
       {}},
      {"density_from_indication_t",
       [](double t) {
         return instruments::density_from_indication(instrument, 1.05, celsius_point(t)).value();
       },
       {},
       {}},
      {"ideal_indication_rho",
       [](double r) { return instruments::ideal_indication(instrument, kg_per_m3(r), mild); },
       {},
       {}},
      {"ideal_indication_t",
       [](double t) {
         return instruments::ideal_indication(instrument, kg_per_m3(1050), celsius_point(t));
       },
       {},
       {}},
  };
}

std::vector<Argument> ranged_arguments() {
  auto all = arguments();
  std::erase_if(all, [](const Argument& a) { return !a.lo; });
  return all;
}

class EveryArgument : public testing::TestWithParam<Argument> {
 protected:
  static void expect_refused(double v) {
    try {
      const double result = GetParam().f(v);
      ADD_FAILURE() << v << " was accepted and gave " << result;
    } catch (const Error& e) {
      EXPECT_EQ(e.code, Errc::domain) << e.what();
    }
  }
};

TEST_P(EveryArgument, NaNAndInfinitiesAreRefused) {
  for (const double v : {nan, -nan, inf, -inf}) expect_refused(v);
}

class EveryRange : public EveryArgument {};

TEST_P(EveryRange, EndsAcceptedOneUlpOutsideRefused) {
  const auto& [name, f, lo, hi] = GetParam();
  for (const double end : {*lo, *hi}) {
    EXPECT_NO_THROW({ EXPECT_TRUE(std::isfinite(f(end))) << end; }) << end;
  }
  // A unit conversion on the way (kPa to Pa and back) may eat one ulp; two are always outside.
  const bool converts = std::string{name} == "boiling_point_p";
  const auto outside = [&](double end, double towards) {
    const double one = std::nextafter(end, towards);
    return converts ? std::nextafter(std::nextafter(one, towards), towards) : one;
  };
  expect_refused(outside(*lo, -inf));
  expect_refused(outside(*hi, inf));
}

std::string argument_name(const testing::TestParamInfo<Argument>& info) { return info.param.name; }
INSTANTIATE_TEST_SUITE_P(Functions, EveryArgument, testing::ValuesIn(arguments()), argument_name);
INSTANTIATE_TEST_SUITE_P(Functions, EveryRange, testing::ValuesIn(ranged_arguments()),
                         argument_name);

// As the sources state them, or, for the drink, as the headers do: a range that moves is a change
// of results and must be meant.
TEST(Ranges, AreWhereTheyWereStated) {
  const auto is = [](const Range& r, double lo, double hi) { return r.lo == lo && r.hi == hi; };
  EXPECT_TRUE(is(water_range, 0, 40));
  EXPECT_TRUE(is(sucrose_fraction_range, 0, 0.85));
  EXPECT_TRUE(is(sucrose_temperature_range, 0, 100));
  EXPECT_TRUE(is(ethanol_fraction_range, 0, 1));
  EXPECT_TRUE(is(ethanol_temperature_range, -20, 40));
  EXPECT_TRUE(is(salt_fraction_range, 0, 0.26));
  EXPECT_TRUE(is(salt_temperature_range, 0, 40));
  EXPECT_TRUE(is(mixture_extract_range, -0.10, 0.85));
  EXPECT_TRUE(is(mixture_ethanol_range, -0.02, 0.20));
  EXPECT_TRUE(is(mixture_temperature_range, 0, 85));
  EXPECT_TRUE(is(drink_temperature_range, 0, 40));
  EXPECT_TRUE(is(water_index_range, 0, 60));
  EXPECT_TRUE(is(sucrose_index_range, 0, 0.85));
  EXPECT_TRUE(is(index_extract_range, -0.03, 0.75));
  EXPECT_TRUE(is(index_ethanol_range, -0.02, 0.20));
  EXPECT_TRUE(is(index_temperature_range, 10, 30));
  EXPECT_TRUE(is(brix_shown_range, -5, 85));
  EXPECT_TRUE(is(relative_rise_range, 0.8, 1.5));
  EXPECT_TRUE(is(boiling_pressure_range, 0.611213, 22064));
  EXPECT_TRUE(is(altitude_range, -500, 11000));
}

// Sugar and alcohol cannot be more than the whole drink.
TEST(Composition, AboveTheWholeIsRefused) {
  EXPECT_THROW((void)density({ExtractFraction{0.85}, EthanolFraction{0.18}}, mild), Error);
}

}  // namespace
}  // namespace areo::property
