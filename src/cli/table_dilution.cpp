// areo table dilution: water that brings a liquid down, or sugar that brings it up.
#include <fmt/format.h>

#include <memory>

#include "areo/core/error.hpp"
#include "areo/measurement/dilution.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/wording/result_json.hpp"
#include "table.hpp"
#include "table_axis.hpp"

namespace areo::cli {
namespace {

// Of a specific gravity; of other scales a usual division.
constexpr const char* gravity_step = "0.005";

struct Options {
  std::string from = "1.040", to = "1.100", step, wanted = "1.030,1.040,1.050,1.060,1.070,1.080",
              add = "water";
  SheetOptions sheet;
};

int run_table(const Options& o, const Session& session) {
  const MarkAxis side = mark_axis(o.from, o.to, o.step, std::nullopt, gravity_step);
  const MarkAxis top = listed_marks(o.wanted);
  if (side.scale != top.scale)
    throw Error{Errc::inconsistent,
                fmt::format("the rows are in {} and the columns in {}",
                            physics::scale_name(side.scale), physics::scale_name(top.scale)),
                "write both on one scale"};
  const bool water = o.add == "water";
  Grid g;
  g.title = water ? "Water that brings a litre down" : "Sugar that brings a litre up";
  g.lines = {
      fmt::format("grams of {0} to each litre of an unfermented sugar liquid, measured at 20 "
                  "°C; - = {1} cannot bring it there",
                  water ? "water" : "white sugar", o.add)};
  g.rows = side.axis;
  g.rows.key = "is_" + g.rows.key;
  g.rows.name = "is";
  g.columns = top.axis;
  g.columns->key = "wanted_" + g.columns->key;
  g.columns->name = g.columns->before = "wanted";
  g.quantities = {{water ? "water_g_per_l" : "sugar_g_per_l", o.add, "g/L", 0}};
  g.doubt = fmt::format("of the formulas{}; the readings and the litre bring their own",
                        water ? "" : " and of white sugar, 99.6 % sucrose or more");
  if (water) g.notes = {"a litre of water weighs 998 g at 20 °C"};
  g.notes.emplace_back("stir until it is one liquid, then read it again: the reading decides");
  g.models = {of_sugar};
  const auto result = [=, scale = side.scale](double from,
                                              double to) -> std::optional<measurement::Result> {
    try {
      return water ? measurement::water_to_add(scale, from, to)
                   : measurement::sugar_to_add(scale, from, to);
    } catch (const Error& e) {
      if (e.code == Errc::domain) return std::nullopt;
      throw;
    }
  };
  g.cells = [=](double from, double to) {
    const auto r = result(from, to);
    return std::vector{r ? GridCell{r->quantities.front().value} : GridCell{}};
  };
  g.json = [=](double from, double to) -> std::optional<std::string> {
    const auto r = result(from, to);
    if (!r) return std::nullopt;
    return wording::json_line(*r,
                              {{"is", fmt::format("{}", from)}, {"wanted", fmt::format("{}", to)}});
  };
  return write_grid(g, o.sheet, session);
}

}  // namespace

void setup_table_dilution(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto t = tables.add_subcommand("dilution", "water, or sugar, from one gravity to another");
  t.add_option("--add", o->add, "water or sugar; water unless stated").one_of({"water", "sugar"});
  t.add_option("--from", o->from, "first row, what it is; 1.040 unless stated")
      .type_name("READING");
  t.add_option("--to", o->to, "last row; 1.100 unless stated").type_name("READING");
  t.add_option("--step", o->step, "between rows; 0.005 or a usual division unless stated")
      .type_name("0.005");
  t.add_option("--wanted", o->wanted, "columns, what it is to be; 1.030 to 1.080 unless stated")
      .type_name("1.040,1.050,...");
  add_sheet_options(t, o->sheet);
  t.footer(
      "Examples:\n  areo table dilution --from 1.060 --to 1.090 --wanted 1.045,1.050\n"
      "  areo table dilution --add sugar --from 6P --to 12P --step 1 --wanted 10P,12P");
  t.callback([=, &session, &run] {
    check_sheet_options(o->sheet, session);
    run = [=, &session] { return run_table(*o, session); };
  });
}

}  // namespace areo::cli
