// SPDX-License-Identifier: GPL-3.0-or-later
// Fermentation, real drinks and carbon dioxide, against tables/.
#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "agreement.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/physics/carbon_dioxide.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale.hpp"

namespace areo::published {
namespace {

// A = D b / (q - 1), q = 1.220 + 0.001 p. Half a unit in the last digit of 1.220 is 0.2 % of q - 1,
// and so of a cell; half a digit of print on top.
void add_balling(Comparisons& all) {
  constexpr double half_digit_of_q = 0.0005;
  Comparison c{"table B of [balling]", "% by mass", "{:.4f}"};
  for (const Row& r : rows_of("balling-alcohol-table"))
    for (int p = 9; p <= 16; ++p) {
      const std::string column = "p" + std::to_string(p);
      const auto printed = r[column];
      c.add(r, column, ferment::balling_table_alcohol(r.number("D"), p), printed.value,
            printed.half_digit + printed.value * half_digit_of_q / (0.220 + 0.001 * p));
    }
  all["balling"] = std::move(c);
}

// OE (1 + (y - 1) A) = y A + RE, solved for the yield y.
double yield_of(ExtractFraction original, const physics::Liquid& drink) {
  const double oe = original.value(), a = drink.ethanol.value();
  return (oe - drink.extract.value() - oe * a) / (a * (1 - oe));
}

// Wort and beer gravity (60/60 °F) -> alcohol, against the distillate. Nothing fitted.
Beer beer(const Row& r) {
  constexpr double ethanol_g_ml_60f = 0.7935;  // of the table's own header
  const physics::Scale sg60 = physics::specific_gravity_scale<Ref60F>();
  const Temperature t = sg60.reference();
  const double oe = physics::liquid_from_mark(sg60, r.number("wort_sg")).extract.value();
  const Density rho = physics::density_from_mark(sg60, r.number("beer_sg"));
  const ExtractFraction original{oe};
  const auto predicted = ferment::fermented_to_density(original, rho, t);
  const double g_100_ml = predicted.ethanol.value() * rho.value() / 10;
  const double measured = r.number("alcohol_g_100ml");
  const EthanolFraction ethanol{10 * measured / rho.value()};
  const physics::Liquid drink{physics::extract_from_density(rho, t, ethanol), ethanol};
  const RefractiveIndex n = physics::refractive_index(drink, t);
  const auto by_gravity = [&](ferment::Yield y) {
    return ferment::strength_by_volume(ferment::fermented_to_density(original, rho, t, y)).value();
  };
  const auto by_refraction = [&](ferment::Yield y) {
    const auto& optics = physics::sucrose_optics;
    return ferment::strength_by_volume(ferment::fermented_to_index(original, n, t, optics, y))
        .value();
  };
  const auto u = [](const auto& strength) {
    const double y = ferment::balling_yield.extract_per_ethanol;
    return (strength({y - ferment::yield_uncertainty}) -
            strength({y + ferment::yield_uncertainty})) /
           2;
  };
  return {r.where(),
          g_100_ml / ethanol_g_ml_60f,
          measured / ethanol_g_ml_60f,
          yield_of(original, drink),
          by_refraction(ferment::balling_yield) - ferment::strength_by_volume(drink).value(),
          u(by_gravity),
          u(by_refraction)};
}

void add_beers(Comparisons& all) {
  constexpr double half_digit = 0.005 / 0.7935;
  Comparison strength{"beers of [tolman1917] against their distillates", "% vol", "{:.3f}"};
  for (const Beer& b : beers())
    strength.differences.push_back({b.where, b.predicted_percent_vol - b.measured_percent_vol,
                                    half_digit + standard_uncertainties * b.u_gravity});
  all["beers"] = std::move(strength);
}

// g/(L bar) as measured, however the laboratory put it.
double solubility(const Row& row) {
  constexpr double bar_per_atm = 1.01325;
  constexpr double gas_constant = 0.08314463;  // L bar/(mol K)
  constexpr double compressibility = 0.995;    // of the gas near 1 bar, as its fugacity coefficient
  const double value = row.number("value");
  if (row.text("kind") == "bunsen")
    return value * physics::carbon_dioxide_g_per_volume / bar_per_atm;
  const double t_k = celsius_point(row.number("t_C")).in<KelvinUnit>();
  return value * physics::carbon_dioxide_molar_mass / (compressibility * gas_constant * t_k);
}

void add_carbon_dioxide(Comparisons& all) {
  const std::map<std::string, std::string> laboratories{
      {"Murray&Riley 1971", "[murray1971], 1 °C to 35 °C"},
      {"Findlay&Shen 1912", "[findlay1912], 25 °C"},
      {"Findlay&Howell 1915", "[findlay1915], 25 °C"},
      {"Van Slyke 1939", "[vanslyke1939], 23 °C to 26 °C"},
      {"Kunerth 1922", "[kunerth1922], 22 °C to 34 °C"}};
  for (const auto& [name, what] : laboratories) {
    Comparison c{what, "%", "{:.1f}"};
    for (const Row& r : rows_of("co2-solubility", "laboratory", name)) {
      const auto printed = r["value"];
      const double formula = physics::solubility_in_water(celsius_point(r.number("t_C")));
      c.add(r, "value", 100 * (formula / solubility(r) - 1), 0,
            100 * (printed.half_digit / printed.value +
                   standard_uncertainties * physics::solubility_uncertainty));
    }
    all["carbon-dioxide " + name] = std::move(c);
  }
  Comparison five{"carbon dioxide in water, five laboratories, 1 °C to 35 °C", "%", "{:.1f}"};
  for (const auto& [name, what] : laboratories)
    for (const Difference& d : all.at("carbon-dioxide " + name).differences)
      five.differences.push_back(d);
  all["carbon-dioxide"] = std::move(five);
}

// What the drinks contain is not stated. Usual for them, from memory: a lager of 5 % vol with 4 %
// extract, a dry sparkling wine of 12.5 % vol with 10 g/L.
void add_carbon_dioxide_in_drinks(Comparisons& all) {
  struct Content {
    const char* what;
    double percent_vol, extract_g_l;
  };
  Comparison c{"a lager at 6 °C and a sparkling wine at 10 °C [acs-omega2021]", "%", "{:.1f}"};
  for (const auto& [what, percent_vol, extract_g_l] :
       {Content{"lager", 5, 40}, {"sparkling wine", 12.5, 10}})
    for (const Row& r : rows_of("co2-in-drinks", "what", what)) {
      const double ratio =
          physics::solubility_ratio(StrengthByVolume{percent_vol}, MassConcentration{extract_g_l});
      const double formula = physics::solubility_in_water(celsius_point(r.number("t_C"))) * ratio;
      const auto printed = r["solubility_g_L_bar"];
      const double u = std::hypot(physics::solubility_uncertainty,
                                  physics::solubility_ratio_uncertainty * (1 - ratio) / ratio);
      c.add(r, "solubility_g_L_bar", 100 * (formula / printed.value - 1), 0,
            100 * (printed.half_digit / printed.value + standard_uncertainties * u));
    }
  all["carbon-dioxide drinks"] = std::move(c);
}

// Sugar that makes 1 % vol by wine law, against what the balance makes of it if all ferments.
void add_potential(Comparisons& all) {
  constexpr double g_l_per_percent = 16.83;  // [oiv-as2-02]
  // Law counts 0.469 g ethanol from a gram of sugar, the balance 0.484 from one of extract, 3.1 %
  // more; and sugar takes room that the drink no longer has, up to 2.5 % at 310 g/L.
  constexpr double bound_percent = 3.1 + 2.5;
  Comparison c{"potential alcohol by [oiv-as2-02], 80 g/L to 310 g/L", "%", "{:.1f}"};
  for (const Row& r : rows_of("must-oiv-table2")) {
    const double sugar = r.number("sugar_g_l");
    const auto oe = physics::liquid_from_mark(physics::sugar_g_l_20, sugar).extract;
    const auto all_of_it = ferment::ethanol_from_extracts(oe, ExtractFraction{0});
    const double vol = ferment::strength_by_volume(ferment::fermented(oe, all_of_it)).value();
    c.add(r, "sugar_g_l", 100 * (vol / (sugar / g_l_per_percent) - 1), 0, bound_percent);
  }
  all["potential"] = std::move(c);
}

}  // namespace

const std::vector<Beer>& beers() {
  static const std::vector<Beer> all = [] {
    std::vector<Beer> found;
    for (const Row& r : rows_of("beverage-analyses")) found.push_back(beer(r));
    return found;
  }();
  return all;
}

BrewYield brew_yield() {
  const Temperature t = celsius_point(20);
  BrewYield y{0, 0, 1e9, 0};
  for (const Row& r : rows_of("beer-brew-means")) {
    const Density rho = physics::density({ExtractFraction{r.number("ae") / 100}}, t);
    const EthanolFraction ethanol{r.number("abw") / 100};
    const double of_set = yield_of(ExtractFraction{r.number("oe") / 100},
                                   {physics::extract_from_density(rho, t, ethanol), ethanol});
    y.brews += r.number("n");
    y.mean += r.number("n") * of_set;
    y.least = std::min(y.least, of_set);
    y.most = std::max(y.most, of_set);
  }
  y.mean /= y.brews;
  return y;
}

double sugar_free_extract(const Row& wine) {
  const Density rho = kg_per_m3(1000 * wine.number("density_g_cm3"));
  // % vol and density give the ethanol's mass fraction: 1 % vol is 7.89239 g/L.
  const double ethanol = 7.89239 * wine.number("abv_percent") / rho.value();
  const auto extract =
      physics::extract_from_density(rho, celsius_point(20), EthanolFraction{ethanol});
  return extract.value() * rho.value() - wine.number("residual_sugar_g_l");
}

void add_drinks(Comparisons& all) {
  add_balling(all);
  add_beers(all);
  add_carbon_dioxide(all);
  add_carbon_dioxide_in_drinks(all);
  add_potential(all);
}

}  // namespace areo::published
