// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A drink in a closed bottle as inputs of a model: where it may end, and what gas it holds then.
#include <cstddef>
#include <optional>
#include <vector>

#include "areo/measurement/bottle.hpp"
#include "areo/physics/carbon_dioxide.hpp"
#include "areo/physics/liquid.hpp"

namespace areo::measurement {

/// Grams of extract in a litre at 20 °C.
[[nodiscard]] double extract_g_l(const physics::Liquid& drink);

/// The drink as it is, as it is expected to end, and with all extract fermented.
struct Drinks {
  physics::Liquid now, all;
  physics::Liquid from, expected;  // on Balling's line, for their difference only
};

class BottleInputs {
 public:
  BottleInputs(uncertainty::Inputs& inputs, const Result& drink, const BottlePlan& plan);
  [[nodiscard]] Drinks drinks(const uncertainty::Point& x) const;
  [[nodiscard]] double dissolved(const uncertainty::Point& x, const Drinks& d) const;
  [[nodiscard]] physics::ClosedBottle closed(const uncertainty::Point& x,
                                             const physics::Liquid& drink) const;
  [[nodiscard]] double yield(const uncertainty::Point& x) const { return x[yield_]; }
  /// CO2 in g/L and in volumes, and the pressure in bar.
  void append(std::vector<double>& out, const uncertainty::Point& x, const physics::Liquid& drink,
              double total) const;
  [[nodiscard]] double gauge_bar(const uncertainty::Point& x, const physics::ClosedBottle& bottle,
                                 Pressure p) const;

 private:
  [[nodiscard]] double solubility(const uncertainty::Point& x, ModelTemperature t,
                                  const physics::Liquid& drink) const;

  uncertainty::Model drink_;
  std::size_t original_, extract_, gravity_, mass_;
  std::optional<double> expected_sg_;
  instruments::TemperatureInputs closing_;
  uncertainty::InputRef storage_, headspace_, atmosphere_, saturation_, yield_, water_, ratio_,
      beyond_;
};

}  // namespace areo::measurement
