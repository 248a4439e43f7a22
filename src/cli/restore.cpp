// An export, row by row back into a notebook.
#include "restore.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <istream>
#include <optional>

#include "areo/core/error.hpp"
#include "areo/notebook/store.hpp"
#include "areo/report/json.hpp"
#include "areo/report/rows.hpp"
#include "areo/tables/csv.hpp"
#include "as_typed.hpp"
#include "bench.hpp"
#include "command.hpp"
#include "failure.hpp"

namespace areo::cli {
namespace {

namespace fs = std::filesystem;

bool can_be_restored(const std::string& version) {
  for (int v = notebook::oldest_export; v <= notebook::notebook_version; ++v)
    if (version == std::to_string(v)) return true;
  return false;
}

// What the first line says of what follows it; nothing of an export that has none, or of an older
// one. An export that was cut off is not brought back.
std::optional<std::string> rows_promised(const std::string& first_line, const std::string& file) {
  std::optional<std::string> rows;
  for (const auto& [name, value] : report::members_from_json(first_line)) {
    if (name == "rows") rows = value;
    if (name == "version" && !can_be_restored(value))
      throw Error{Errc::file,
                  fmt::format("{} was exported from a notebook of version {}", file, value),
                  fmt::format("this areo has version {}: export it again with it",
                              notebook::notebook_version)};
  }
  return rows;
}

void require_as_typed(const notebook::Notebook& book) {
  if (const std::string odd = not_as_typed(book); !odd.empty())
    throw Error{Errc::store, odd, "nothing was changed; mend the row, or leave it out"};
}

int tell_restored(const notebook::Restored& r, const Session& session) {
  if (session.json)
    raw_line(fmt::format(R"({{"added":{},"known":{}}})", r.added, r.known));
  else
    line(fmt::format("{} rows brought back, {} were there already", r.added, r.known));
  return done;
}

}  // namespace

int restore_json(std::istream& in, const std::string& file, const Session& session) {
  const auto begins = in.tellg();
  std::string text;
  std::getline(in, text);
  std::optional<std::string> promised;
  if (text.starts_with(R"({"areo":)"))
    promised = rows_promised(text, file);
  else
    in.seekg(begins);
  notebook::Notebook book = open_notebook(session, notebook::Open::create);
  std::int64_t rows = 0;
  const auto next = [&](notebook::NamedRow& row) {
    while (std::getline(in, text)) {
      if (text.empty()) continue;
      row = report::row_from_json(text);
      ++rows;
      return true;
    }
    return false;
  };
  const auto accept = [&] {
    if (promised && *promised != std::to_string(rows))
      throw Error{Errc::file, fmt::format("{} has {} rows of {}", file, rows, *promised),
                  "is the file complete? nothing was changed"};
    require_as_typed(book);
  };
  return tell_restored(book.restore(next, accept), session);
}

int restore_csv(const std::string& folder, const Session& session) {
  notebook::Notebook book = open_notebook(session, notebook::Open::create);
  const auto tables = book.tables();
  auto next = tables.begin();
  std::optional<std::ifstream> in;
  std::optional<tables::CsvReader> reader;
  const auto open = [&] {
    const std::string file = (fs::path{folder} / (next->name + ".csv")).string();
    in.emplace(file, std::ios::binary);
    if (!*in)
      throw Error{Errc::file, fmt::format("{} cannot be read", file), "is this folder an export?"};
    reader.emplace(*in, file);
  };
  return tell_restored(
      book.restore(
          [&](notebook::NamedRow& row) {
            for (; next != tables.end(); ++next, reader.reset()) {
              if (!reader) open();
              tables::CsvRow cells;
              if (!reader->next(cells)) continue;
              row = {next->name, {}};
              for (std::size_t i = 0; i < cells.cells.size(); ++i) {
                const std::string& name = reader->columns()[i];
                const auto column = std::find_if(next->columns.begin(), next->columns.end(),
                                                 [&](const auto& c) { return c.name == name; });
                if (column == next->columns.end())
                  throw Error{Errc::file, fmt::format("{} has no column '{}'", next->name, name),
                              "is this an export of areo, of this version?"};
                row.cells.emplace_back(name, report::cell_from_row(cells.cells[i], *column));
              }
              return true;
            }
            return false;
          },
          [&] { require_as_typed(book); }),
      session);
}

}  // namespace areo::cli
