// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/original.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "areo/analysis/difference.hpp"
#include "areo/core/error.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/salt.hpp"
#include "areo/physics/scale.hpp"

namespace areo::measurement {
namespace {

using Substance = Addition::Substance;

HydrometerSample stem(double shown, double celsius = 20) {
  // The same instrument at each call.
  static const instruments::Hydrometer one{.name = "stem-1", .lo = 0.980, .hi = 1.180};
  HydrometerSample s{Calibrated::never_checked(one), {}};
  s.reading.indication = shown;
  s.reading.temperature.indication_c = celsius;
  return s;
}

RefractometerSample prism(double brix) {
  instruments::Refractometer r =
      instruments::ordinary_refractometer(instruments::RefractometerScale::brix);
  r.name = "prism-1";
  static const Identity one;
  r.identity = one;
  RefractometerSample s{CalibratedRefractometer::never_checked(r), {}};
  s.reading.indication = brix;
  return s;
}

Original of(double shown, std::optional<double> volume_l = 5) { return {{stem(shown)}, volume_l}; }

Addition grams(Substance what, double mass_g) {
  Addition a;
  a.name = "the addition";
  a.substance = what;
  a.mass_g = mass_g;
  return a;
}

Original with(Original o, Addition a) {
  o.additions.push_back(std::move(a));
  return o;
}

double extract(const Original& o) {
  return original_gravity(o).at("original_extract_percent").value.estimate / 100;
}

double gravity(const Original& o) {
  return original_gravity(o).at("sg_20_20_original").value.estimate;
}

double grams_per_litre(double w) {
  return physics::density({ExtractFraction{w}}, celsius_point(20)).value();
}

const std::string of_present = "reading 7";

TEST(Original, OfOneReadingIsWhatAlcoholTakes) {
  const HydrometerSample first = stem(1.048), now = stem(1.010);
  const auto a = alcohol(now.instrument, now.reading, first.instrument, first.reading);
  const auto b = alcohol(now, of(1.048), ferment::Culture::yeast, of_present);
  ASSERT_EQ(a.result.quantities.size(), b.result.quantities.size());
  for (std::size_t k = 0; k < a.result.quantities.size(); ++k) {
    EXPECT_EQ(a.result.quantities[k].value.estimate, b.result.quantities[k].value.estimate);
    EXPECT_EQ(a.result.quantities[k].value.u, b.result.quantities[k].value.u);
  }
}

TEST(Original, OfSeveralReadingsIsTheirMeanAndBetterKnown) {
  Original two{{stem(1.048), stem(1.050)}};
  EXPECT_NEAR(extract(two), (extract(of(1.048)) + extract(of(1.050))) / 2, 1e-12);
  EXPECT_LT(original_gravity(two).at("sg_20_20_original").value.u,
            original_gravity(of(1.049)).at("sg_20_20_original").value.u);
}

TEST(Original, MayBeReadWithARefractometer) {
  const Original o{{prism(12)}};
  EXPECT_NEAR(extract(o), 0.12,
              0.0005);  // Brix is percent sucrose; the mixed kind is no other here
  const auto a = alcohol(stem(1.010), o, ferment::Culture::yeast, of_present);
  EXPECT_EQ(a.state, Fermentation::measured);
  EXPECT_NEAR(a.result.at("original_extract_percent").value.estimate, 100 * extract(o), 1e-9);
  // The kind of extract counts where it was refracted.
  Original unsure = o;
  unsure.kind = {"mixed", physics::unknown_extract_optics, "not known"};
  EXPECT_GT(original_gravity(unsure).at("original_extract_percent").value.u,
            original_gravity(o).at("original_extract_percent").value.u);
}

// By hand: 5 L hold 5 rho grams; the sugar adds all of its mass and what of it is sucrose.
// 449.1 g of sucrose (99.8 % of 450 g) in 450 g and 5 L of water of 998.2 g/L are 8.254 % by mass;
// made up to 5 L they are 89.82 g to a litre.
TEST(Original, WeighedSugarDependsOnWhatTheVolumeIs) {
  const WeighedSugar water{450, 1, 5, WeighedSugar::Volume::of_water};
  const Result in_water = original_gravity({.readings = {}, .weighed = water});
  const auto& extract = in_water.at("original_extract_percent").value;
  EXPECT_NEAR(extract.estimate, 100 * 449.1 / (450 + 5 * 998.2067), 1e-4);
  // The volume alone: ± 5 % rectangular, of which the share of the water in the mass counts.
  const double share = 5 * 998.2067 / (450 + 5 * 998.2067);
  EXPECT_NEAR(extract.u, extract.estimate * share * 0.05 / std::sqrt(3.0), 0.01 * extract.u);

  WeighedSugar mark = water;
  mark.volume = WeighedSugar::Volume::made_up_to;
  const Result made_up = original_gravity({.readings = {}, .weighed = mark});
  const double w = made_up.at("original_extract_percent").value.estimate / 100;
  EXPECT_NEAR(w * physics::density({ExtractFraction{w}}, celsius_point(20)).value(), 89.82, 1e-3);
  EXPECT_NEAR(in_water.at("sg_20_20_original").value.estimate, 1.0328, 6e-5);
  EXPECT_NEAR(made_up.at("sg_20_20_original").value.estimate, 1.0346, 5e-5);
  ASSERT_EQ(in_water.notes.size(), 1U);
  EXPECT_EQ(in_water.notes[0], Note{note::WeighedOriginal{water}});

  const AlcoholResult a =
      alcohol(stem(1.004), {.readings = {}, .weighed = water}, ferment::Culture::yeast);
  EXPECT_EQ(a.state, Fermentation::measured);
  for (WeighedSugar none :
       {WeighedSugar{0, 1, 5}, WeighedSugar{450, 1, 0}, WeighedSugar{450, 1, NAN}})
    EXPECT_THROW((void)original_gravity({.readings = {}, .weighed = none}), Error);
}

TEST(Original, SugarIsAddedByMass) {
  const double w = extract(of(1.048));
  const double mass = 5 * grams_per_litre(w);
  const double pure = (0.997 * 0.999 + 1) / 2;  // middle of the bounds of white sugar
  EXPECT_NEAR(extract(with(of(1.048), grams(Substance::sugar, 100))),
              (w * mass + 100 * pure) / (mass + 100), 1e-9);
}

// Pearson's square (common practice, no source): 10 parts of 20 % and 3.333 parts of water make 15
// %.
TEST(Original, WaterDilutesAsPearsonsSquareSays) {
  Original o = of(1.083);
  const double w = extract(o);
  o.volume_l = 10'000 / grams_per_litre(w);
  EXPECT_NEAR(extract(with(o, grams(Substance::water, 10'000 * (w - 0.15) / 0.15))), 0.15, 1e-9);
  // A litre of water is 998.2 g at 20 °C.
  Addition litre = grams(Substance::water, 1);
  litre.mass_g.reset();
  litre.volume_l = 1;
  EXPECT_NEAR(extract(with(o, litre)), extract(with(o, grams(Substance::water, 998.2067))), 1e-9);
}

TEST(Original, JuiceOfTheSameExtractChangesNothing) {
  const Original o = of(1.048);
  Addition juice = grams(Substance::juice, 1);
  juice.mass_g.reset();
  juice.volume_l = 0.5;
  juice.extract = ExtractFraction{extract(o)};
  EXPECT_NEAR(extract(with(o, juice)), extract(o), 1e-12);
  juice.extract = ExtractFraction{0.3};
  EXPECT_GT(extract(with(o, juice)), extract(o) + 0.01);
}

TEST(Original, APartOfADrinkCountsAsItsOriginal) {
  const Original o = of(1.048);
  Addition part = grams(Substance::drink, 1);
  part.mass_g.reset();
  part.volume_l = 1;
  part.drink = std::make_shared<const Original>(of(1.048));
  EXPECT_NEAR(extract(with(o, part)), extract(o), 1e-12);
  part.drink = std::make_shared<const Original>(of(1.083));
  const double w1 = extract(of(1.048)), w2 = extract(of(1.083));
  const double m1 = 5 * grams_per_litre(w1), m2 = grams_per_litre(w2);
  EXPECT_NEAR(extract(with(o, part)), (m1 * w1 + m2 * w2) / (m1 + m2), 1e-9);
  // Weighed, up to 1.0665 A of its mass had left: 20 % extract makes 10.8 % ethanol at the most.
  part.volume_l.reset();
  part.mass_g = 1000;
  const double most = 1.0665 * w2 / (2.0665 - 1.0665 * w2);
  const double m3 = 1000 * (1 + most / 2);
  EXPECT_NEAR(extract(with(o, part)), (m1 * w1 + m3 * w2) / (m1 + m3), 1e-9);
}

// Against the density of salt water [laliberte2009]: 20 g of salt in a litre of water.
TEST(Original, SaltCountsAsTheSugarThatIsAsDense) {
  Original water = of(1.000, 1);
  const double w0 = extract(water);
  ASSERT_NEAR(w0, 0, 1e-3);
  const double salt = 20 / (998.2 + 20);
  const double rho = physics::salt_density(SaltFraction{salt}, celsius_point(20)).value();
  const double rise = rho - physics::water_density(celsius_point(20)).value();
  // 0.3 kg/m³ of 14: the factor is good to 1 % (1.81 to 1.85) and the balance adds 1 % of volume.
  EXPECT_NEAR((gravity(with(water, grams(Substance::salt, 20))) - gravity(water)) * 998.2, rise,
              0.3);
}

TEST(Original, AnAcidIsKnownBetweenTheLightestAndTheHeaviest) {
  const Original o = of(1.048);
  const auto acid = original_gravity(with(o, grams(Substance::acid, 50)));
  const auto& v = acid.at("original_extract_percent").value;
  const double mass = 5 * grams_per_litre(extract(o));
  EXPECT_NEAR(v.estimate / 100, (extract(o) * mass + 50 * 0.71) / (mass + 50), 1e-9);
  ASSERT_EQ(acid.notes.empty(), false);
  EXPECT_EQ(acid.notes.back(), Note{note::SaltOrAcid{}});
}

TEST(Original, AdditionsFollowEachOther) {
  Original o = with(with(of(1.048), grams(Substance::sugar, 100)), grams(Substance::water, 500));
  const Original sugar = with(of(1.048), grams(Substance::sugar, 100));
  const double w = extract(sugar);
  const double mass = 5 * grams_per_litre(extract(of(1.048))) + 100;
  EXPECT_NEAR(extract(o), w * mass / (mass + 500), 1e-9);
  // What was there may be stated anew: some of it was drunk.
  o.additions[1].into_l = 2;
  const double rest = 2 * grams_per_litre(w);
  EXPECT_NEAR(extract(o), w * rest / (rest + 500), 1e-9);
}

// d(oe)/dV times 5 % of V over √3, by hand.
TEST(Original, AVolumeIsKnownToFivePercent) {
  const Original o = with(of(1.048), grams(Substance::sugar, 200));
  const double w = extract(of(1.048));
  const double rho = grams_per_litre(w);
  const double m = 5 * rho;
  const double s = 200 * (0.997 * 0.999 + 1) / 2;
  const double slope = rho * (w * (m + 200) - (w * m + s)) / ((m + 200) * (m + 200));
  const Result r = original_gravity(o);
  double share = 0;
  for (std::size_t i = 0; i < r.inputs.all().size(); ++i)
    if (r.inputs.all()[i].name.starts_with("volume for")) share = r.shares[1][i];
  // 1 %: the share is a difference over ± u, the derivative is at the middle.
  EXPECT_NEAR(std::abs(share), std::abs(100 * slope * 0.05 * 5 / std::sqrt(3.0)),
              0.01 * std::abs(share));
  EXPECT_GT(std::abs(share), 0.05);
}

TEST(Original, RefusesWhatCannotBe) {
  const auto says = [](const Original& o) -> std::string {
    try {
      (void)original_gravity(o);
    } catch (const Error& e) {
      return e.what();
    }
    return "accepted";
  };
  EXPECT_EQ(says(Original{}), "no original gravity, so no figure for the alcohol");
  EXPECT_EQ(says(with(of(1.048, {}), grams(Substance::sugar, 100))),
            "the addition went into an unknown volume");
  Addition spoons = grams(Substance::sugar, 1);
  spoons.mass_g.reset();
  spoons.volume_l = 0.1;
  EXPECT_EQ(says(with(of(1.048), spoons)), "the addition is weighed, not measured by volume");
  spoons.substance = Substance::water;
  spoons.mass_g = 1;
  EXPECT_EQ(says(with(of(1.048), spoons)), "the addition has either a mass or a volume");
  for (const double bad : {0.0, -1.0, std::nan("")}) {
    EXPECT_EQ(says(with(of(1.048), grams(Substance::sugar, bad))),
              "the amount of the addition is above zero");
    EXPECT_NE(says(with(of(1.048, bad), grams(Substance::sugar, 1))), "accepted");
  }
  EXPECT_EQ(says(with(of(1.048), grams(Substance::drink, 1))), "the addition comes from no drink");
  EXPECT_NE(says(of(std::nan(""))), "accepted");
}

// Sugar that comes late makes the same drink as sugar that was there from the start.
TEST(Original, LateSugarMakesTheDrinkOfEarlySugar) {
  const Original late = with(of(1.048), grams(Substance::sugar, 100));
  const double og = gravity(late);
  const auto a = alcohol(stem(1.012), late, ferment::Culture::yeast, of_present);
  const auto b = alcohol(stem(1.012), of(og), ferment::Culture::yeast, of_present);
  // The early one is read on a scale, so the correction of the scale is in it: none, unchecked.
  EXPECT_NEAR(a.result.at("alcohol_percent_vol").value.estimate,
              b.result.at("alcohol_percent_vol").value.estimate, 1e-6);
}

// --- difference ---

TEST(Difference, WhatIsSharedCancels) {
  const Original o = of(1.048);
  const auto a = alcohol(stem(1.030), o, ferment::Culture::yeast, "reading 1").result;
  const auto b = alcohol(stem(1.028), o, ferment::Culture::yeast, "reading 2").result;
  const auto d = analysis::difference(a, b, "sg_20_20_present");
  const double u = a.at("sg_20_20_present").value.u;
  EXPECT_NEAR(d.estimate, -0.002, 1e-4);  // and a little more: the stronger drink pulls less
  // Eye, surface and temperature of each reading are left, the scale's own error is not.
  EXPECT_LT(d.u, u);
  const auto eye = 0.001 / std::sqrt(6.0), surface = 0.00032 / std::sqrt(3.0);  // 5 mN/m
  EXPECT_GT(d.u, std::sqrt(2 * (eye * eye + surface * surface)));
}

// u²(b - a) = u²(a) + u²(b) - 2 cov(a, b).
TEST(Difference, GoesWithTheCovariance) {
  const Original o = of(1.048);
  const auto a = alcohol(stem(1.030), o, ferment::Culture::yeast, "reading 1").result;
  const auto b = alcohol(stem(1.012), o, ferment::Culture::yeast, "reading 2").result;
  const char* key = "sg_20_20_present";
  const double ua = a.at(key).value.u, ub = b.at(key).value.u;
  const double u = analysis::difference(a, b, key).u;
  const double together = analysis::covariance(a, key, b, key);
  EXPECT_GT(together, 0);
  EXPECT_NEAR(u * u, ua * ua + ub * ub - 2 * together, 1e-12 * ua * ua);
  EXPECT_NEAR(analysis::covariance(a, key, a, key), ua * ua, 1e-12 * ua * ua);
}

TEST(Difference, ToItselfIsNothing) {
  const auto a = alcohol(stem(1.030), of(1.048), ferment::Culture::yeast, "reading 1").result;
  const auto d = analysis::difference(a, a, "alcohol_percent_vol");
  EXPECT_EQ(d.estimate, 0);
  EXPECT_EQ(d.u, 0);
}

// Two ferments that were read alike, with the same names: only what the instrument does is shared.
TEST(Difference, OfTwoFermentsOnlyTheInstrumentCancels) {
  const auto a = alcohol(stem(1.030), of(1.048), ferment::Culture::yeast, "reading 1").result;
  const char* key = "alcohol_percent_vol";
  const auto d = analysis::difference(a, a, key, analysis::Common::instruments);
  EXPECT_EQ(d.estimate, 0);
  double own = 0;  // readings, surface, temperatures and the method, once in each ferment
  const std::vector<double>& shares = a.shares[0];
  ASSERT_EQ(a.quantities[0].key, key);
  using uncertainty::Origin;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    const Origin o = a.inputs.all()[i].origin;
    const bool liquid = o == Origin::surface && !a.inputs.all()[i].thing;
    if (o == Origin::reading || liquid || o == Origin::temperature || o == Origin::method)
      own += shares[i] * shares[i];
  }
  EXPECT_GT(own, 0);
  EXPECT_NEAR(d.u * d.u, 2 * own, 1e-9 * own);
  EXPECT_LT(d.u * d.u, 2 * a.at(key).value.u * a.at(key).value.u);
}

TEST(Difference, OfTwoInstrumentsIsTheSumOfSquares) {
  HydrometerSample other = stem(1.030);
  other.instrument.hydrometer.identity = Identity{};
  const Result a = correct(stem(1.030).instrument, stem(1.030).reading, {});
  const Result b = correct(other.instrument, other.reading, {});
  // The readings have one name here, so they count as one; the scales do not.
  const auto d = analysis::difference(a, b, a.quantities[0].key);
  EXPECT_GT(d.u, a.quantities[0].value.u);
}

TEST(Difference, RefusesAnUnknownQuantity) {
  const auto a = alcohol(stem(1.030), of(1.048), ferment::Culture::yeast, "reading 1").result;
  EXPECT_THROW((void)analysis::difference(a, a, "sg"), Error);
}

}  // namespace
}  // namespace areo::measurement
