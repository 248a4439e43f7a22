// SPDX-License-Identifier: GPL-3.0-or-later
// areo export, areo backup: everything in the notebook, for other programs and for bad days.
#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <memory>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/publish/write_file.hpp"
#include "areo/stream/as_typed.hpp"
#include "areo/stream/export.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

namespace fs = std::filesystem;

struct Options {
  std::string file, csv;
};

void tell(std::int64_t rows, const std::string& where, const Session& session) {
  if (session.json)
    raw_line(stream::exported_json(rows, where));
  else
    line(fmt::format("{} rows to {}", rows, where));
}

void write_export(const notebook::Notebook& book, const Options& o, const Session& session) {
  if (o.file == "-") {
    stream::export_json(book, raw_line);
    return;
  }
  std::int64_t rows = 0;
  if (!o.file.empty()) {
    const auto write = [&](std::ostream& out) {
      rows = stream::export_json(book, [&](std::string_view row) { out << row << '\n'; });
    };
    publish::write_file(o.file, write, Present::kept);
    tell(rows, o.file, session);
    return;
  }
  publish::write_folder(o.csv, [&](const std::string& folder) {
    std::string counts = "table,rows\n";
    for (const notebook::Table& table : book.tables())
      publish::write_file((fs::path{folder} / (table.name + ".csv")).string(),
                          [&](std::ostream& out) {
                            const std::int64_t written = stream::export_csv(book, table, out);
                            counts += fmt::format("{},{}\n", table.name, written);
                            rows += written;
                          });
    publish::write_file((fs::path{folder} / notebook::rows_file).string(),
                        [&](std::ostream& out) { out << counts; });
  });
  tell(rows, o.csv, session);
}

int run_export(const Options& o, const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  // What others note meanwhile is all in it, or not at all.
  book.at_one_moment([&] { write_export(book, o, session); });
  return done;
}

int run_backup(const Options& o, const Session& session) {
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  const std::int64_t rows = book.backup(o.file);
  if (const std::string odd =
          stream::not_as_typed(notebook::Notebook{o.file, notebook::Open::read});
      !odd.empty())
    warn(odd + "; so does the copy", session.json);
  if (session.json) {
    tell(rows, o.file, session);
    return done;
  }
  line(fmt::format("copied to {} and verified: {} rows, integrity ok", o.file, rows));
  line(fmt::format("next: keep it on another disk; areo --notebook {} batch list looks into it",
                   shell_word(o.file)));
  return done;
}

}  // namespace

void setup_export(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("export", "everything in the notebook as JSON lines or CSV files");
  auto file = c.add_option("file", o->file, "a new file for JSON lines; - = standard output")
                  .type_name("FILE");
  c.add_option("--csv", o->csv, "a new folder for one CSV file per table")
      .type_name("FOLDER")
      .excludes(file);
  c.footer(
      "Examples:\n  areo export notebook.jsonl\n  areo export --csv notebook-csv\n"
      "Nothing is lost: areo import brings either into an empty notebook.");
  c.callback([=, &session, &run] {
    if (o->file.empty() && o->csv.empty())
      throw UsageError{"where to?", "areo export FILE, or areo export --csv FOLDER"};
    run = [=, &session] { return run_export(*o, session); };
  });
  auto backup = app.add_subcommand("backup", "a verified copy of the notebook, others may go on");
  backup.add_option("file", o->file, "a new file").required().type_name("FILE");
  backup.callback([=, &session, &run] { run = [=, &session] { return run_backup(*o, session); }; });
}

}  // namespace areo::cli
