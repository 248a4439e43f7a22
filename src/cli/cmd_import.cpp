// SPDX-License-Identifier: GPL-3.0-or-later
// areo import: an export, or readings from a table; which of them a file is.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <filesystem>
#include <fstream>
#include <iostream>
#include <memory>
#include <string_view>

#include "areo/core/error.hpp"
#include "areo/stream/import_table.hpp"
#include "areo/stream/restore.hpp"
#include "areo/text/json.hpp"
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

std::string summary(const ImportOptions& options, const stream::ImportOutcome& o) {
  std::string out =
      options.dry_run ? fmt::format("{} would be noted", o.good) : fmt::format("{} noted", o.noted);
  out += fmt::format(", {} there already, {} refused", o.there, o.bad);
  if (o.held > 0) out += fmt::format(", {} held back", o.held);
  if (options.all_or_nothing && o.not_noted() > 0)
    out += "; all or nothing, so nothing was noted";
  else if (o.not_noted() > 0)
    out += fmt::format("; mend these{} and import the file again: what is there is not noted twice",
                       o.held > 0 ? ", or insist with --yes," : "");
  return out;
}

int tell(const ImportOptions& options, const stream::ImportOutcome& o, const Session& session) {
  for (const text::SaidOnce* said : {&o.refused, &o.held_back})
    tell_refused(*said, options.file, session);
  const int code = o.not_noted() > 0 ? said_no : done;
  if (session.json) {
    raw_line(fmt::format(R"({{"noted":{},"known":{},"refused":{},"held_back":{},"dry_run":{},)"
                         R"("left_out":{}}})",
                         o.noted, o.there, o.bad, o.held, options.dry_run,
                         text::json_list(o.left_out)));
    return code;
  }
  line(summary(options, o));
  if (!o.left_out.empty())
    line(fmt::format("note: left out, because areo does not know what they mean: {}; --map says it",
                     fmt::join(o.left_out, ", ")));
  if (o.noted > 0) line("next: areo batch list shows what is there now");
  return code;
}

int import_table(std::istream& in, char first, const ImportOptions& o, const Session& session) {
  notebook::Notebook book = open_notebook(session);
  stream::ImportPlan plan{.file = o.file,
                          .map = o.map,
                          .defaults = o.defaults,
                          .rules = column_rules(o.columns),
                          .dry_run = o.dry_run,
                          .all_or_nothing = o.all_or_nothing,
                          .yes = o.yes};
  if (session.json)
    plan.on_failure = [](const Error& e, std::size_t line) {
      raw_line(wording::failure_json(e, line));
    };
  if (first == '{' || first == '[')
    return tell(o, stream::import_json(in, first == '[', book, plan), session);
  in.seekg(0);
  return tell(o, stream::import_csv(in, book, plan), session);
}

int tell_restored(const notebook::Restored& r, const Session& session) {
  if (session.json)
    raw_line(fmt::format(R"({{"added":{},"known":{}}})", r.added, r.known));
  else
    line(fmt::format("{} rows brought back, {} were there already", r.added, r.known));
  return done;
}

std::function<notebook::Notebook()> new_notebook(const Session& session) {
  return [&session] { return open_notebook(session, notebook::Open::create); };
}

// What a file is shows in its first characters.
int import_stream(std::istream& in, const ImportOptions& o, const Session& session) {
  constexpr std::string_view mark = "\xEF\xBB\xBF";  // of byte order, as some programs write it
  std::string start(mark.size(), '\0');
  in.read(start.data(), static_cast<std::streamsize>(start.size()));
  const std::streamoff begins = start == mark ? static_cast<std::streamoff>(mark.size()) : 0;
  in.clear();
  in.seekg(begins);
  char first = 0;
  if (!(in >> first))
    throw Error{Errc::file, fmt::format("{} is empty", o.file), "is it the right file?"};
  constexpr std::streamsize enough = 64;  // to see what an object begins with
  std::string begin(enough, '\0');
  in.read(begin.data(), enough);
  begin = first + begin;
  in.clear();
  in.seekg(begins);
  in >> std::ws;
  if (stream::is_export(begin)) {
    refuse_options(o);
    return tell_restored(stream::restore_json(in, o.file, new_notebook(session)), session);
  }
  return import_table(in, first, o, session);
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
