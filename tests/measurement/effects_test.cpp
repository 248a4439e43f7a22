// SPDX-License-Identifier: GPL-3.0-or-later
// The sizes in docs/explanation/corrected-budgeted-left-out.md, each computed: what is printed is
// the size to its last digit.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <string>
#include <vector>

#include "areo/calibration/check.hpp"
#include "areo/instruments/stem.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/measurement/temperature_table.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/surface.hpp"

namespace areo::measurement {
namespace {

using calibration::WeighedSolution;

// The last number in the column of gravities ("0 to 0.0006"), as it is printed.
std::string printed(const std::string& effect) {
  std::ifstream file{AREO_TABLES_DIR "/../docs/explanation/corrected-budgeted-left-out.md"};
  for (std::string line; std::getline(file, line);) {
    const std::string head = "| " + effect + " | ";
    if (!line.starts_with(head)) continue;
    std::string size = line.substr(head.size());
    if (size.starts_with("0 to ")) size.erase(0, 5);
    return size.substr(0, size.find_first_not_of("0123456789."));
  }
  return "no such row";
}
void expect_printed(const std::string& effect, double size) {
  const std::string text = printed(effect);
  ASSERT_TRUE(text.starts_with("0.")) << effect << ": " << text;
  const double half_digit = 0.5 * std::pow(10.0, -static_cast<double>(text.size() - 2));
  EXPECT_NEAR(std::stod(text), size, half_digit) << effect;
}

const Calibrated& stem() {
  static const Calibrated one =
      Calibrated::never_checked(instruments::ordinary_hydrometer(physics::sg_20_20));
  return one;
}
instruments::HydrometerReading reading(double indication, double t_c = 20) {
  instruments::HydrometerReading r;
  r.indication = indication;
  r.temperature.indication_c = t_c;
  return r;
}
double correction(double indication, double t_c) {
  return temperature_correction(without_error(stem().hydrometer), indication, celsius_point(t_c))
      .at("correction")
      .value.estimate;
}
// ± for about 95 % that an input of a result leaves its first quantity.
double part_of(const Result& r, const std::string& input) {
  for (std::size_t i = 0; i < r.inputs.all().size(); ++i)
    if (r.inputs.all()[i].name.find(input) != std::string::npos)
      return 1.96 * std::abs(r.shares[0][i]);
  ADD_FAILURE() << "no input " << input;
  return 0;
}
// The same of a check in a solution, for all inputs that one of the words names.
double part_of_check(const WeighedSolution& s, const std::vector<std::string>& words) {
  calibration::HydrometerChecks checks{stem().hydrometer};
  checks.add_in_solution(reading(1.050), s);
  const auto set = checks.evaluate();
  double variance = 0;
  for (std::size_t i = 0; i < set.inputs.all().size(); ++i) {
    const auto named = [&](const std::string& word) {
      return set.inputs.all()[i].name.find(word) != std::string::npos;
    };
    if (std::any_of(words.begin(), words.end(), named)) variance += std::pow(set.shares[0][i], 2);
  }
  return 1.96 * std::sqrt(variance);
}

TEST(Effects, ThatAreCorrected) {
  const double glass = 1.050 * 25e-6 * 5;
  expect_printed("expansion of the glass, 5 °C", glass);
  expect_printed("expansion of the liquid, 5 °C from the reference", correction(1.050, 25) + glass);
  const auto present = alcohol(stem(), reading(1.012), stem(), reading(1.050));
  expect_printed("alcohol lowers the surface tension: a drink reads high",
                 1.012 - present.result.at("sg_20_20_present").value.estimate);
  const auto pulls = [](double t_c) {
    return instruments::surface_of(EthanolFraction{0}, celsius_point(t_c));
  };
  expect_printed("the surface of hot liquids pulls less than at 40 °C",
                 1 - instruments::surface_factor(metres(0.005), grams(25), pulls(80), pulls(40)));
  expect_printed("reading at the top of the meniscus",
                 0.002 * instruments::usual_meniscus_divisions(stem().hydrometer));
  // Sugar of 1590 kg/m³ and water, weighed in air of 1.2: the fraction of 10 % changes by w (1 - w)
  // of the difference, a unit of it is 0.413 in gravity.
  expect_printed("buoyancy of air at weighing sugar",
                 0.1 * 0.9 * 1.2 * (1 / 998.2 - 1 / 1590.0) * 0.413);
}

TEST(Effects, ThatAreBudgeted) {
  const Result r = correct(stem(), reading(1.050), {});
  expect_printed("the eye at the scale, half a division", part_of(r, "reading of"));
  expect_printed("the surface of the liquid beside its alcohol", part_of(r, "surface tension of"));
  expect_printed("the liquid that the scale was made for", part_of(r, "it was made for"));
  expect_printed("solids of tap water in a check", calibration::most_tap_solids_kg_m3 / 998.2);
  const double run = 1.96 * stem().correction.u_slope * *stem().hydrometer.length;
  expect_printed("slope of a scale that nobody checked", run);
  const auto sugar = calibration::sugar_solution(50, 450);
  expect_printed("linearity of the balance, 1 g in 50 g of sugar",
                 part_of_check(sugar, {"linearity of the balance"}));
  expect_printed("purity and moisture of the sugar",
                 part_of_check(calibration::sugar_solution(62, 438), {"purity", "moisture"}));
  const auto factor = [](double t_c) {
    return instruments::surface_factor(metres(0.005), grams(25),
                                       physics::water_surface_tension(celsius_point(t_c)),
                                       physics::water_surface_tension(celsius_point(20)));
  };
  expect_printed("the surface of warm liquids pulls less, to 40 °C", 1 - factor(30));
  const auto strength = alcohol(stem(), reading(1.012), stem(), reading(1.050));
  for (const uncertainty::Input& input : strength.result.inputs.all())
    if (input.name == "density of the drink")
      expect_printed("density of a drink, Tabarié's relation", 1.96 * input.u / 998.2);
}

}  // namespace
}  // namespace areo::measurement
