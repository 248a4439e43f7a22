// SPDX-License-Identifier: GPL-3.0-or-later
// What to weigh in for a reference liquid, and what it shows.
#include <fmt/format.h>

#include <memory>

#include "areo/core/error.hpp"
#include "areo/measurement/solution.hpp"
#include "areo/paper/tables.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/text/format.hpp"
#include "table_axis.hpp"
#include "wording/result_value.hpp"

namespace areo::paper {
namespace {

using calibration::WeighedSolution;

// Of a specific gravity; of other scales a usual division.
constexpr const char* gravity_step = "0.005";

// At 20 °C exactly: the liquid, not its temperature, is what the table is about.
instruments::TemperatureReading at_20_c() {
  instruments::TemperatureReading t;
  t.indication_c = 20;
  t.half_width_c = 1e-6;
  return t;
}

class Row {
 public:
  Row(const physics::Scale& scale, bool sugar, double total_g, double balance_g)
      : scale_{scale},
        kind_{sugar ? calibration::sugar_solution(1, 1, balance_g)
                    : calibration::salt_solution(1, 1, balance_g)},
        total_g_{total_g} {
    if (sugar)
      prism_.push_back(instruments::ordinary_refractometer(instruments::RefractometerScale::brix));
    if (sugar) prism_.back().name.clear();
  }
  [[nodiscard]] WeighedSolution masses(double mark) const {
    WeighedSolution w = calibration::weigh_in(
        kind_, total_g_, physics::density_from_mark(scale_, mark), scale_.reference());
    // What the balance can show; all else is what these masses make.
    w = calibration::to_balance(w);
    if (!(w.solute_g > 0))
      throw Error{
          Errc::inconsistent,
          fmt::format("for {:g} on {} that is less than one division of the balance ({:g} g)", mark,
                      physics::scale_name(scale_), kind_.balance_division_g),
          "begin higher with --from, make more with --total, or state a finer balance with "
          "--balance 0.1g"};
    return w;
  }
  [[nodiscard]] measurement::Result shows(double mark) const {
    return measurement::describe_solution(masses(mark), at_20_c(), {}, prism_);
  }
  [[nodiscard]] std::vector<GridCell> cells(double mark) const {
    const WeighedSolution w = masses(mark);
    const measurement::Result r = shows(mark);
    std::vector<GridCell> all{{weighed(w.solute_g)}, {weighed(w.water_g)}};
    for (const measurement::Quantity& q : r.quantities) all.push_back({q.value});
    return all;
  }

 private:
  [[nodiscard]] uncertainty::Value weighed(double grams) const {
    return {grams, calibration::mass_uncertainty_g(kind_)};
  }
  physics::Scale scale_;
  WeighedSolution kind_;
  double total_g_;
  std::vector<instruments::Refractometer> prism_;
};

}  // namespace

Grid solution_table(const SolutionTable& t) {
  const MarkAxis side = mark_axis(t.from, t.to, t.step, std::nullopt, gravity_step);
  const bool sugar = t.solute == calibration::Solute::sucrose;
  const std::string solute = sugar ? "sugar" : "salt";
  const int balance_decimals = text::decimals_of_step(t.balance_division_g);
  const auto row = std::make_shared<Row>(side.scale, sugar, t.total_g, t.balance_division_g);
  Grid g;
  g.title = fmt::format("What to weigh in for a solution of {}", solute);
  g.lines = {fmt::format("{:g} g in all, on a balance that shows {:g} g; at 20 °C", t.total_g,
                         t.balance_division_g)};
  g.rows = side.axis;
  g.rows.key = "target_" + g.rows.key;
  g.quantities = {{solute + "_g", solute, "g", balance_decimals},
                  {"water_g", "water", "g", balance_decimals},
                  {"mass_percent", "mass fraction", "% mass", 2},
                  {"density_at_t_kg_m3", "density at 20 °C", "kg/m³", 2},
                  {"sg_20_20", "shows SG 20/20 °C", "", 4}};
  if (sugar) g.quantities.push_back({"brix_shown", "shows on a refractometer", "Brix", 2});
  g.smooth = false;  // masses go in steps
  g.doubt = fmt::format("masses to the balance; the rest of masses, purity of the {} and formulas",
                        solute);
  g.notes = {"stir until clear, let it reach room temperature, then read"};
  g.models = {sugar ? of_sugar : "salt solutions: Laliberté [laliberte2009]"};
  if (sugar) g.models.emplace_back(of_index);
  g.cells = [row](double mark, double) { return row->cells(mark); };
  g.json = [=](double mark, double) {
    text::Json head{{"target", text::number_json(mark)}};
    wording::add_weighed(head, row->masses(mark));
    return std::optional{wording::json_line(row->shows(mark), std::move(head))};
  };
  return g;
}

}  // namespace areo::paper
