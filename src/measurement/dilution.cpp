// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/dilution.hpp"

#include <fmt/format.h>

#include "areo/calibration/solution.hpp"
#include "areo/core/error.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale_name.hpp"

namespace areo::measurement {
namespace {

using uncertainty::Point;

double grams_per_litre(const physics::Liquid& l) {
  return physics::density(l, celsius_point(20)).value();
}

// @param inputs  those of `added`
// @param added   grams to a litre, from the extracts of the liquid as it is and as it is wanted
template <class Added>
Result balance(uncertainty::Inputs inputs, const physics::Scale& scale, double from, double to,
               const Label& label, const Added& added) {
  const physics::Liquid about = physics::liquid_from_mark(scale, from);
  const SugarFormula formula{inputs, about.extract};
  return evaluate(inputs,
                  [=](const Point& x) {
                    const physics::Liquid is = formula.liquid(x, scale, from),
                                          wanted = formula.liquid(x, scale, to);
                    const double litre_g = grams_per_litre(is);
                    const double g = added(x, litre_g, is.extract.value(), wanted.extract.value());
                    return std::vector{g, (litre_g + g) / grams_per_litre(wanted)};
                  },
                  {label, {"volume_l", "makes", "L"}});
}

// The solver's rounding at the mark of pure water.
constexpr double rounding = 1e-9;

double extract_of(const physics::Scale& scale, double mark) {
  return physics::liquid_from_mark(scale, mark).extract.value();
}

}  // namespace

Result water_to_add(const physics::Scale& scale, double from, double to) {
  if (!(extract_of(scale, to) > rounding) || !(extract_of(scale, from) >= extract_of(scale, to)))
    throw Error{
        Errc::domain,
        fmt::format("water brings a sugar liquid down, but not to water: from {:g} to {:g} on {}",
                    from, to, physics::scale_name(scale)),
        "to go up, add sugar"};
  return balance({}, scale, from, to, {"water_g_per_l", "water", "g/L"},
                 [](const Point&, double litre_g, double is, double wanted) {
                   return litre_g * (is / wanted - 1);
                 });
}

Result sugar_to_add(const physics::Scale& scale, double from, double to) {
  if (!(extract_of(scale, from) >= -rounding) ||
      !(extract_of(scale, to) >= extract_of(scale, from)))
    throw Error{Errc::domain,
                fmt::format("sugar brings a liquid up: from {:g} to {:g} on {}", from, to,
                            physics::scale_name(scale)),
                "to go down, add water"};
  uncertainty::Inputs inputs;
  const auto sucrose = inputs.add(calibration::sucrose_in_white_sugar("white sugar"));
  return balance(inputs, scale, from, to, {"sugar_g_per_l", "sugar", "g/L"},
                 [=](const Point& x, double litre_g, double is, double wanted) {
                   return litre_g * (wanted - is) / (x[sucrose] - wanted);
                 });
}

}  // namespace areo::measurement
