// SPDX-License-Identifier: GPL-3.0-or-later
// What tables and cards print, against what a reading gives.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <tuple>

#include "areo/calibration/solution.hpp"
#include "areo/core/error.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/measurement/dilution.hpp"
#include "areo/measurement/original.hpp"
#include "areo/measurement/temperature_table.hpp"
#include "areo/physics/mixture.hpp"

namespace areo::measurement {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

Calibrated stem(const physics::Scale& scale = physics::sg_20_20) {
  instruments::Hydrometer h = instruments::ordinary_hydrometer(scale);
  h.name = "stem-1";
  Calibrated c = without_error(h);
  c.correction.r0 = (h.lo + h.hi) / 2;
  c.correction.offset = -h.division;
  c.correction.u_offset = h.division / 10;
  c.correction.slope = 0.01;
  return c;
}

instruments::HydrometerReading reading(double indication, double t_c) {
  instruments::HydrometerReading r;
  r.indication = indication;
  r.temperature.indication_c = t_c;
  return r;
}

// A card must say what correct() does.
TEST(TemperatureCorrection, IsWhatAReadingGets) {
  for (const physics::Scale& scale : {physics::sg_20_20, physics::specific_gravity_scale<Ref60F>(),
                                      physics::plato_20, physics::density_20}) {
    const Calibrated c = stem(scale);
    for (const double part : {0.2, 0.5, 0.9})
      for (const double t_c : {5.0, 15.0, 20.0, 27.5, 38.0}) {
        const double r = c.hydrometer.lo + part * (c.hydrometer.hi - c.hydrometer.lo);
        const auto table = temperature_correction(c, r, celsius_point(t_c)).at("correction").value;
        const auto bench = correct(c, reading(r, t_c), {}).at("correction").value;
        EXPECT_NEAR(table.estimate, bench.estimate, 1e-9 * std::abs(r)) << r << " at " << t_c;
        EXPECT_LT(table.u, bench.u) << "without eye, surface and thermometer";
        EXPECT_GE(table.u, c.correction.u_offset * 0.9);
      }
  }
}

// The same for a drink: its strength taken from the reading's own result.
TEST(TemperatureCorrection, OfADrinkIsWhatAFermentingReadingGets) {
  const Calibrated c = stem();
  constexpr double original = 1.060;
  for (const double present : {0.998, 1.010, 1.030})
    for (const double t_c : {10.0, 27.0, 36.0}) {
      const auto bench = correct_fermenting(c, reading(present, t_c), c, reading(original, 20), {});
      const auto strength = alcohol(c, reading(present, t_c), c, reading(original, 20))
                                .result.at("alcohol_percent_vol")
                                .value.estimate;
      const auto table =
          temperature_correction(c, present, celsius_point(t_c), StrengthByVolume{strength});
      EXPECT_NEAR(table.at("correction").value.estimate, bench.at("correction").value.estimate,
                  1e-8)
          << present << " at " << t_c;
    }
}

TEST(TemperatureCorrection, AlcoholExpandsMore) {
  const Calibrated c = without_error(instruments::ordinary_hydrometer(physics::sg_20_20));
  const auto at_c = [&](double percent, double t_c) {
    return temperature_correction(c, 1.010, celsius_point(t_c), StrengthByVolume{percent})
        .at("correction")
        .value.estimate;
  };
  double before = 0;
  for (const double percent : {0.0, 2.0, 5.0, 10.0}) {
    // At 20 °C there is what the surface of the drink does, and nothing else.
    const double warm = at_c(percent, 30) - at_c(percent, 20);
    EXPECT_GT(warm, before) << percent;
    before = warm;
  }
  // Nothing jumps where the alcohol goes to zero.
  const auto at = [&](double percent) { return at_c(percent, 30); };
  EXPECT_NEAR(at(1e-6), at(0), 1e-9);
}

TEST(TemperatureCorrection, RefusesWhatNoInstrumentShows) {
  const Calibrated c = stem();
  for (const auto& [r, t_c, percent] : {std::tuple{1.9, 20.0, 0.0},
                                        {nan, 20.0, 0.0},
                                        {1.05, 86.0, 0.0},
                                        {1.05, 41.0, 5.0},
                                        {1.05, nan, 0.0},
                                        {1.05, 20.0, -1.0},
                                        {1.05, 20.0, nan},
                                        {1.05, 20.0, 60.0}})
    EXPECT_THROW((void)temperature_correction(c, r, celsius_point(t_c), StrengthByVolume{percent}),
                 Error)
        << r << ' ' << t_c << ' ' << percent;
}

// A stem ends before the formulas do.
TEST(TemperatureCorrection, RefusesWhatIsOffThisInstrument) {
  const Calibrated c = without_error({.name = "stem-1", .lo = 0.990, .hi = 1.100});
  EXPECT_NO_THROW((void)temperature_correction(c, 1.100, celsius_point(20)));
  EXPECT_THROW((void)temperature_correction(c, 1.110, celsius_point(20)), Error);
}

TEST(DrinkOfStrength, HasStrengthAndDensity) {
  for (const double percent : {0.0, 0.5, 5.0, 12.0})
    for (const double rho : {985.0, 1000.0, 1060.0})
      for (const double t_c : {0.0, 20.0, 40.0}) {
        const Temperature t = celsius_point(t_c);
        const auto drink = ferment::drink_of_strength(StrengthByVolume{percent}, kg_per_m3(rho), t);
        EXPECT_NEAR(ferment::strength_by_volume(drink).value(), percent, 1e-10);
        EXPECT_NEAR(physics::density(drink, t).value(), rho, 1e-9);
      }
  EXPECT_THROW(
      (void)ferment::drink_of_strength(StrengthByVolume{nan}, kg_per_m3(1000), celsius_point(20)),
      Error);
}

// A litre with the water in it holds the sugar that it held, and is heavier by the water.
TEST(Dilution, KeepsMassAndSugar) {
  for (const auto& [from, to] : {std::pair{1.080, 1.050}, {1.050, 1.049}, {1.050, 1.050}}) {
    const auto r = water_to_add(physics::sg_20_20, from, to);
    const double water = r.at("water_g_per_l").value.estimate;
    const double volume = r.at("volume_l").value.estimate;
    const auto extract = [](double mark) {
      return physics::liquid_from_mark(physics::sg_20_20, mark).extract.value();
    };
    const auto kg_per_l = [](double mark) {
      return physics::density_from_mark(physics::sg_20_20, mark).value();
    };
    EXPECT_NEAR((kg_per_l(from) + water) * extract(to), kg_per_l(from) * extract(from), 1e-6);
    EXPECT_NEAR(volume * kg_per_l(to), kg_per_l(from) + water, 1e-6);
  }
  // 1 kg of 20 % and 1 kg of water make 2 kg of 10 %: the definition of percent by mass.
  const double litre_kg = physics::density_from_mark(physics::plato_20, 20).value() / 1000;
  EXPECT_NEAR(water_to_add(physics::plato_20, 20, 10).at("water_g_per_l").value.estimate,
              1000 * litre_kg, 1e-6);
  // 100 g of sucrose in 1 kg of it all make 10 %, and of white sugar 99.80015 % are sucrose: the
  // middle of what purity and moisture leave [codex-sugars].
  const double water_kg = physics::density_from_mark(physics::plato_20, 0).value() / 1000;
  EXPECT_NEAR(sugar_to_add(physics::plato_20, 0, 10).at("sugar_g_per_l").value.estimate,
              1000 * water_kg * 0.1 / (0.9980015 - 0.1), 1e-6);
}

// White sugar is one thing in a table, in a batch and in a reference solution.
TEST(Dilution, HasTheSugarOfAdditionsAndSolutions) {
  const auto grams = [](double from, double to) {
    return sugar_to_add(physics::plato_20, from, to).at("sugar_g_per_l").value.estimate;
  };
  const Calibrated exact = without_error(instruments::ordinary_hydrometer(physics::plato_20));
  Addition sugar;
  sugar.name = "sugar";
  sugar.mass_g = grams(5, 10);
  const Result with = original_gravity(
      {.readings = {HydrometerSample{exact, reading(5, 20)}}, .volume_l = 1, .additions = {sugar}});
  EXPECT_NEAR(with.at("original_extract_percent").value.estimate, 10, 1e-6);

  const Density ten = physics::density_from_mark(physics::plato_20, 10);
  const auto recipe =
      calibration::weigh_in(calibration::sugar_solution(1, 1), 1000, ten, celsius_point(20));
  const double water_g = physics::density_from_mark(physics::plato_20, 0).value();
  // The balance shows sugar and water lighter by what air they displace: 0.045 % apart.
  EXPECT_NEAR(recipe.solute_g / recipe.water_g, grams(0, 10) / water_g,
              0.0005 * recipe.solute_g / recipe.water_g);
}

TEST(Dilution, GoesOneWay) {
  for (const auto& [from, to] :
       {std::pair{1.050, 1.060}, {1.050, 1.000}, {nan, 1.050}, {1.05, nan}})
    EXPECT_THROW((void)water_to_add(physics::sg_20_20, from, to), Error) << from << ' ' << to;
  for (const auto& [from, to] :
       {std::pair{1.050, 1.040}, {0.990, 1.040}, {nan, 1.050}, {1.05, nan}})
    EXPECT_THROW((void)sugar_to_add(physics::sg_20_20, from, to), Error) << from << ' ' << to;
}

TEST(PotentialAlcohol, IsThatOfTheDryDrink) {
  const auto r = potential_alcohol(physics::plato_20, 12).at("potential_alcohol_percent_vol").value;
  const ExtractFraction none{0};
  const physics::Liquid dry{none, ferment::ethanol_from_extracts(ExtractFraction{0.12}, none)};
  EXPECT_NEAR(r.estimate, ferment::strength_by_volume(dry).value(), 1e-9);
  // A = p / (y - (y - 1) p), so dA / A = (1 - p) dy / (y - (y - 1) p) = 3.55 %, and a little more
  // by volume, as a stronger drink is lighter.
  EXPECT_NEAR(r.u / r.estimate, 0.0355, 0.001);
  EXPECT_THROW((void)potential_alcohol(physics::plato_20, -1), Error);
  EXPECT_THROW((void)potential_alcohol(physics::plato_20, nan), Error);
  EXPECT_THROW((void)potential_alcohol(physics::plato_20, 60), Error) << "beyond 18 % by mass";
}

TEST(RefractiveIndex, OfAScaleIsThatOfItsLiquid) {
  // [icumsa1974] 10 %: 1.34782, its last digit, and the one water.
  const auto r = refractive_index_20(physics::brix_20, 10).at("refractive_index_20").value;
  EXPECT_NEAR(r.estimate, 1.34782, 0.5e-5 + 1e-6);
  EXPECT_GT(r.u, 1e-6);
  EXPECT_THROW((void)refractive_index_20(physics::brix_20, 86), Error);
  EXPECT_THROW((void)refractive_index_20(physics::brix_20, nan), Error);
}

TEST(EthanolMixture, IsWaterAtNone) {
  const auto r = ethanol_mixture(StrengthByVolume{0}, celsius_point(20));
  EXPECT_NEAR(r.at("density_kg_m3").value.estimate, 998.2067, 0.5e-4);  // [tanaka2001]
  EXPECT_NEAR(r.at("sg_in_air").value.estimate, 1, 1e-9);
  EXPECT_EQ(r.at("alcohol_percent_mass").value.estimate, 0);
  for (const double q : {nan, -0.1, 100.1})
    EXPECT_THROW((void)ethanol_mixture(StrengthByVolume{q}, celsius_point(20)), Error);
  EXPECT_THROW((void)ethanol_mixture(StrengthByVolume{5}, celsius_point(nan)), Error);
}

}  // namespace
}  // namespace areo::measurement
