// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/scales.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <compare>
#include <limits>
#include <type_traits>

#include "expressions.hpp"

namespace areo {
namespace {

template <class A, class B>
concept Equates = requires(A a, B b) {
  a == b;
};
template <class W>
concept IsExtract = requires(W w) {
  extract_fraction(w);
};

using Sg20 = SpecificGravity<Ref20_20>;
using Sg60F = SpecificGravity<Ref60F>;

// A reading is a point on its own scale.
static_assert(!Adds<Plato, Plato> && !Adds<Plato, Brix> && !Adds<Plato, double>);
static_assert(Adds<Plato, Delta<PlatoScale>> && !Adds<Plato, Delta<BrixScale>>);
static_assert(Subtracts<Plato, Plato> && !Subtracts<Plato, Brix> && !Subtracts<Plato, double>);
static_assert(!Multiplies<Plato, Plato> && !Multiplies<double, Plato> && !Multiplies<Plato, Brix>);
static_assert(Compares<Plato, Plato> && !Compares<Plato, Brix> && !Compares<Plato, double>);
static_assert(!Equates<Plato, Brix> && !Equates<Plato, double>);

// No way to or from a plain number but the ones that say so.
static_assert(!std::is_convertible_v<double, Plato> && !std::is_convertible_v<Plato, double>);
static_assert(std::is_constructible_v<Plato, double>);
static_assert(!std::is_constructible_v<Plato, Brix> && !std::is_constructible_v<Brix, Plato>);

// The reference temperatures belong to the type.
static_assert(!Compares<Sg20, Sg60F> && !Subtracts<Sg20, Sg60F>);
static_assert(!std::is_constructible_v<Sg20, Sg60F> && !std::is_same_v<Sg20, Sg60F>);
static_assert(!Compares<Baume<Modulus145>, Baume<Modulus144_3>>);
static_assert(!Compares<StrengthByVolume, StrengthByMass>);
static_assert(!Compares<ExtractFraction, EthanolFraction>);

// Only the two scales that are percent sucrose by mass have an extract without a density.
static_assert(IsExtract<Plato> && IsExtract<Brix>);
static_assert(!IsExtract<Oechsle> && !IsExtract<Sg20> && !IsExtract<double>);

static_assert(std::is_same_v<decltype(Plato{12} - Plato{10}), Delta<PlatoScale>>);
static_assert(sizeof(Plato) == sizeof(double) && std::is_trivially_copyable_v<Plato>);
static_assert(plato(extract_fraction(Brix{12.5})) == Plato{12.5});
static_assert((Plato{10} + (Plato{12} - Plato{10})) == Plato{12});

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

TEST(ScaleValue, KeepsItsValue) {
  EXPECT_EQ(Sg20{1.0505}.value(), 1.0505);
  EXPECT_EQ(Brix{-0.3}.value(), -0.3);
}

TEST(ScaleValue, DifferenceUndoesSum) {
  const Delta<PlatoScale> fall = Plato{3.25} - Plato{12.5};
  EXPECT_EQ(fall.value, -9.25);
  EXPECT_EQ(Plato{12.5} + fall, Plato{3.25});
}

TEST(ScaleValue, OrdersOnItsScale) {
  EXPECT_LT(Sg20{0.998}, Sg20{1});
  EXPECT_GE(Brix{12}, Brix{12});
  EXPECT_EQ(Brix{0.0}, Brix{-0.0});
}

TEST(ScaleValue, NotANumberIsUnordered) {
  const Plato odd{nan};
  EXPECT_FALSE(odd == odd);
  EXPECT_FALSE(odd < Plato{12} || odd > Plato{12});
  EXPECT_EQ(odd <=> Plato{12}, std::partial_ordering::unordered);
  EXPECT_TRUE(std::isnan((odd - Plato{12}).value));
  EXPECT_TRUE(std::isnan(extract_fraction(odd).value()));
}

TEST(ExtractFraction, PlatoAndBrixArePercentByMass) {
  EXPECT_DOUBLE_EQ(extract_fraction(Plato{12.5}).value(), 0.125);
  EXPECT_DOUBLE_EQ(extract_fraction(Brix{24}).value(), 0.24);
  EXPECT_DOUBLE_EQ(plato(ExtractFraction{0.125}).value(), 12.5);
  EXPECT_DOUBLE_EQ(brix(ExtractFraction{0.24}).value(), 24);
}

TEST(ExtractFraction, RoundTripsThroughPercent) {
  for (int tenth = -50; tenth <= 850; ++tenth) {
    const double p = tenth / 10.0;
    EXPECT_DOUBLE_EQ(plato(extract_fraction(Plato{p})).value(), p);
    EXPECT_DOUBLE_EQ(brix(extract_fraction(Brix{p})).value(), p);
  }
}

TEST(References, AreTheOnesOfTheirNames) {
  EXPECT_EQ(Ref20_20::sample_c, 20);
  EXPECT_EQ(Ref20_20::water_c, 20);
  EXPECT_EQ(Ref15_15::sample_c, 15);
  EXPECT_EQ(Ref15_15::water_c, 15);
  EXPECT_EQ(Ref20_4::sample_c, 20);
  EXPECT_EQ(Ref20_4::water_c, 4);
  EXPECT_NEAR(Ref60F::sample_c, 15.5556, 5e-5);
  EXPECT_EQ(Ref60F::water_c, Ref60F::sample_c);
  EXPECT_EQ(Modulus145::Ref::sample_c, Ref60F::sample_c);
  EXPECT_EQ(Modulus144_3::Ref::sample_c, 15);
}

}  // namespace
}  // namespace areo
