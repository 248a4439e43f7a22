// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/instruments/refractometer.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <limits>

#include "areo/core/error.hpp"
#include "areo/instruments/readings.hpp"
#include "areo/physics/refraction.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo::instruments {
namespace {

const Refractometer brix{.name = "prism"};
const Refractometer compensated{.name = "prism", .compensated = true};

Refractometer index_scale() {
  Refractometer r = ordinary_refractometer(RefractometerScale::index);
  r.name = "prism";
  return r;
}

RefractometerReading reading(double indication, double t_c = 20, double half_width_c = 0.5) {
  RefractometerReading r;
  r.indication = indication;
  r.temperature.indication_c = t_c;
  r.temperature.half_width_c = half_width_c;
  return r;
}

double u_of(const uncertainty::Inputs& inputs,
            const std::function<double(const uncertainty::Point&)>& model) {
  return propagate(inputs, [&](const uncertainty::Point& x) { return std::vector{model(x)}; })
      .values[0]
      .u;
}
double u_of_input(const uncertainty::Inputs& inputs, const std::string& name) {
  for (const uncertainty::Input& i : inputs.all())
    if (i.name == name) return i.u;
  ADD_FAILURE() << "no input '" << name << "'";
  return 0;
}

// --- what an instrument without error shows -----------------------------------------------------

// [itct1936]: a reading R at t stands for R + c percent; rows of 10 °C and 16 °C as printed, those
// of 26 °C from memory. Within the 0.03 Brix that the models are stated to agree.
TEST(IdealIndication, AgreesWithTheTableOfCorrections) {
  struct Row {
    double t_c, shown, c;
  };
  for (const auto& [t_c, shown, c] : {Row{10, 10, -0.58}, Row{10, 30, -0.68}, Row{16, 20, -0.27},
                                      Row{26, 10, 0.43}, Row{26, 30, 0.47}})
    EXPECT_NEAR(ideal_indication(brix, {ExtractFraction{(shown + c) / 100}}, celsius_point(t_c)),
                shown, 0.03)
        << shown << " at " << t_c << " °C";
}

TEST(IdealIndication, OfAnIndexScaleIsTheIndexOfTheLiquid) {
  const physics::Liquid liquid{ExtractFraction{0.05}, EthanolFraction{0.04}};
  const Temperature t = celsius_point(17.5);
  EXPECT_DOUBLE_EQ(ideal_indication(index_scale(), liquid, t),
                   physics::refractive_index(liquid, t).value());
  EXPECT_DOUBLE_EQ(ideal_indication(index_scale(), liquid, t, physics::malt_extract_optics),
                   physics::refractive_index(liquid, t, physics::malt_extract_optics).value());
  EXPECT_NEAR(ideal_indication(index_scale(), {}, celsius_point(20)), 1.332988, 5e-7);
}

TEST(IdealIndication, OfACompensatedOneIsThatOf20C) {
  const physics::Liquid liquid{ExtractFraction{0.124}};
  for (const double t_c : {10.0, 20.0, 27.0})
    EXPECT_DOUBLE_EQ(ideal_indication(compensated, liquid, celsius_point(t_c)),
                     ideal_indication(brix, liquid, celsius_point(20)));
  EXPECT_NEAR(ideal_indication(compensated, liquid, celsius_point(27)), 12.4, 1e-9);
}

TEST(IdealIndication, AnErrorOfTheIndexIsAdded) {
  const physics::Liquid liquid{ExtractFraction{0.124}};
  const Temperature t = celsius_point(20);
  EXPECT_NEAR(ideal_indication(index_scale(), liquid, t, physics::sucrose_optics, 1e-4) -
                  ideal_indication(index_scale(), liquid, t),
              1e-4, 1e-12);
  // 0.00001 is 0.007 Brix at 0 % and 0.005 at 50 %.
  EXPECT_NEAR(ideal_indication(brix, liquid, t, physics::sucrose_optics, 1e-4) - 12.4, 0.065,
              0.005);
}

// --- on the scale -------------------------------------------------------------------------------

std::string hint_of(const Refractometer& r, double indication) {
  try {
    require_on_scale(r, indication);
  } catch (const Error& e) {
    EXPECT_EQ(e.code, Errc::domain);
    return e.hint;
  }
  return "accepted";
}

TEST(RefractometerScale, EndsBelongToIt) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  for (const Refractometer& r : {brix, index_scale()}) {
    EXPECT_EQ(hint_of(r, r.lo), "accepted");
    EXPECT_EQ(hint_of(r, r.hi), "accepted");
    EXPECT_EQ(hint_of(r, std::nextafter(r.lo, -infinity)),
              "clean the prism, re-zero in water and read again");
    EXPECT_EQ(hint_of(r, std::nextafter(r.hi, infinity)),
              "check the digits, or thin the sample with weighed water");
    EXPECT_NE(hint_of(r, std::nan("")), "accepted");
    EXPECT_NE(hint_of(r, infinity), "accepted");
  }
}

TEST(RefractometerScale, TheErrorSaysInstrumentValueAndEnds) {
  try {
    require_on_scale(brix, 40);
    ADD_FAILURE() << "accepted";
  } catch (const Error& e) {
    EXPECT_STREQ(e.what(), "prism cannot show 40 Brix: its scale goes from 0 to 32");
  }
}

TEST(RefractometerScale, ToleranceIsADivisionUnlessStated) {
  EXPECT_EQ(brix.maximum_permissible_error(), 0.2);
  const Refractometer stated{.name = "prism", .tolerance = 0.1};
  EXPECT_EQ(stated.maximum_permissible_error(), 0.1);
}

// --- one reading --------------------------------------------------------------------------------

struct Taken {
  uncertainty::Inputs inputs;
  RefractionInputs taken;
  explicit Taken(const Refractometer& r, const RefractometerReading& reading,
                 const Correction& c = {})
      : taken{inputs, add_refractometer(inputs, r, c), reading, "the test"} {}
  [[nodiscard]] double at_estimates(double (RefractionInputs::*what)(const uncertainty::Point&)
                                        const) const {
    const auto x = inputs.estimates();
    return (taken.*what)(uncertainty::Point{x});
  }
  [[nodiscard]] double index() const {
    const auto x = inputs.estimates();
    return taken.index(uncertainty::Point{x}).value();
  }
  [[nodiscard]] double temperature_c() const {
    const auto x = inputs.estimates();
    return taken.temperature(uncertainty::Point{x}).celsius();
  }
};

TEST(Refraction, OfABrixScaleIsTheIndexOfTheMark) {
  EXPECT_DOUBLE_EQ(Taken(brix, reading(12.4)).index(),
                   physics::index_from_brix_shown(Brix{12.4}).value());
  EXPECT_DOUBLE_EQ(Taken(index_scale(), reading(1.3512)).index(), 1.3512);
}

TEST(Refraction, IsOf20CIfCompensated) {
  EXPECT_EQ(Taken(brix, reading(12.4, 27)).temperature_c(), 27);
  EXPECT_EQ(Taken(compensated, reading(12.4, 27)).temperature_c(), 20);
}

TEST(Refraction, TheCorrectionIsAdded) {
  Correction c;
  c.offset = -0.38;
  c.checks = 1;
  EXPECT_NEAR(Taken(brix, reading(8.2), c).at_estimates(&RefractionInputs::corrected_indication),
              7.82, 1e-12);
}

// Half a division triangular, or as coarse as it was typed.
TEST(Refraction, UncertaintyOfAReading) {
  EXPECT_NEAR(u_of_input(Taken(brix, reading(12.4)).inputs, "reading of the test"),
              0.1 / std::sqrt(6.0), 1e-12);
  RefractometerReading coarse = reading(12);
  coarse.half_width = 0.5;
  EXPECT_NEAR(u_of_input(Taken(brix, coarse).inputs, "reading of the test"), 0.5 / std::sqrt(6.0),
              1e-12);
}

// Within a division from 5 °C away, in proportion nearer; what the thermometer leaves open counts
// as distance.
TEST(Refraction, DoubtOfTheCompensation) {
  const auto doubt = [](const Refractometer& r, double t_c, double half_width_c) {
    return u_of_input(Taken(r, reading(12.4, t_c, half_width_c)).inputs,
                      "temperature compensation for the test") *
           std::sqrt(3.0);
  };
  EXPECT_EQ(doubt(compensated, 20, 0), 0);
  EXPECT_NEAR(doubt(compensated, 20, 0.5), 0.02, 1e-12);
  EXPECT_NEAR(doubt(compensated, 22, 0), 0.08, 1e-12);
  EXPECT_NEAR(doubt(compensated, 18, 0.5), 0.1, 1e-12);
  for (const double full : {10.0, 15.0, 25.0, 30.0})
    EXPECT_NEAR(doubt(compensated, full, 0), 0.2, 1e-12) << full;
  EXPECT_EQ(doubt(brix, 27, 0.5), 0);
}

TEST(Refraction, RefusesWhatIsNotOnTheScale) {
  EXPECT_THROW(Taken(brix, reading(-0.2)), Error);
  EXPECT_THROW(Taken(brix, reading(32.2)), Error);
  EXPECT_THROW(Taken(brix, reading(std::nan(""))), Error);
  EXPECT_THROW(Taken(index_scale(), reading(12.4)), Error);
}

// --- several readings ---------------------------------------------------------------------------

// Equal readings of one instrument: its error cancels in the difference, the two eyes remain.
TEST(SeveralRefractions, OfOneInstrumentShareItsCorrection) {
  const auto u_of_difference = [](const Refractometer& a, const Refractometer& b) {
    Readings readings;
    const auto never = never_checked(0.2, 0, 32);
    const auto first = readings.add(a, never, reading(12.4), "the first");
    const auto second = readings.add(b, never, reading(12.4), "the second");
    return u_of(readings.inputs, [&](const uncertainty::Point& x) {
      return first.corrected_indication(x) - second.corrected_indication(x);
    });
  };
  const double eyes = std::sqrt(2.0) * 0.1 / std::sqrt(6.0);
  EXPECT_NEAR(u_of_difference(brix, brix), eyes, 1e-9);
  const Refractometer another{.name = brix.name};
  const double errors = std::sqrt(2.0) * never_checked(0.2, 0, 32).uncertainty_at(12.4);
  EXPECT_NEAR(u_of_difference(brix, another), std::hypot(eyes, errors), 1e-9);
}

// A hydrometer's jar and a prism measured with one thermometer: its correction cancels.
TEST(SeveralRefractions, ShareANamedThermometerWithAHydrometer) {
  const Thermometer probe{.name = "probe"};
  const auto u_of_difference = [&](const Thermometer& of_the_jar) {
    const auto with = [](TemperatureReading t, const Thermometer& thermometer) {
      t.thermometer = thermometer;
      t.correction = never_checked(1, -10, 110);
      return t;
    };
    Readings readings;
    RefractometerReading drop = reading(12.4);
    drop.temperature = with(drop.temperature, probe);
    HydrometerReading jar;
    jar.indication = 1.05;
    jar.temperature = with(jar.temperature, of_the_jar);
    const auto prism = readings.add(brix, {}, drop, "the drop");
    const auto stem = readings.add(Hydrometer{}, {}, jar, "the jar");
    return u_of(readings.inputs, [&](const uncertainty::Point& x) {
      return prism.temperature(x).celsius() - stem.temperature(x).celsius();
    });
  };
  const double typed = std::sqrt(2.0) * 0.5 / std::sqrt(3.0);
  EXPECT_NEAR(u_of_difference(probe), typed, 1e-9);
  const double errors = std::sqrt(2.0) * never_checked(1, -10, 110).uncertainty_at(20);
  EXPECT_NEAR(u_of_difference(Thermometer{.name = "probe"}), std::hypot(typed, errors), 1e-9);
}

TEST(SeveralRefractions, TemperaturesWithoutAThermometerAreTwo) {
  Readings readings;
  const auto first = readings.add(brix, {}, reading(12.4), "the first");
  const auto second = readings.add(brix, {}, reading(12.4), "the second");
  EXPECT_NEAR(u_of(readings.inputs,
                   [&](const uncertainty::Point& x) {
                     return first.temperature(x).celsius() - second.temperature(x).celsius();
                   }),
              std::sqrt(2.0) * 0.5 / std::sqrt(3.0), 1e-9);
}

}  // namespace
}  // namespace areo::instruments
