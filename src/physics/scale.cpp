// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/physics/scale.hpp"

#include <fmt/format.h>

#include <cmath>

#include "areo/core/error.hpp"
#include "areo/numeric/root.hpp"
#include "areo/physics/mixture.hpp"

namespace areo::physics {
namespace {

constexpr double air_kg_m3 = 1.2;  // [nbsc440]: weights in ordinary air

double reference_water(const Scale& s) {
  return density(Liquid{}, celsius_point(s.water_c)).value();
}

double sugar_solution(const Scale& s, double w) {
  return density({ExtractFraction{w}}, s.reference()).value();
}

// Grams of sugar per litre rise with the fraction all the way, so the bracket is the whole range.
double fraction_from_concentration(const Scale& s, double g_l) {
  return numeric::find_root([&](double w) { return w * sugar_solution(s, w) - g_l; },
                            mixture_extract_range.lo, mixture_extract_range.hi, 1e-14,
                            {"extract mass fraction", "sugar concentration", g_l, "g/L",
                             "check the number and its unit"});
}

[[noreturn]] void refuse(const char* what, double mark) {
  throw Error{Errc::domain, fmt::format("{}; got {}", what, number_text(mark))};
}

// The density of a mark, whatever it is; density_from_mark() refuses what is none.
double unchecked_density(const Scale& s, double mark) {
  switch (s.kind) {
    case ScaleKind::specific_gravity: return mark * reference_water(s);
    case ScaleKind::apparent_gravity: return mark * (reference_water(s) - air_kg_m3) + air_kg_m3;
    case ScaleKind::density: return mark;
    case ScaleKind::plato:
    case ScaleKind::brix: return sugar_solution(s, mark / 100);
    case ScaleKind::baume: return s.modulus / (s.modulus - mark) * reference_water(s);
    case ScaleKind::oechsle: return (1 + mark / 1000) * reference_water(s);
    case ScaleKind::sugar_concentration:
      return sugar_solution(s, fraction_from_concentration(s, mark));
  }
  refuse("unknown kind of scale", mark);
}

}  // namespace

Density density_from_mark(const Scale& s, double mark) {
  if (!std::isfinite(mark)) refuse("a scale value must be a finite number", mark);
  const double rho = unchecked_density(s, mark);
  if (!(rho > 0) || !std::isfinite(rho)) refuse("this scale value stands for no density", mark);
  return kg_per_m3(rho);
}

double mark_from_density(const Scale& s, Density rho) {
  if (!(rho.value() > 0) || !std::isfinite(rho.value()))
    refuse("a density must be a positive number of kg/m³", rho.value());
  const auto fraction = [&] { return extract_from_density(rho, s.reference()).value(); };
  switch (s.kind) {
    case ScaleKind::specific_gravity: return rho.value() / reference_water(s);
    case ScaleKind::apparent_gravity:
      return (rho.value() - air_kg_m3) / (reference_water(s) - air_kg_m3);
    case ScaleKind::density: return rho.value();
    case ScaleKind::plato:
    case ScaleKind::brix: return 100 * fraction();
    case ScaleKind::baume: return s.modulus - s.modulus * reference_water(s) / rho.value();
    case ScaleKind::oechsle: return 1000 * (rho.value() / reference_water(s) - 1);
    case ScaleKind::sugar_concentration: return fraction() * rho.value();
  }
  refuse("unknown kind of scale", rho.value());
}

double mark_from_liquid(const Scale& s, const Liquid& liquid) {
  return mark_from_density(s, density(liquid, s.reference()));
}

Liquid liquid_from_mark(const Scale& s, double mark) {
  return {extract_from_density(density_from_mark(s, mark), s.reference())};
}

}  // namespace areo::physics
