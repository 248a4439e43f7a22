// SPDX-License-Identifier: GPL-3.0-or-later
// Densities of water, sugar, ethanol and salt, and Brix hydrometers, against tables/.
#include <algorithm>
#include <cmath>
#include <utility>

#include "agreement.hpp"
#include "areo/instruments/hydrometer.hpp"
#include "areo/numeric/root.hpp"
#include "areo/physics/ethanol.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/salt.hpp"
#include "areo/physics/scale.hpp"
#include "areo/physics/sucrose.hpp"
#include "areo/physics/water.hpp"

namespace areo::published {
namespace {

constexpr double k = standard_uncertainties;
const char* const kg_m3 = "kg/m³";

double water(double t_c) { return physics::water_density(celsius_point(t_c)).value(); }
double sucrose(double w, double t_c) {
  return physics::density({ExtractFraction{w}}, celsius_point(t_c)).value();
}
double sucrose_u(double w) { return physics::density_model_uncertainty({ExtractFraction{w}}); }

double ethanol_of_source(double p, double t_c) {
  return physics::ethanol_density(EthanolFraction{p}, celsius_point(t_c)).value();
}
// On the one water, as in drinks, but beyond their range too.
double ethanol(double p, double t_c) {
  return ethanol_of_source(p, t_c) - ethanol_of_source(0, t_c) + water(t_c);
}
// Stated as the same from 1 % on, so that it can be asked beyond the range of drinks.
double ethanol_u(double p) {
  return physics::density_model_uncertainty(
      {ExtractFraction{0}, EthanolFraction{std::min(p, 0.01)}});
}

void add_water(Comparisons& all) {
  // Both formulas state 1e-6, 0.001 kg/m³ each.
  constexpr double both = 0.002;
  Comparison c{"water by [iapws95], 0 °C to 40 °C", kg_m3, "{:.4f}"};
  for (const Row& r : rows_of("water-density")) {
    if (r.empty("rho_tanaka2001_kg_m3")) continue;
    const auto printed = r["rho_iapws95_kg_m3"];
    c.add(r, "iapws95", water(r.number("t_c")), printed.value, printed.half_digit + both);
  }
  all["water-iapws95"] = std::move(c);
}

struct Part {
  double above, to;  // percent by mass
  std::string what;
};

// `column`, a density in units of `unit_kg_m3` at t_c, by parts of the table.
void add_sucrose_table(Comparisons& all, const std::string& id, const std::vector<Part>& parts,
                       const std::vector<Row>& rows, std::string_view percent,
                       std::string_view column, double unit_kg_m3, double t_c) {
  for (const Part& part : parts) {
    Comparison c{part.what, kg_m3, "{:.3f}"};
    for (const Row& r : rows) {
      const double w = r.number(percent) / 100;
      if (100 * w <= part.above || 100 * w > part.to) continue;
      const auto printed = r[column];
      c.add(r, column, sucrose(w, t_c), unit_kg_m3 * printed.value,
            unit_kg_m3 * printed.half_digit + k * sucrose_u(w));
    }
    all[id + " " + part.what] = std::move(c);
  }
}

void add_sucrose(Comparisons& all) {
  std::vector<Part> parts{{-1, 40, "to 40 %"}, {-1, 60, "to 60 %"}, {-1, 10, "0 to 10"}};
  for (int from = 10; from < 80; from += 10)
    parts.push_back(
        {from + 0.0, from + 10.0, std::to_string(from) + " to " + std::to_string(from + 10)});
  parts.push_back({80, 85, "80 to 85"});
  add_sucrose_table(all, "sucrose-nbsc440", parts, rows_of("sucrose-density-20c"), "brix",
                    "rho_true_kg_m3", 1, 20);
  add_sucrose_table(all, "sucrose",
                    {{-1, 42, "[crc102], 20 °C, to 42 %"},
                     {42, 60, "[crc102], 44 % to 60 %"},
                     {60, 85, "[crc102], 70 % to 84 %, which it extrapolates"}},
                    rows_of("sucrose-crc-20c"), "mass_percent", "density_g_cm3", 1000, 20);
  constexpr double water_4_c = 0.999972;  // kg/L; the table is relative to it, in thousandths
  const auto plato = rows_of("sucrose-density-15c-20c-published");
  add_sucrose_table(all, "sucrose", {{-1, 40, "[umk-torun], 15 °C, to 37 %"}}, plato,
                    "mass_percent", "d15_4_x1000", water_4_c, 15);
  add_sucrose_table(all, "sucrose", {{-1, 40, "[umk-torun], 20 °C, to 37 %"}}, plato,
                    "mass_percent", "d20_4_x1000", water_4_c, 20);
}

// Extract in g/L that a gravity stands for. The table is printed to 0.1, its first row as 0.
void add_wine_extract(Comparisons& all) {
  constexpr double half_digit = 0.05;
  Comparison c{"[gost51620], 20 °C, to 203 g/L of extract", "g/L", "{:.2f}"};
  const auto extract = [](Density rho) {
    return physics::mark_from_density(physics::sugar_g_l_20, rho);
  };
  for (const Row& r : rows_of("wine-extract-gost51620")) {
    const Density rho =
        physics::density_from_mark(physics::sg_20_20, r.number("rel_density_20_20"));
    const double u = sucrose_u(physics::extract_from_density(rho, celsius_point(20)).value());
    c.add(r, "extract_g_l", extract(rho), r.number("extract_g_l"),
          half_digit + k * (extract(rho + kg_per_m3(u)) - extract(rho)));
  }
  all["extract-gost51620"] = std::move(c);
}

void add_1913(Comparisons& all) {
  constexpr double water_4_c = 999.972;  // kg/m³ per unit of density relative to water at 4 °C
  constexpr double water_u = 0.001;      // of [tanaka2001]
  Comparison low{"[osborne1913], 10 °C to 30 °C, to 25 % by mass", kg_m3, "{:.3f}"};
  Comparison full{"the same, 0 % to 100 %", kg_m3, "{:.3f}"};
  for (const Row& r : rows_of("ethanol-density"))
    for (const int t_c : {10, 20, 25, 30}) {
      const std::string column = "d" + std::to_string(t_c);
      if (r.empty(column)) continue;
      const double p = r.number("mass_percent") / 100;
      const auto printed = r[column];
      const double bound = water_4_c * printed.half_digit + k * std::hypot(ethanol_u(p), water_u);
      full.add(r, column, ethanol(p, t_c), water_4_c * printed.value, bound);
      if (p <= 0.25) low.differences.push_back(full.differences.back());
    }
  all["ethanol-osborne1913-low"] = std::move(low);
  all["ethanol-osborne1913"] = std::move(full);
}

// The volumes of this table are those at 60 °F, so areo's strength at 20 °C does not apply.
void add_usp(Comparisons& all) {
  constexpr double t_c = sixty_fahrenheit_c;
  constexpr double air = 1.2;  // kg/m³
  // Printed to 0.01, and computed from a table that was rounded to 0.01 as well: half a digit
  // twice.
  constexpr double strength_digits = 0.01;
  const auto volume_percent = [](double p) { return 100 * p * ethanol(p, t_c) / ethanol(1, t_c); };
  // Two densities make a strength by volume.
  const auto relative_u = [](double p) { return std::sqrt(2) * ethanol_u(p) / ethanol(p, t_c); };
  Comparison mass{"[usp29], % by mass from % by volume", "% by mass", "{:.4f}"};
  Comparison volume{"[usp29], % by volume from % by mass", "% vol", "{:.4f}"};
  Comparison gravity{"[usp29], gravity in air", "", "{:.6f}"};
  for (const Row& r : rows_of("ethanol-alcoholometric-usp")) {
    double p = r.number("mass_percent") / 100;
    if (r.text("entry") == "vol") {
      const double q = r.number("volume_percent");
      const double exact =
          numeric::find_root([&](double x) { return volume_percent(x) - q; }, 0, 1, 1e-12,
                             {"ethanol mass fraction", "strength", q, "% vol", ""});
      mass.add(r, "mass_percent", 100 * exact, 100 * p,
               strength_digits + k * 100 * exact * relative_u(exact));
      p = exact;
    } else {
      const double q = volume_percent(p);
      volume.add(r, "volume_percent", q, r.number("volume_percent"),
                 strength_digits + k * q * relative_u(p));
    }
    for (const auto& [column, t] : {std::pair{"sg25", 25.0}, {"sg15", t_c}}) {
      const double water = ethanol(0, t) - air;
      const auto printed = r[column];
      gravity.add(r, column, (ethanol(p, t) - air) / water, printed.value,
                  printed.half_digit + k * ethanol_u(p) / water);
    }
  }
  all["ethanol-usp29-mass"] = std::move(mass);
  all["ethanol-usp29-volume"] = std::move(volume);
  all["ethanol-usp29-gravity"] = std::move(gravity);
}

// Strength by mass of a distillate, from its gravity. The table is in steps of 0.005 %.
void add_distillate(Comparisons& all) {
  constexpr double half_step = 0.0025;
  const auto drink = [](double p) {
    return physics::density({ExtractFraction{0}, EthanolFraction{p}}, celsius_point(20)).value();
  };
  Comparison c{"[gost12787], 20 °C, to 3 % by mass", "% by mass", "{:.3f}"};
  for (const Row& r : rows_of("distillate-alcohol-gost12787")) {
    const double rho =
        physics::density_from_mark(physics::sg_20_20, r.number("rel_density_20_20")).value();
    const double p = numeric::find_root([&](double x) { return drink(x) - rho; }, -0.01, 0.1, 1e-12,
                                        {"ethanol mass fraction", "density", rho, "kg/m³", ""});
    const double kg_m3_per_percent = drink(p) - drink(p + 0.01);
    c.add(r, "alcohol_mass_pct", 100 * p, r.number("alcohol_mass_pct"),
          half_step + k * ethanol_u(std::max(p, 0.0)) / kg_m3_per_percent);
  }
  all["distillate-gost12787"] = std::move(c);
}

void add_salt(Comparisons& all) {
  Comparison low{"[crc102], 20 °C, to 10 %", kg_m3, "{:.3f}"};
  Comparison full{"the same, to 26 %", kg_m3, "{:.3f}"};
  for (const Row& r : rows_of("nacl-density")) {
    const SaltFraction w{r.number("mass_percent") / 100};
    const auto printed = r["density_g_cm3"];
    full.add(r, "density", physics::salt_density(w, celsius_point(20)).value(),
             1000 * printed.value,
             1000 * printed.half_digit + k * physics::salt_density_uncertainty(w));
    if (w.value() <= 0.10) low.differences.push_back(full.differences.back());
  }
  all["salt-crc102-low"] = std::move(low);
  all["salt-crc102"] = std::move(full);
}

// A cell of this table, which is from memory, is good to 0.02 Brix between 10 °C and 30 °C, as its
// note says. An expansion is a parabola in temperature, and so is what is wrong with one: beyond
// that range 0.02 Brix grow with the square of the distance from 20 °C.
double brix_table_bound(double t_c, double reading, double half_digit) {
  constexpr double cell_brix = 0.02, cell_to_c = 10;
  constexpr double sugar_per_c = 0.00002;          // of what the sugar adds, see models.md
  const double glass_per_c = 2e-6 / std::sqrt(3);  // ± 2e-6, rectangular
  const double away = std::abs(t_c - 20), w = reading / 100;
  const double brix_per_kg_m3 = 1 / (sucrose(w + 0.01, 20) - sucrose(w, 20));
  const double u = std::hypot(physics::detail::sucrose_increment(20).at(w) * sugar_per_c * away,
                              sucrose(w, 20) * glass_per_c * away) *
                   brix_per_kg_m3;
  return half_digit + cell_brix * std::max(1.0, std::pow(away / cell_to_c, 2)) + k * u;
}

void add_brix_hydrometer(Comparisons& all) {
  instruments::Hydrometer stem;
  stem.scale = physics::brix_20;
  const auto correction = [&](double reading, double t_c) {
    const Temperature t = celsius_point(t_c);
    const Density rho = instruments::density_from_indication(stem, reading, t);
    return 100 * physics::extract_from_density(rho, t).value() - reading;
  };
  struct At {
    double from_c, to_c;
    const char* what;
  };
  for (const auto& [from_c, to_c, what] : {At{10, 30, "10 °C to 30 °C"},
                                           {35, 40, "40 °C"},
                                           {5, 9, "5 °C"},
                                           {0, 4, "0 °C"},
                                           {45, 60, "45 °C to 60 °C"}}) {
    Comparison c{what, "Brix", "{:.3f}"};
    for (const Row& r : rows_of("brix-hydrometer-temperature-correction")) {
      const double t_c = r.number("t_c");
      if (t_c < from_c || t_c > to_c || !physics::mixture_temperature_range.contains(t_c)) continue;
      for (const int reading : {0, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 70}) {
        const std::string column = "c" + std::to_string(reading);
        const auto printed = r[column];
        c.add(r, column, correction(reading, t_c), printed.value,
              brix_table_bound(t_c, reading, printed.half_digit));
      }
    }
    if (!c.differences.empty()) all[std::string{"brix-hydrometer "} + what] = std::move(c);
  }
}

// The waters of the sources on the one water; nothing printed, so no bound but the stated one.
void add_one_water(Comparisons& all) {
  constexpr double stated_kg_m3 = 0.0075;
  Comparison c{"own water of [sps4] and of [oimlr22], 0 °C to 40 °C", kg_m3, "{:.4f}"};
  for (int i = 0; i <= 400; ++i) {
    const double t_c = i / 10.0;
    const double of_sugar =
        physics::sucrose_density(ExtractFraction{0}, celsius_point(t_c)).value();
    for (const double other : {of_sugar, ethanol_of_source(0, t_c)})
      c.differences.push_back({std::to_string(t_c) + " °C", water(t_c) - other, stated_kg_m3});
  }
  all["one-water"] = std::move(c);
}

}  // namespace

void add_densities(Comparisons& all) {
  add_water(all);
  add_one_water(all);
  add_sucrose(all);
  add_wine_extract(all);
  add_1913(all);
  add_usp(all);
  add_distillate(all);
  add_salt(all);
  add_brix_hydrometer(all);
}

}  // namespace areo::published
