// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/units.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <compare>
#include <limits>
#include <type_traits>

#include "expressions.hpp"

namespace areo {
namespace {

// Points and differences of temperature.
static_assert(!Adds<Temperature, Temperature>);
static_assert(Adds<Temperature, TemperatureDelta>);
static_assert(!Adds<Temperature, double>);
static_assert(!Subtracts<Temperature, double>);
static_assert(!Multiplies<double, Temperature> && !Multiplies<Temperature, double>);
static_assert(!Multiplies<Temperature, Temperature>);
static_assert(Compares<Temperature, Temperature>);
static_assert(!Compares<Temperature, double> && !Compares<Temperature, TemperatureDelta>);
static_assert(!std::is_constructible_v<Temperature, double>);
static_assert(!std::is_convertible_v<Temperature, double>);
static_assert(!std::is_convertible_v<TemperatureDelta, Temperature>);
static_assert(std::is_same_v<decltype(celsius_point(25) - celsius_point(20)), TemperatureDelta>);
static_assert(std::is_same_v<decltype(celsius_point(25) + celsius_delta(20)), Temperature>);

// The other quantities have dimensions.
static_assert(!std::is_convertible_v<double, Density> && !std::is_convertible_v<Density, double>);
static_assert(!std::is_convertible_v<Mass, Density>);
static_assert(!std::is_convertible_v<Pressure, Length>);

// Types cost no memory.
static_assert(sizeof(Temperature) == sizeof(double) && sizeof(Density) == sizeof(double));
static_assert(std::is_trivially_copyable_v<Temperature>);

// A constant expression all the way.
static_assert(celsius_point(20).celsius() == 20);
static_assert((celsius_point(20) + celsius_delta(2.5)).celsius() == 22.5);

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

TEST(Temperature, CelsiusIsKeptExactly) {
  for (int tenth = -200; tenth <= 1200; ++tenth)
    EXPECT_EQ(celsius_point(tenth / 10.0).celsius(), tenth / 10.0);
}

TEST(Temperature, FahrenheitPointsConvertWithOffset) {
  EXPECT_NEAR(fahrenheit_point(32).celsius(), 0, 1e-12);
  EXPECT_NEAR(fahrenheit_point(68).celsius(), 20, 1e-12);
  EXPECT_NEAR(fahrenheit_point(212).celsius(), 100, 1e-12);
  EXPECT_NEAR(fahrenheit_point(-40).celsius(), -40, 1e-12);
  EXPECT_NEAR(fahrenheit_point(60).celsius(), sixty_fahrenheit_c, 1e-12);
  EXPECT_NEAR(celsius_point(100).in<FahrenheitUnit>(), 212, 1e-12);
}

TEST(Temperature, KelvinPointsConvertWithOffset) {
  EXPECT_NEAR(kelvin_point(273.15).celsius(), 0, 1e-12);
  EXPECT_NEAR(kelvin_point(0).celsius(), -273.15, 1e-12);
  EXPECT_NEAR(celsius_point(20).in<KelvinUnit>(), 293.15, 1e-12);
}

TEST(Temperature, FahrenheitSurvivesTheRoundTrip) {
  for (int f = 0; f <= 220; ++f) EXPECT_NEAR(fahrenheit_point(f).in<FahrenheitUnit>(), f, 1e-12);
}

TEST(Temperature, DifferencesConvertWithoutOffset) {
  const TemperatureDelta five = celsius_point(25) - celsius_point(20);
  EXPECT_EQ(five.value(), 5);
  EXPECT_NEAR((bu::quantity<FahrenheitUnit>{five}.value()), 9, 1e-12);
  EXPECT_NEAR((bu::quantity<KelvinUnit>{five}.value()), 5, 1e-12);
  EXPECT_NEAR((fahrenheit_point(77) - fahrenheit_point(68)).value(), 5, 1e-12);
}

TEST(Temperature, DifferenceUndoesSum) {
  const Temperature t = celsius_point(17.25);
  EXPECT_EQ((t + celsius_delta(2.5) - t).value(), 2.5);
  EXPECT_EQ((t + celsius_delta(-20)).celsius(), -2.75);
}

TEST(Temperature, OrdersByWarmth) {
  EXPECT_LT(celsius_point(19.9), celsius_point(20));
  EXPECT_LT(celsius_point(20), fahrenheit_point(69));
  EXPECT_EQ(celsius_point(20), celsius_point(20));
  EXPECT_EQ(celsius_point(0.0), celsius_point(-0.0));
}

TEST(Temperature, NotANumberIsUnordered) {
  const Temperature t = celsius_point(nan);
  EXPECT_TRUE(std::isnan(t.celsius()));
  EXPECT_FALSE(t == t);
  EXPECT_FALSE(t < celsius_point(20) || t > celsius_point(20));
  EXPECT_EQ(t <=> celsius_point(20), std::partial_ordering::unordered);
  EXPECT_TRUE(std::isnan((celsius_point(20) - t).value()));
}

TEST(Quantities, MakersNameTheirUnit) {
  EXPECT_EQ(kg_per_m3(998.2).value(), 998.2);
  EXPECT_EQ(grams(500).value(), 0.5);
  EXPECT_EQ(pascals(101325).value(), 101325);
  EXPECT_EQ(metres(500).value(), 500);
}

TEST(Quantities, DimensionsCombine) {
  const auto volume = grams(998.2) / kg_per_m3(998.2);
  EXPECT_NEAR(volume.value(), 1e-3, 1e-18);
  EXPECT_EQ((kg_per_m3(1050) - kg_per_m3(998)).value(), 52);
}

}  // namespace
}  // namespace areo
