// SPDX-License-Identifier: GPL-3.0-or-later
// Refractive indices and Brix refractometers away from 20 °C, against tables/.
#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "agreement.hpp"
#include "areo/core/error.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/physics/density_and_index.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale.hpp"
#include "areo/physics/water.hpp"

namespace areo::published {
namespace {

using physics::ExtractOptics;
using physics::Liquid;

constexpr double k = standard_uncertainties;
// Indices are compared in millionths.
const char* const millionths = "· 1e-6";
constexpr double per_millionth = 1e6;

double water(double t_c) { return physics::water_refractive_index(celsius_point(t_c)).value(); }
double sugar_20(double w) {
  return physics::sucrose_refractive_index_20(ExtractFraction{w}).value();
}
double drink(const Liquid& liquid, double t_c,
             const ExtractOptics& optics = physics::sucrose_optics) {
  return physics::refractive_index(liquid, celsius_point(t_c), optics).value();
}
double index_u(const Liquid& liquid, double t_c) {
  return physics::refractive_index_model_uncertainty(liquid, celsius_point(t_c));
}

void add_index(Comparison& c, const Row& r, std::string_view column, double areo, double printed,
               double bound) {
  c.add(r, column, per_millionth * areo, per_millionth * printed, per_millionth * bound);
}

// Against vacuum as printed: air of 20 °C, as the note of the table has it.
void add_water_index(Comparisons& all) {
  constexpr double air_20_c = 1.00027175;
  Comparison whole{"water by [iapws-r9-97], 0 °C to 60 °C", millionths, "{:.1f}"};
  Comparison middle{"the same, 10 °C to 30 °C", millionths, "{:.1f}"};
  for (const Row& r : rows_of("water-refractive-index")) {
    const double t_c = r.number("t_c");
    const auto printed = r["n_vacuum"];
    add_index(whole, r, "n_vacuum", water(t_c), printed.value / air_20_c,
              printed.half_digit + k * index_u({}, 20));
    if (t_c >= 10 && t_c <= 30) middle.differences.push_back(whole.differences.back());
  }
  all["index-water"] = std::move(whole);
  all["index-water-middle"] = std::move(middle);
}

// The handbook is printed to 1e-4, and follows a scale whose own last digit is 1e-5. Above 70 % it
// extrapolates its densities.
void add_sugar_index(Comparisons& all) {
  constexpr double half_digit_of_scale = 0.5e-5;
  Comparison scale{"sucrose by [icumsa1974] (10 % to 30 % as printed, else from memory)",
                   millionths, "{:.1f}"};
  Comparison oiv{"sucrose by [oiv-as2-02], 10 % to 30 %", millionths, "{:.1f}"};
  Comparison handbook{"sucrose by [crc102], to 70 %", millionths, "{:.1f}"};
  const auto add = [](Comparison& c, const Row& r, const char* column, double other) {
    if (r.empty(column)) return;
    const double w = r.number("mass_percent") / 100;
    const auto printed = r[column];
    add_index(c, r, column, sugar_20(w), printed.value,
              printed.half_digit + other + k * index_u({ExtractFraction{std::min(w, 0.75)}}, 20));
  };
  for (const Row& r : rows_of("sucrose-refractive-index-20c")) {
    add(scale, r, "n20d_icumsa", 0);
    add(oiv, r, "n20d_oiv", 0);
    if (r.number("mass_percent") <= 70) add(handbook, r, "n20d_crc", half_digit_of_scale);
  }
  for (const Row& r : rows_of("sucrose-crc-20c"))
    if (r.number("mass_percent") <= 70) add(handbook, r, "n20d", half_digit_of_scale);
  all["index-icumsa1974"] = std::move(scale);
  all["index-oiv"] = std::move(oiv);
  all["index-crc102"] = std::move(handbook);
}

void add_ethanol_index(Comparisons& all) {
  Comparison c{"index of ethanol by [crc102], to 16 % by mass, 20 °C", millionths, "{:.1f}"};
  for (const Row& r : rows_of("ethanol-refractive-index")) {
    const Liquid liquid{ExtractFraction{0}, EthanolFraction{r.number("mass_percent") / 100}};
    if (liquid.ethanol.value() > 0.16) continue;
    const auto printed = r["n20d"];
    add_index(c, r, "n20d", drink(liquid, 20), printed.value,
              printed.half_digit + k * index_u(liquid, 20));
  }
  all["index-ethanol"] = std::move(c);
}

// Rows below 10 °C are irregular in print and outside the range of the model.
void add_corrections(Comparisons& all) {
  const auto add = [](Comparison& c, const Row& r) {
    const Temperature t = celsius_point(r.number("t_c"));
    if (!physics::index_temperature_range.contains(t.celsius())) return;
    for (int shown = 0; shown <= 75; shown += 5) {
      const std::string column = "c" + std::to_string(shown);
      const auto& columns = r.table->columns;
      if (std::find(columns.begin(), columns.end(), column) == columns.end() || r.empty(column))
        continue;
      const double correction =
          100 * physics::extract_from_brix_shown(Brix{shown + 0.0}, t).value() - shown;
      c.add(r, column, correction, r[column].value, brix_correction_bound(r, column, shown));
    }
  };
  Comparison old{"corrections of [itct1936], 10 °C to 30 °C, 0 % to 70 %", "Brix", "{:.3f}"};
  for (const Row& r : rows_of("sucrose-refractometer-temperature-correction")) add(old, r);
  Comparison oiv{"corrections of [oiv-as2-02], 10 °C to 17 °C, 10 % to 75 %", "Brix", "{:.3f}"};
  for (const Row& r : rows_of("sucrose-refractometer-temperature-correction-oiv")) add(oiv, r);
  all["brix-correction-1936"] = std::move(old);
  all["brix-correction-oiv"] = std::move(oiv);
}

Density density_20(const Row& r) { return kg_per_m3(1000 * r.number("density_g_cm3")); }

}  // namespace

// Two official tables of one thing differ by up to 0.04 Brix at 10 °C and 0.02 at 15 °C, 0.004 for
// each °C from 20 °C; half of it is what one of them may be off.
double brix_correction_bound(const Row& row, std::string_view column, double shown) {
  constexpr double tables_brix_per_c = 0.002;
  const double t_c = row.number("t_c"), w = std::min(shown / 100, 0.75);
  const double brix_per_index = 1 / (sugar_20(w + 0.01) - sugar_20(w));  // 1 % is 1 Brix
  return row[column].half_digit + tables_brix_per_c * std::abs(t_c - 20) +
         k * index_u({ExtractFraction{w}}, t_c) * brix_per_index;
}

double barth_finds_too_little(double ethanol, double extract, const ExtractOptics& optics) {
  const Liquid beer{ExtractFraction{extract}, EthanolFraction{ethanol}};
  const double gravity =
      (physics::density(beer, celsius_point(20)) / physics::water_density(celsius_point(20)))
          .value();
  const double barth = 759.8 * (drink(beer, 20, optics) - water(20)) - 292.3 * (gravity - 1);
  return 100 * ethanol - barth;
}

FermentLine ferment_line(Plato original) {
  const ExtractFraction wort = extract_fraction(original);
  const double most = ferment::ethanol_from_extracts(wort, ExtractFraction{0}).value();
  std::vector<std::pair<double, double>> points;
  double xy = 0, xx = 0;
  for (int i = 0; i <= 95; ++i) {
    const Liquid beer = ferment::fermented(wort, EthanolFraction{most * i / 100});
    const double x = physics::ideal_brix_shown(beer, celsius_point(20)).value() - original.value();
    const double y = ferment::apparent_extract(beer).value() - original.value();
    points.emplace_back(x, y);
    xy += x * y;
    xx += x * x;
  }
  FermentLine line{xy / xx, 0};
  for (const auto& [x, y] : points) line.bend = std::max(line.bend, std::abs(y - line.slope * x));
  return line;
}

Rise rise(const Row& solute) {
  constexpr double crc_water = 1.3330;
  const double w = physics::extract_from_density(density_20(solute), celsius_point(20)).value();
  return {solute.number("n20d") - crc_water, sugar_20(w) - sugar_20(0)};
}

// 18 % vol to 21 % vol in steps of 0.25, 1 °Bé to 5 °Bé in steps of 0.5. The equation has the
// reading of a Brix refractometer, so that follows from strength and Baumé; the model is asked by
// both readings. The source does not name the scale: taken is Baumé of 15 °C.
std::vector<Port> ports() {
  constexpr double per_brix = 1.646, per_baume = 2.703, constant = 1.794;
  constexpr double half_digit = 0.0005;
  const physics::Scale scale = physics::baume_scale<Modulus144_3>();
  const Temperature t_baume = scale.reference(), t = celsius_point(20);
  std::vector<Port> asked;
  for (int i = 0; i <= 12; ++i)
    for (int j = 0; j <= 8; ++j) {
      Port p{1 + 0.5 * j, 18 + 0.25 * i, 0, std::nullopt, 0};
      const Density rho = physics::density_from_mark(scale, p.baume);
      const Brix shown{(p.equation_percent_vol + per_baume * p.baume + constant) / per_brix};
      const double n = physics::index_from_brix_shown(shown).value();
      // 1 % vol is 7.89239 g/L.
      p.ethanol = 7.89239 * p.equation_percent_vol / rho.value();
      const auto strength = [&](double more_density, double more_index) {
        return ferment::strength_by_volume(
                   physics::liquid_from_density_and_index(rho + kg_per_m3(more_density), t_baume,
                                                          RefractiveIndex{n + more_index}, t))
            .value();
      };
      try {
        const Liquid wine =
            physics::liquid_from_density_and_index(rho, t_baume, RefractiveIndex{n}, t);
        const double vol = strength(0, 0);
        // What the models leave open: each moved by its standard uncertainty, towards less alcohol.
        const double u = std::hypot(vol - strength(physics::density_model_uncertainty(wine), 0),
                                    vol - strength(0, -index_u(wine, 20)));
        p.model_percent_vol = vol;
        p.bound = half_digit * (shown.value() + p.baume + 1) + k * u;
      } catch (const Error&) {
        p.model_percent_vol.reset();
      }
      asked.push_back(p);
    }
  return asked;
}

void add_optics(Comparisons& all) {
  add_water_index(all);
  add_sugar_index(all);
  add_ethanol_index(all);
  add_corrections(all);
  Comparison c{"port by [rogerson2006]", "% vol", "{:.2f}"};
  for (const Port& p : ports())
    if (p.model_percent_vol)
      c.differences.push_back(
          {std::to_string(p.baume) + " °Bé, " + std::to_string(p.equation_percent_vol) + " % vol",
           *p.model_percent_vol - p.equation_percent_vol, p.bound});
  all["port"] = std::move(c);
}

}  // namespace areo::published
