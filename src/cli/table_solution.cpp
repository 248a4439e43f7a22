// areo table solution: what to weigh in for a reference liquid, and what it shows.
#include <fmt/format.h>

#include <memory>

#include "areo/core/error.hpp"
#include "areo/measurement/solution.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/text/format.hpp"
#include "areo/text/json.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/result_json.hpp"
#include "table.hpp"
#include "table_axis.hpp"

namespace areo::cli {
namespace {

using calibration::WeighedSolution;

// Of a specific gravity; of other scales a usual division.
constexpr const char* gravity_step = "0.005";

struct Options {
  std::string kind, from = "1.005", to = "1.100", step, total = "500g", balance = "1g";
  SheetOptions sheet;
};

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

int run_table(const Options& o, const Session& session) {
  const MarkAxis side = mark_axis(o.from, o.to, o.step, std::nullopt, gravity_step);
  const bool sugar = o.kind == "sugar";
  const double total = text::grams_from_text(o.total), balance = text::grams_from_text(o.balance);
  const int balance_decimals = text::decimals_of_step(balance);
  const auto row = std::make_shared<Row>(side.scale, sugar, total, balance);
  Grid g;
  g.title = fmt::format("What to weigh in for a solution of {}", o.kind);
  g.lines = {
      fmt::format("{:g} g in all, on a balance that shows {:g} g; at 20 °C", total, balance)};
  g.rows = side.axis;
  g.rows.key = "target_" + g.rows.key;
  g.quantities = {{o.kind + "_g", o.kind, "g", balance_decimals},
                  {"water_g", "water", "g", balance_decimals},
                  {"mass_percent", "mass fraction", "% mass", 2},
                  {"density_at_t_kg_m3", "density at 20 °C", "kg/m³", 2},
                  {"sg_20_20", "shows SG 20/20 °C", "", 4}};
  if (sugar) g.quantities.push_back({"brix_shown", "shows on a refractometer", "Brix", 2});
  g.smooth = false;  // masses go in steps
  g.doubt = fmt::format("masses to the balance; the rest of masses, purity of the {} and formulas",
                        o.kind);
  g.notes = {"stir until clear, let it reach room temperature, then read"};
  g.models = {sugar ? of_sugar : "salt solutions: Laliberté [laliberte2009]"};
  if (sugar) g.models.emplace_back(of_index);
  g.cells = [row](double mark, double) { return row->cells(mark); };
  g.json = [=](double mark, double) {
    const WeighedSolution w = row->masses(mark);
    return std::optional{
        wording::json_line(row->shows(mark), {{"target", fmt::format("{}", mark)},
                                              {"solute", text::json_string(o.kind)},
                                              {"solute_g", fmt::format("{}", w.solute_g)},
                                              {"water_g", fmt::format("{}", w.water_g)}})};
  };
  return write_grid(g, o.sheet, session);
}

}  // namespace

void setup_table_solution(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto t = tables.add_subcommand("solution", "what to weigh in for reference liquids");
  t.add_option("kind", o->kind, "sugar or salt").required().one_of({"sugar", "salt"});
  t.add_option("--from", o->from, "first target, on any scale; 1.005 unless stated")
      .type_name("READING");
  t.add_option("--to", o->to, "last target; 1.100 unless stated").type_name("READING");
  t.add_option("--step", o->step, "between targets; 0.005 or a usual division unless stated")
      .type_name("0.005");
  t.add_option("--total", o->total, "mass of the solution; 500g unless stated").type_name("500g");
  t.add_option("--balance", o->balance, "division of the balance; 1g unless stated")
      .type_name("0.1g");
  add_sheet_options(t, o->sheet);
  t.footer(
      "Examples:\n  areo table solution sugar --total 250g --balance 0.1g\n"
      "  areo table solution salt --to 1.060 --out salt.pdf");
  t.callback([=, &session, &run] {
    check_sheet_options(o->sheet, session);
    run = [=, &session] { return run_table(*o, session); };
  });
}

}  // namespace areo::cli
