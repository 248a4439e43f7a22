// SPDX-License-Identifier: GPL-3.0-or-later
// areo table solution: what to weigh in for a reference liquid, and what it shows.
#include <memory>
#include <string>

#include "areo/paper/tables.hpp"
#include "areo/text/parse.hpp"
#include "sheet.hpp"
#include "table.hpp"

namespace areo::cli {
namespace {

struct Options {
  paper::SolutionTable table;
  std::string kind, total = "500g", balance = "1g";
  SheetOptions sheet;
};

int run_table(const Options& o, const Session& session) {
  paper::SolutionTable t = o.table;
  t.solute =
      o.kind == "sugar" ? calibration::Solute::sucrose : calibration::Solute::sodium_chloride;
  t.total_g = text::grams_from_text(o.total);
  t.balance_division_g = text::grams_from_text(o.balance);
  return write_grid(paper::solution_table(t), o.sheet, session);
}

}  // namespace

void setup_table_solution(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto t = tables.add_subcommand("solution", "what to weigh in for reference liquids");
  t.add_option("kind", o->kind, "sugar or salt").required().one_of({"sugar", "salt"});
  t.add_option("--from", o->table.from, "first target, on any scale; 1.005 unless stated")
      .type_name("READING");
  t.add_option("--to", o->table.to, "last target; 1.100 unless stated").type_name("READING");
  t.add_option("--step", o->table.step, "between targets; 0.005 or a usual division unless stated")
      .type_name("0.005");
  t.add_option("--total", o->total, "mass of the solution; 500g unless stated").mass("500g");
  t.add_option("--balance", o->balance, "division of the balance; 1g unless stated").mass("0.1g");
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
