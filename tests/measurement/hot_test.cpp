// SPDX-License-Identifier: GPL-3.0-or-later
// Readings away from the room: hot liquids, and the ends of every range.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "areo/analysis/sampled.hpp"
#include "areo/core/error.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/measurement/refract.hpp"
#include "areo/measurement/temperature_table.hpp"
#include "areo/physics/mixture.hpp"
#include "note_of.hpp"

namespace areo::measurement {
namespace {

using instruments::HydrometerReading;

HydrometerReading reading(double indication, double t_c) {
  HydrometerReading r;
  r.indication = indication;
  r.temperature.indication_c = t_c;
  return r;
}
Calibrated stem() {
  return Calibrated::never_checked(instruments::ordinary_hydrometer(physics::sg_20_20));
}
RefractometerSample prism(double brix, double t_c) {
  RefractometerSample s;
  s.instrument = CalibratedRefractometer::never_checked(
      instruments::ordinary_refractometer(instruments::RefractometerScale::brix));
  s.reading.indication = brix;
  s.reading.temperature.indication_c = t_c;
  return s;
}
Result hot(double indication, double t_c) { return correct(stem(), reading(indication, t_c), {}); }

std::string refusal(const auto& f) {
  try {
    f();
  } catch (const Error& e) {
    EXPECT_EQ(e.code, Errc::domain);
    return e.what();
  }
  return "accepted";
}

// What a usual stem shows in a liquid, taken back to that liquid.
TEST(Hot, TheLiquidComesBack) {
  const instruments::Hydrometer h = stem().hydrometer;
  for (const double percent : {2.0, 12.0, 25.0})
    for (const double t_c : {40.0, 40.5, 55.0, 70.0, 85.0}) {
      const physics::Liquid liquid{ExtractFraction{percent / 100}};
      const Temperature t = celsius_point(t_c);
      const double shown = usual_indication(h, physics::density(liquid, t), t);
      EXPECT_NEAR(hot(shown, t_c).at("sg_20_20").value.estimate,
                  physics::mark_from_liquid(physics::sg_20_20, liquid), 1e-9)
          << percent << ' ' << t_c;
      EXPECT_NEAR(
          temperature_correction(without_error(h), shown, t).at("correction").value.estimate,
          hot(shown, t_c).at("correction").value.estimate, 1e-9);
    }
}

TEST(Hot, TheHotterTheLessIsKnown) {
  double before = 0;
  for (const double t_c : {20.0, 30.0, 40.0, 41.0, 55.0, 70.0, 85.0}) {
    const double u = hot(1.040, t_c).at("sg_20_20").value.u;
    EXPECT_GT(u, before) << t_c;
    before = u;
  }
  // Of the formulas and the glass alone too.
  before = 0;
  for (const double t_c : {20.0, 40.0, 41.0, 55.0, 70.0, 85.0}) {
    const double u =
        temperature_correction(without_error(stem().hydrometer), 1.040, celsius_point(t_c))
            .at("correction")
            .value.u;
    EXPECT_GT(u, before) << t_c;
    before = u;
  }
}

// The table of models.md, to its last digit.
TEST(Hot, WhatIsKnownLess) {
  struct Stated {
    double t_c, thermometer, cooling, formula, glass;
  };
  for (const Stated& s :
       {Stated{20, 0.00007, 0, 0, 0}, Stated{55, 0.00014, 0.00021, 0.00012, 0.00004},
        Stated{85, 0.00019, 0.00062, 0.00035, 0.00008}}) {
    const Result r = hot(1.040, s.t_c);
    const auto share = [&](const std::string& name) {
      for (std::size_t i = 0; i < r.inputs.all().size(); ++i)
        if (r.inputs.all()[i].name == name) return std::abs(r.shares[0][i]);
      return 0.0;
    };
    constexpr double half_digit = 0.5e-5;
    EXPECT_NEAR(share("temperature of the sample"), s.thermometer, half_digit) << s.t_c;
    EXPECT_NEAR(share("cooling of the sample"), s.cooling, half_digit) << s.t_c;
    EXPECT_NEAR(share("density of a hot liquid"), s.formula, half_digit) << s.t_c;
    EXPECT_NEAR(share("the hydrometer: expansion of the glass"), s.glass, half_digit) << s.t_c;
  }
}

// Both figures of the note, from the densities themselves.
TEST(Hot, TheNoteIsComputed) {
  const Result r = hot(1.030, 70);
  ASSERT_FALSE(r.notes.empty());
  const auto sg_at = [](double t_c) {
    const Density rho =
        instruments::density_from_indication(stem().hydrometer, 1.030, celsius_point(t_c));
    return physics::mark_from_liquid(physics::sg_20_20,
                                     {physics::extract_from_density(rho, celsius_point(t_c))});
  };
  EXPECT_NEAR(sg_at(70.5) - sg_at(69.5), 0.0006, 0.00005);
  const note::Hot* n = note_of<note::Hot>(r);
  ASSERT_NE(n, nullptr);
  EXPECT_EQ(n->celsius, 70);
  EXPECT_EQ(n->cool_below_c, 30);
  const Result not_hot = hot(1.030, 40);
  EXPECT_NEAR(n->per_degree, sg_at(70.5) - sg_at(69.5), 0.00005);  // printed as 0.0006
  EXPECT_EQ(note_of<note::Hot>(not_hot), nullptr);
}

TEST(Hot, WithAlcoholItEndsAt40C) {
  const std::string says = "with alcohol the density is known to 40 °C [oimlr22]; got 41 °C";
  EXPECT_EQ(refusal([] {
              (void)correct_fermenting(stem(), reading(1.010, 41), stem(), reading(1.050, 20), {});
            }),
            says);
  EXPECT_EQ(refusal([] { (void)alcohol(stem(), reading(1.010, 41), stem(), reading(1.050, 20)); }),
            says);
  EXPECT_EQ(refusal([] {
              (void)temperature_correction(without_error(stem().hydrometer), 1.010,
                                           celsius_point(41), StrengthByVolume{5});
            }),
            says);
  // The original has none yet.
  EXPECT_EQ(refusal([] { (void)alcohol(stem(), reading(1.010, 20), stem(), reading(1.040, 60)); }),
            "accepted");
  const double cold = alcohol(stem(), reading(1.010, 20), stem(), reading(1.0545, 20))
                          .result.at("alcohol_percent_vol")
                          .value.u;
  EXPECT_GT(alcohol(stem(), reading(1.010, 20), stem(), reading(1.040, 60))
                .result.at("alcohol_percent_vol")
                .value.u,
            cold);
  EXPECT_EQ(refusal([] { (void)hot(1.010, std::nextafter(85.0, 86.0)); }),
            "density of a liquid is valid 0 °C to 85 °C [sps4]; got 85.00000000000001 °C");
}

// At an end of a range the spread of the thermometer lies on both sides of it: nothing is said to
// be beyond a model, no draw is left out, and ± is that of the law and of sampling alike.
void expect_computed(const Result& r, const std::string& what) {
  for (const analysis::BeyondTheLaw& b : analysis::beyond_the_law(r))
    ADD_FAILURE() << what << ": " << b.why;
  const analysis::Sampled s = analysis::sample(r, {.max_trials = 50'000});
  EXPECT_EQ(s.beyond, 0) << what;
  for (std::size_t k = 0; k < r.quantities.size(); ++k)
    EXPECT_NEAR(s.quantities[k].output.u, r.quantities[k].value.u, 0.03 * r.quantities[k].value.u)
        << what << ' ' << r.quantities[k].key;
}

TEST(Ends, OfUnfermentedLiquidsAreComputed) {
  for (const double t_c : {0.0, 40.0, 85.0})
    expect_computed(correct(stem(), reading(1.020, t_c), std::array{physics::plato_20}),
                    std::to_string(t_c));
}

TEST(Ends, OfDrinksAreComputed) {
  for (const double t_c : {0.0, 40.0}) {
    expect_computed(correct_fermenting(stem(), reading(1.010, t_c), stem(), reading(1.050, 20), {}),
                    std::to_string(t_c));
    expect_computed(alcohol(stem(), reading(1.010, t_c), stem(), reading(1.050, 20)).result,
                    "alcohol " + std::to_string(t_c));
  }
}

TEST(Ends, OfRefractometersAreComputed) {
  const ExtractKind sucrose{};
  for (const double t_c : {10.0, 30.0}) {
    expect_computed(refract(prism(12, t_c), sucrose, {}), std::to_string(t_c));
    expect_computed(refract_fermenting(prism(7, t_c), prism(12, 20), sucrose).result,
                    "fermenting " + std::to_string(t_c));
    HydrometerSample gravity;
    gravity.instrument = stem();
    gravity.reading = reading(1.015, t_c);
    expect_computed(refract_with_hydrometer(prism(7, t_c), gravity, sucrose).result,
                    "both " + std::to_string(t_c));
  }
}

// Half of the spread would be half of the share: on one side of the end and on the other it is the
// same.
TEST(Ends, TheWholeSpreadCounts) {
  const auto share = [](double t_c) {
    const Result r = hot(1.020, t_c);
    for (std::size_t i = 0; i < r.inputs.all().size(); ++i)
      if (r.inputs.all()[i].name == "temperature of the sample") return std::abs(r.shares[0][i]);
    return 0.0;
  };
  EXPECT_NEAR(share(85), share(84), 0.02 * share(84));
  EXPECT_GT(share(85), 0);
}

}  // namespace
}  // namespace areo::measurement
