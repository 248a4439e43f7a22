// SPDX-License-Identifier: GPL-3.0-or-later
// Boiling point of water by two equations, over the whole range and at the rows of tables/.
#include <cmath>
#include <utility>

#include "agreement.hpp"
#include "areo/numeric/root.hpp"
#include "areo/physics/boiling.hpp"

namespace areo::published {
namespace {

// [wagner1993]: ln(p/pc) = Tc/T (a1 x + a2 x^1.5 + a3 x^3 + a4 x^3.5 + a5 x^4 + a6 x^7.5) with
// x = 1 - T/Tc. Digits from memory; every row of the table repeats it.
double wagner_pressure_pa(double t_c) {
  constexpr double critical_k = 647.096, critical_pa = 22.064e6;
  const double t_k = celsius_point(t_c).in<KelvinUnit>();
  const double x = 1 - t_k / critical_k;
  return critical_pa * std::exp(critical_k / t_k *
                                (-7.85951783 * x + 1.84408259 * std::pow(x, 1.5) -
                                 11.7866497 * std::pow(x, 3) + 22.6807411 * std::pow(x, 3.5) -
                                 15.9618719 * std::pow(x, 4) + 1.80122502 * std::pow(x, 7.5)));
}

}  // namespace

double wagner_boiling_point_c(double pa) {
  return numeric::find_root([&](double t_c) { return wagner_pressure_pa(t_c) - pa; }, 50, 150, 1e-9,
                            {"boiling point", "pressure", pa, "Pa", ""});
}

void add_boiling(Comparisons& all) {
  constexpr double stated_c = 0.001;  // of physics::boiling_point()
  Comparison c{"boiling point by [wagner1993], 50 kPa to 110 kPa, each 0.1 kPa", "°C", "{:.5f}"};
  for (int i = 500; i <= 1100; ++i) {
    const double pa = 100.0 * i;
    c.differences.push_back(
        {std::to_string(pa) + " Pa",
         physics::boiling_point(pascals(pa)).celsius() - wagner_boiling_point_c(pa), stated_c});
  }
  all["boiling"] = std::move(c);
}

}  // namespace areo::published
