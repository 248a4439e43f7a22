// SPDX-License-Identifier: GPL-3.0-or-later
// areo table log: a blank sheet for what is read at the jar, with boxes for a pen.
#include <fmt/format.h>

#include <limits>
#include <memory>

#include "areo/paper/log_sheet.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"
#include "sheet.hpp"
#include "table.hpp"

namespace areo::cli {
namespace {

constexpr std::int64_t fill_the_sheet = std::numeric_limits<std::int64_t>::min();

struct Options {
  std::string batch;
  std::int64_t rows = fill_the_sheet;
  SheetOptions sheet;
};

constexpr std::int64_t most_rows = 1000;

document::Headline headline_of(const Options& o, const Session& session) {
  if (o.batch.empty()) return paper::blank_log_headline();
  return paper::log_headline(open_notebook(session, notebook::Open::read), o.batch, now());
}

int run_log(const Options& o, const Session& session) {
  const document::SheetHead head =
      paper::log_head(headline_of(o, session), o.batch, shape_of(o.sheet));
  const auto cells =
      format_of(o.sheet) == PrintFormat::text ? paper::Cells::lines : paper::Cells::empty;
  constexpr std::int64_t usual_rows = 15;
  auto rows = static_cast<std::size_t>(o.rows > 0 ? o.rows : usual_rows);
  OneSheet one_sheet;
  if (o.rows == fill_the_sheet) {
    constexpr std::size_t fewest = 4, most = 20;
    one_sheet = {most - fewest + 1,
                 [&](document::SheetHead&, std::size_t more) { rows = fewest + more; }};
  }
  write_sheet(
      o.sheet, session, head, rows * head.columns.size(),
      [&](document::SheetWriter& out) { paper::write_log(head, rows, cells, out); }, one_sheet);
  return done;
}

}  // namespace

void setup_table_log(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto t = tables.add_subcommand("log", "a blank sheet for readings, to fill in with a pen");
  t.add_option("--batch", o->batch, "batch in the notebook that it is for; blanks unless stated")
      .type_name("NAME");
  t.add_option("--rows", o->rows,
               "how many; unless stated, as many as fill a sheet of PDF, 15 otherwise")
      .type_name("N");
  add_sheet_options(t, o->sheet);
  t.footer(
      "Examples:\n  areo table log --out log.pdf\n"
      "  areo table log --batch PT-1 --paper Letter --out pt-1-log.pdf\n"
      "  areo table log --csv > log.csv");
  t.callback([=, &session, &run] {
    check_sheet_options(o->sheet, session);
    if (session.json)
      throw UsageError{"a blank sheet has nothing for programs",
                       "--csv makes one that areo import takes back"};
    if (o->rows != fill_the_sheet && (o->rows < 1 || o->rows > most_rows))
      throw UsageError{fmt::format("a sheet has 1 to {} rows", most_rows), "say --rows 20"};
    run = [=, &session] { return run_log(*o, session); };
  });
}

}  // namespace areo::cli
