// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/calibration/liquid_factor.hpp"

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/numeric/covariance.hpp"
#include "areo/numeric/line.hpp"
#include "areo/numeric/quantile.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/water.hpp"

namespace areo::calibration {
namespace {

using uncertainty::InputRef;
using uncertainty::Point;

struct Pair {
  instruments::RefractionInputs prism;
  instruments::ReadingInputs stem;
};

std::vector<Pair> enter(instruments::Readings& readings, std::span<const PairedReading> pairs) {
  std::vector<Pair> entered;
  for (const PairedReading& p : pairs) {
    instruments::require_temperature(physics::water_range, p.density.temperature);
    entered.push_back(
        {readings.add(p.refractometer, p.refractometer_correction, p.refraction, "the refraction"),
         readings.add(p.hydrometer, p.hydrometer_correction, p.density, "the gravity")});
  }
  return entered;
}

// The formulas behind index and density, the same for all pairs, in their standard uncertainties.
struct Formulas {
  InputRef index, density;
};

double relative_rise(const Pair& pair, const Formulas& formulas, const Point& x) {
  const ModelTemperature t = pair.stem.temperature(x);
  const Density rho = pair.stem.density(x);
  const physics::Liquid about{physics::extract_from_density(rho, t)};
  const ExtractFraction extract = physics::extract_from_density(
      rho - kg_per_m3(x[formulas.density] * physics::density_model_uncertainty(about)), t);
  const ModelTemperature t_n = pair.prism.temperature(x);
  const double index_error =
      x[formulas.index] * physics::refractive_index_model_uncertainty(about, t_n);
  return physics::relative_rise_from_index(
      RefractiveIndex{pair.prism.index(x).value() - index_error}, t_n, extract);
}

// What the instruments share moves each factor in proportion to itself. With the covariance as it
// comes out, least squares would then prefer the smaller ones, and leave the range of all pairs; so
// the shares are taken at one value, the mean, for all.
numeric::Covariance at_common_value(std::span<const double> factors, const numeric::Covariance& v) {
  double mean = 0;
  for (const double f : factors) mean += f / static_cast<double>(factors.size());
  numeric::Covariance scaled{v.size()};
  for (std::size_t i = 0; i < v.size(); ++i)
    for (std::size_t j = i; j < v.size(); ++j)
      scaled.set(i, j, v(i, j) * (mean / factors[i]) * (mean / factors[j]));
  return scaled;
}

std::vector<std::string> all_remarks(std::span<const PairedReading> pairs) {
  std::vector<std::string> all;
  const auto add = [&](const instruments::Correction& c) {
    for (const std::string& r : c.remarks)
      if (std::find(all.begin(), all.end(), r) == all.end()) all.push_back(r);
  };
  for (const PairedReading& p : pairs) {
    add(p.refractometer_correction);
    add(p.hydrometer_correction);
    for (const auto* t : {&p.refraction.temperature, &p.density.temperature})
      if (t->correction) add(*t->correction);
  }
  return all;
}

}  // namespace

LiquidFactor liquid_factor(std::span<const PairedReading> pairs) {
  if (pairs.empty())
    throw Error{Errc::domain, "the factor of a liquid needs at least one pair of readings",
                "read an unfermented sample with refractometer and hydrometer"};
  instruments::Readings readings;
  const std::vector<Pair> entered = enter(readings, pairs);
  const auto formula = [&](const char* name) {
    return readings.inputs.add(from(uncertainty::Origin::formula,
                                    uncertainty::normal(name, uncertainty::unit_of_formula, 0, 1,
                                                        "agreement with printed tables")));
  };
  const Formulas formulas{formula("refractive index formula"), formula("density formula")};
  const auto result = propagate(readings.inputs, [&](const Point& x) {
    std::vector<double> all;
    all.reserve(entered.size());
    for (const Pair& p : entered) all.push_back(relative_rise(p, formulas, x));
    return all;
  });
  const std::vector<double> places(pairs.size(), 0.0);  // a constant, wherever it was read
  const auto fit = numeric::fit_offset(
      places, result.estimates,
      at_common_value(result.estimates, covariance(readings.inputs, result)), 0);
  LiquidFactor factor;
  factor.each = result.values;
  factor.remarks = all_remarks(pairs);
  factor.chi_squared = fit.chi_squared;
  double widening = 1;
  if (fit.degrees_of_freedom > 0) {
    factor.chi_squared_limit = numeric::chi_squared_quantile(0.95, fit.degrees_of_freedom);
    factor.consistent = fit.chi_squared <= *factor.chi_squared_limit;
    if (!factor.consistent) widening = std::sqrt(std::max(1.0, fit.residual_variance()));
  }
  factor.optics = {fit.intercept, std::sqrt(fit.var_intercept) * widening};
  return factor;
}

}  // namespace areo::calibration
