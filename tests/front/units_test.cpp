// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers with units: literals, makers, printing, and what is no number at all.
#include <gtest/gtest.h>

#include <cfloat>
#include <sstream>
#include <type_traits>

#include "../core/expressions.hpp"
#include "areo/front/instruments.hpp"
#include "areo/front/literals.hpp"
#include "areo/front/unit_of.hpp"
#include "areo/physics/scale_name.hpp"

namespace areo {
namespace {

// Literals are the doubles that the digits mean, and constants.
static_assert((1.048_sg).value() == 1.048 && (12.5_plato).value() == 12.5);
static_assert((0.998_sg60F).value() == 0.998 && (1'048.2_kg_m3).value() == 1048.2);
static_assert((12.5_brix).value() == 12.5 && (48_oechsle).value() == 48 &&
              (6.5_baume).value() == 6.5);
static_assert((1.33299_nD).value() == 1.33299);
static_assert((0.45_percent_vol).value() == 0.45 && (4.1_percent_mass).value() == 4.1);
static_assert((27_degC).celsius() == 27 && 27_degC == celsius(27));
static_assert(68_degF == fahrenheit(68) && (0.1_K).value() == 0.1);
// Also where two roundings, first to a longer type, miss the last bit.
static_assert((0.999778_sg).value() == 0.999778 && (1.18361653_sg).value() == 1.18361653);
#if LDBL_MANT_DIG == 64
static_assert(static_cast<double>(0.999778L) != 0.999778);
#endif

// No plain number is one, and none becomes a plain number.
template <class T>
constexpr bool closed = !std::is_convertible_v<double, T> && !std::is_convertible_v<T, double>;
static_assert(closed<Gravity> && closed<Temperature> && closed<Mass> && closed<Volume> &&
              closed<TemperatureDelta> && closed<StrengthByVolume> && closed<TemperatureReading>);
static_assert(!std::is_convertible_v<Gravity, Plato> && !std::is_convertible_v<Mass, Volume>);
static_assert(!std::is_convertible_v<TemperatureDelta, TemperatureReading>);
static_assert(!Subtracts<StrengthByVolume, StrengthByMass> && !Adds<Gravity, Gravity60F>);

TEST(Units, MassesAndVolumesAgreeWhateverTheirUnit) {
  EXPECT_DOUBLE_EQ(number(0.05_kg), number(50_g));
  EXPECT_DOUBLE_EQ(number(500_mL), number(0.5_L));
  EXPECT_EQ(number(50_g), 50);
  EXPECT_EQ(number(0.5_L), 0.5);
  EXPECT_NEAR((68_degF).celsius(), 20, 1e-12);  // rounding of 5/9
}

TEST(Units, ANumberAndBack) {
  EXPECT_EQ(UnitOf<Gravity>::of(1.048), 1.048_sg);
  EXPECT_EQ(UnitOf<Temperature>::of(number(27_degC)), 27_degC);
  EXPECT_DOUBLE_EQ(number(UnitOf<Pressure>::of(2.5)), 2.5);
  EXPECT_DOUBLE_EQ(number(kg_per_m3(998)), 998);
}

template <class T>
std::string printed(const T& v) {
  std::ostringstream out;
  out << v;
  return out.str();
}

TEST(Units, ArePrintedWithTheirUnit) {
  EXPECT_EQ(printed(1.048_sg), "1.048");
  EXPECT_EQ(printed(12.5_plato), "12.5 °P");
  EXPECT_EQ(printed(12.5_plato - 12_plato), "0.5 °P");
  EXPECT_EQ(printed(27_degC), "27 °C");
  EXPECT_EQ(printed(4.98_percent_vol), "4.98 % vol");
  EXPECT_EQ(printed(1048_kg_m3), "1048 kg/m³");
}

TEST(Units, SymbolsAreThoseOfTheScales) {
  EXPECT_EQ(UnitOf<Oechsle>::symbol(), physics::scale_unit(physics::oechsle_20));
  EXPECT_EQ(UnitOf<Baume145>::symbol(), physics::scale_unit(physics::baume_scale<Modulus145>()));
  EXPECT_EQ(physics::scale_of<ApparentGravity>::value, physics::apparent_sg_20_20);
  EXPECT_EQ(physics::scale_of<Density20>::value, physics::density_20);
}

}  // namespace
}  // namespace areo
