// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/calibration/solution.hpp"

#include <fmt/format.h>

#include <cmath>

#include "areo/core/error.hpp"
#include "areo/numeric/root.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/salt.hpp"

namespace areo::calibration {
namespace {

// Buoyancy: a balance adjusted with weights of 8000 kg/m³ shows m (1 - air/rho) / (1 - air/8000).
constexpr double air_kg_m3 = 1.2;
constexpr double weights_kg_m3 = 8000;
constexpr double sucrose_crystal_kg_m3 = 1587;  // handbook value, from memory
constexpr double salt_crystal_kg_m3 = 2165;     // handbook value, from memory
constexpr double water_kg_m3 = 998;

double mass_from_balance(double shown_g, double rho_kg_m3) {
  return shown_g * (1 - air_kg_m3 / weights_kg_m3) / (1 - air_kg_m3 / rho_kg_m3);
}

double crystal(Solute s) {
  return s == Solute::sucrose ? sucrose_crystal_kg_m3 : salt_crystal_kg_m3;
}

const char* word(Solute s) { return s == Solute::sucrose ? "sugar" : "salt"; }

double pure_density(Solute s, double fraction, ModelTemperature t) {
  return s == Solute::sucrose ? physics::density({ExtractFraction{fraction}}, t).value()
                              : physics::salt_density(SaltFraction{fraction}, t).value();
}

double model_uncertainty(Solute s, double fraction) {
  return s == Solute::sucrose ? physics::density_model_uncertainty({ExtractFraction{fraction}})
                              : physics::salt_density_uncertainty(SaltFraction{fraction});
}

double mass_fraction(Solute s, double solute_g, double water_g, double purity, double moisture) {
  const double solute = mass_from_balance(solute_g, crystal(s));
  const double water = mass_from_balance(water_g, water_kg_m3);
  return solute * (1 - moisture) * purity / (solute + water);
}

const WeighedSolution& sensible(const WeighedSolution& s) {
  const auto bounds = [](double lo, double hi) { return lo >= 0 && lo <= hi && hi <= 1; };
  if (!(s.solute_g > 0) || !(s.water_g > 0))
    throw Error{Errc::domain,
                fmt::format("a solution needs some {} and some water; got {} g and {} g",
                            word(s.solute), number_text(s.solute_g), number_text(s.water_g))};
  if (!(s.balance_division_g > 0))
    throw Error{Errc::domain, "the balance needs a division above zero"};
  if (!bounds(s.purity_lo, s.purity_hi) || !bounds(s.moisture_lo, s.moisture_hi))
    throw Error{Errc::domain,
                "purity and moisture are fractions between 0 and 1, lower bound first"};
  return s;
}

// A mass on the balance is the difference of two indications, each rounded to the division.
uncertainty::Input weighing(const std::string& of, double mass_g, double division_g) {
  return from(
      uncertainty::Origin::mass,
      uncertainty::triangular("mass of " + of, "g", mass_g, division_g,
                              "two indications of the balance, each rounded to its division; its "
                              "gain is the same for both masses and cancels"));
}

BalanceInputs add_balance(uncertainty::Inputs& inputs, double division_g) {
  const auto linearity = [&](const char* at) {
    return inputs.add(
        from(uncertainty::Origin::mass,
             uncertainty::rectangular(fmt::format("linearity of the balance at the {}", at), "g", 0,
                                      division_g, "within a division: judgement")));
  };
  return {division_g, linearity("solute"), linearity("water")};
}

SoluteInputs add_solute(uncertainty::Inputs& inputs, const WeighedSolution& s) {
  using uncertainty::Origin;
  const std::string of = word(s.solute);
  const char* code = s.solute == Solute::sucrose ? "food standard [codex-sugars], from memory"
                                                 : "food standard [codex-salt], from memory";
  return {
      s.solute,
      s.purity_lo,
      s.purity_hi,
      s.moisture_lo,
      s.moisture_hi,
      inputs.add(from(Origin::composition, uncertainty::between("purity of the " + of, "",
                                                                s.purity_lo, s.purity_hi, code))),
      inputs.add(from(
          Origin::composition,
          uncertainty::between("moisture of the " + of, "", s.moisture_lo, s.moisture_hi, code))),
      inputs.add(from(Origin::formula,
                      uncertainty::normal("density formula of the " + of + " solution",
                                          uncertainty::unit_of_formula, 0, 1,
                                          "agreement of published formulas and tables")))};
}

}  // namespace

uncertainty::Input sucrose_in_white_sugar(const std::string& of) {
  return from(uncertainty::Origin::composition,
              uncertainty::between("sucrose in " + of, "", white_sugar.least(), white_sugar.most(),
                                   "white sugar [codex-sugars]"));
}

WeighedSolution to_balance(WeighedSolution s) {
  for (double* mass : {&s.solute_g, &s.water_g})
    *mass = std::round(*mass / s.balance_division_g) * s.balance_division_g;
  return s;
}

double mass_uncertainty_g(const WeighedSolution& s) {
  const double rounded = s.balance_division_g / std::sqrt(6.0);    // triangular
  const double linearity = s.balance_division_g / std::sqrt(3.0);  // rectangular
  return std::hypot(rounded, linearity);
}

WeighedSolution sugar_solution(double sugar_g, double water_g, double balance_division_g) {
  return {.solute_g = sugar_g, .water_g = water_g, .balance_division_g = balance_division_g};
}

WeighedSolution salt_solution(double salt_g, double water_g, double balance_division_g) {
  return {.solute = Solute::sodium_chloride,
          .solute_g = salt_g,
          .water_g = water_g,
          .balance_division_g = balance_division_g,
          .purity_lo = table_salt.purity_lo,
          .purity_hi = table_salt.purity_hi,
          .moisture_lo = table_salt.moisture_lo,
          .moisture_hi = table_salt.moisture_hi};
}

bool SoluteInputs::is_of(const WeighedSolution& s) const {
  return solute == s.solute && purity_lo == s.purity_lo && purity_hi == s.purity_hi &&
         moisture_lo == s.moisture_lo && moisture_hi == s.moisture_hi;
}

SolutionInputs::SolutionInputs(uncertainty::Inputs& inputs, const WeighedSolution& s,
                               const std::optional<SoluteInputs>& shared,
                               const std::optional<BalanceInputs>& balance)
    : solute_{shared && shared->is_of(sensible(s)) ? *shared : add_solute(inputs, sensible(s))},
      balance_{balance && balance->division_g == s.balance_division_g
                   ? *balance
                   : add_balance(inputs, s.balance_division_g)},
      solute_g_{inputs.add(weighing(word(s.solute), s.solute_g, s.balance_division_g))},
      water_g_{inputs.add(weighing("water", s.water_g, s.balance_division_g))} {}

double SolutionInputs::fraction(const uncertainty::Point& x) const {
  return mass_fraction(solute_.solute, x[solute_g_] + x[balance_.solute_g],
                       x[water_g_] + x[balance_.water_g], x[solute_.purity], x[solute_.moisture]);
}

Density SolutionInputs::density(const uncertainty::Point& x, ModelTemperature t) const {
  const double w = fraction(x);
  return kg_per_m3(pure_density(solute_.solute, w, t) +
                   x[solute_.formula] * model_uncertainty(solute_.solute, w));
}

WeighedSolution weigh_in(const WeighedSolution& kind, double total_g, Density rho, Temperature t) {
  if (!(total_g > 0))
    throw Error{Errc::domain,
                fmt::format("the amount must be above zero; got {} g", number_text(total_g))};
  const double hi = kind.solute == Solute::sucrose ? physics::mixture_extract_range.hi
                                                   : physics::salt_fraction_range.hi;
  const double purity = (kind.purity_lo + kind.purity_hi) / 2;
  const double moisture = (kind.moisture_lo + kind.moisture_hi) / 2;
  const auto fraction = [&](double share) {
    return mass_fraction(kind.solute, share * total_g, (1 - share) * total_g, purity, moisture);
  };
  // The share of the solute as weighed may go a little past the range of its pure fraction.
  const double most = hi / (purity * (1 - moisture)) * 0.999;
  const double share = numeric::find_root(
      [&](double s) { return pure_density(kind.solute, fraction(s), t) - rho.value(); }, 0, most,
      1e-12,
      {"share of the solute", "density", rho.value(), "kg/m³", "such a solution does not exist"});
  WeighedSolution recipe = kind;
  recipe.solute_g = share * total_g;
  recipe.water_g = total_g - recipe.solute_g;
  return sensible(recipe);
}

}  // namespace areo::calibration
