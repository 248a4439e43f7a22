// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/physics/surface.hpp"

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"

namespace areo::physics {
namespace {

constexpr double szyszkowski_a = 0.2327;  // relative to water
constexpr double szyszkowski_b = 0.0306;  // mass fraction

}  // namespace

SurfaceTension water_surface_tension(ModelTemperature t) {
  if (!std::isfinite(t.celsius()))
    throw Error{Errc::domain, "a surface tension needs a finite temperature"};
  const auto& [b_n_m, mu, b, critical_k] = iapws_r1_76;
  const double tau = 1 - t.point().in<KelvinUnit>() / critical_k;
  return newtons_per_metre(b_n_m * std::pow(tau, mu) * (1 + b * tau));
}

SurfaceTension surface_tension(EthanolFraction ethanol, ModelTemperature t) {
  const double p = std::max(ethanol.value(), 0.0);
  return water_surface_tension(t) * (1 - szyszkowski_a * std::log1p(p / szyszkowski_b));
}

}  // namespace areo::physics
