// SPDX-License-Identifier: GPL-3.0-or-later
// areo import: an export, or readings from a table; which of them a file is.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <filesystem>
#include <fstream>
#include <iostream>
#include <memory>

#include "areo/core/error.hpp"
#include "areo/stream/file_kind.hpp"
#include "areo/stream/import_table.hpp"
#include "areo/stream/restore.hpp"
#include "areo/wording/failure.hpp"
#include "column_options.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "insist.hpp"
#include "open_notebook.hpp"
#include "spool.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

namespace fs = std::filesystem;

struct ImportOptions {
  std::string file, map;
  stream::ImportDefaults defaults;
  ColumnOptions columns;
  bool dry_run = false, all_or_nothing = false, yes = false;
};

// It is brought back whole, as it is.
void refuse_options(const ImportOptions& o) {
  const auto& d = o.defaults;
  for (const auto& [given, name] :
       {std::pair{o.dry_run, "--dry-run"}, std::pair{o.yes, "--yes"},
        std::pair{o.all_or_nothing, "--all-or-nothing"}, std::pair{!o.map.empty(), "--map"},
        std::pair{!o.columns.keep.empty(), "--keep"}, std::pair{!o.columns.units.empty(), "--unit"},
        std::pair{!d.batch.empty(), "--batch"}, std::pair{!d.instrument.empty(), "--instrument"},
        std::pair{!d.thermometer.empty(), "--thermometer"}, std::pair{!d.person.empty(), "--by"}})
    if (given)
      throw UsageError{fmt::format("an export is brought back whole: {} does not go with it", name),
                       "to look first, bring it into a new notebook: areo --notebook NEW import "
                       "FILE"};
}

int tell(const std::string& file, const stream::ImportOutcome& o, const Session& session) {
  for (const text::SaidOnce* said : {&o.refused, &o.held_back}) tell_refused(*said, file, session);
  const int code = o.not_noted() > 0 ? said_no : done;
  if (session.json) {
    raw_line(stream::import_outcome_json(o));
    return code;
  }
  lines(stream::import_lines(o));
  if (o.noted > 0) line("next: areo batch list shows what is there now");
  return code;
}

int import_table(std::istream& in, stream::FileKind kind, const ImportOptions& o,
                 const Session& session) {
  notebook::Notebook book = open_notebook(session);
  stream::ImportPlan plan{.file = o.file,
                          .map = o.map,
                          .defaults = o.defaults,
                          .rules = column_rules(o.columns, book.settings()),
                          .date_order = entry::date_order(book.settings()),
                          .dry_run = o.dry_run,
                          .all_or_nothing = o.all_or_nothing,
                          .yes = o.yes};
  if (session.json)
    plan.on_failure = [](const Error& e, std::size_t line) {
      raw_line(wording::failure_json(e, line));
    };
  if (kind == stream::FileKind::table)
    return tell(o.file, stream::import_csv(in, book, plan), session);
  return tell(o.file, stream::import_json(in, kind == stream::FileKind::list, book, plan), session);
}

int tell_restored(const notebook::Restored& r, const Session& session) {
  if (session.json)
    raw_line(stream::restored_json(r));
  else
    line(fmt::format("{} rows brought back, {} were there already", r.added, r.known));
  return done;
}

std::function<notebook::Notebook()> new_notebook(const Session& session) {
  return [&session] { return open_notebook(session, notebook::Open::create); };
}

int import_stream(std::istream& in, const ImportOptions& o, const Session& session) {
  const stream::FileKind kind = stream::kind_of_file(in, o.file);
  if (kind != stream::FileKind::exported) return import_table(in, kind, o, session);
  refuse_options(o);
  return tell_restored(stream::restore_json(in, o.file, new_notebook(session)), session);
}

int run_import(const ImportOptions& o, const Session& session) {
  if (o.file == "-") {
    std::ifstream in = spooled(std::cin);
    return import_stream(in, o, session);
  }
  std::error_code error;
  if (fs::is_directory(o.file, error)) {
    refuse_options(o);
    return tell_restored(stream::restore_csv(o.file, new_notebook(session)), session);
  }
  std::ifstream in{o.file, std::ios::binary};
  if (in && !fs::is_regular_file(o.file, error)) in = spooled(in);
  if (!in)
    throw Error{Errc::file, fmt::format("{} cannot be read", o.file),
                "check the name and its rights"};
  return import_stream(in, o, session);
}

}  // namespace

void setup_import(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<ImportOptions>();
  auto c = app.add_subcommand("import", "readings from a CSV or JSON file, or an export");
  c.add_option("file", o->file,
               "CSV with a header, JSON, an export of areo, or the folder of one; - = standard "
               "input")
      .required()
      .type_name("FILE");
  c.add_option("--map", o->map, "file with lines: their column = reading, P").type_name("FILE");
  add_column_options(c, o->columns, "it goes into the note");
  c.add_option("--batch", o->defaults.batch, "for rows that name none").type_name("NAME");
  c.add_option("--instrument", o->defaults.instrument, "for rows that name none").type_name("NAME");
  c.add_option("--thermometer", o->defaults.thermometer, "for rows that name none")
      .type_name("NAME");
  c.add_option("--by", o->defaults.person, "for rows that name none").type_name("NAME");
  c.add_flag("--dry-run", o->dry_run, "say what would be noted, note nothing");
  c.add_flag("--all-or-nothing", o->all_or_nothing, "one bad row, and nothing is noted");
  add_insist_option(c, o->yes);
  c.footer(fmt::format(
      "Columns: {}.\nIn any order; a unit may stand in the header: 'Temperature (°C)', brix,\n"
      "temp_f. Cells with a decimal comma are understood, and semicolons between them.\n"
      "Equal words in the column sample make rows repeats of one sample. A row that is in\n"
      "the notebook already is not noted again.\n"
      "Examples:\n  areo import readings.csv --batch PT-1 --dry-run\n"
      "  areo --notebook new.db import notebook.jsonl",
      fmt::join(stream::import_fields(), ", ")));
  c.callback([=, &session, &run] { run = [=, &session] { return run_import(*o, session); }; });
}

}  // namespace areo::cli
