// SPDX-License-Identifier: GPL-3.0-or-later
// An export, row by row back into a notebook.
#include "areo/stream/restore.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <istream>
#include <map>
#include <optional>

#include "areo/core/error.hpp"
#include "areo/notebook/store.hpp"
#include "areo/stream/as_typed.hpp"
#include "areo/stream/rows.hpp"
#include "areo/text/csv.hpp"
#include "first_member.hpp"
#include "text/json_dump.hpp"

namespace areo::stream {
namespace {

namespace fs = std::filesystem;

bool can_be_restored(const std::string& version) {
  for (int v = notebook::oldest_export; v <= notebook::notebook_version; ++v)
    if (version == std::to_string(v)) return true;
  return false;
}

// Whether an export of this version says how many rows follow.
bool says_rows(const std::string& version) {
  constexpr int first = 5;
  for (int v = first; v <= notebook::notebook_version; ++v)
    if (version == std::to_string(v)) return true;
  return false;
}

// A line that an editor ended as Windows does is as empty as any.
bool is_empty(const std::string& line) {
  return line.find_first_not_of(" \t\r") == std::string::npos;
}

// How many rows the first line promises; nothing of an older one. An export that was cut off is not
// brought back.
std::optional<std::string> rows_promised(const std::string& first_line, const std::string& file) {
  std::optional<std::string> rows;
  std::string version;
  for (const auto& [name, value] : members_from_json(first_line)) {
    if (name == "rows") rows = value;
    if (name != "version") continue;
    version = value.ends_with(".0") ? value.substr(0, value.size() - 2) : value;
    if (!can_be_restored(version))
      throw Error{Errc::file,
                  fmt::format("{} was exported from a notebook of version {}", file, value),
                  fmt::format("this areo has version {}: export it again with it",
                              notebook::notebook_version)};
  }
  if (version.empty() || (!rows && says_rows(version)))
    throw Error{Errc::file,
                fmt::format("the first line of {} does not say {}", file,
                            version.empty() ? "which version it is of" : "how many rows follow"),
                "is the file as areo wrote it? export it again"};
  return rows;
}

void require_as_typed(const notebook::Notebook& book) {
  if (const std::string odd = not_as_typed(book); !odd.empty())
    throw Error{Errc::store, odd, "nothing was changed; mend the row, or leave it out"};
}

}  // namespace

notebook::Restored restore_json(std::istream& in, const std::string& file,
                                const std::function<notebook::Notebook()>& open_book) {
  std::string text;
  std::getline(in, text);
  if (!begins_with_member(text, "areo"))
    throw Error{Errc::file, fmt::format("{} lacks its first line, which says what it is", file),
                "is the file as areo wrote it? export it again"};
  const std::optional<std::string> promised = rows_promised(text, file);
  notebook::Notebook book = open_book();
  std::int64_t rows = 0;
  const auto next = [&](notebook::NamedRow& row) {
    while (std::getline(in, text)) {
      if (is_empty(text)) continue;
      row = row_from_json(text);
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
  return book.restore(next, accept);
}

namespace {

bool is_younger(const std::string& table) {
  const auto& younger = notebook::younger_tables;
  return std::find(younger.begin(), younger.end(), table) != younger.end();
}

// How many rows each table of a folder has; empty of a folder that an older areo made.
std::map<std::string, std::string> rows_promised(const std::string& folder) {
  std::map<std::string, std::string> rows;
  const std::string file = (fs::path{folder} / notebook::rows_file).string();
  std::ifstream in{file, std::ios::binary};
  if (!in) return rows;
  text::CsvReader reader{in, file};
  for (text::CsvRow row; reader.next(row);)
    if (row.cells.size() == 2) rows.emplace(row.cells[0], row.cells[1]);
  return rows;
}

// The last row of a file that was cut off lacks its end.
void require_end(const std::string& file, std::ifstream& in) {
  in.seekg(-1, std::ios::end);
  if (in.get() != '\n')
    throw Error{Errc::file, fmt::format("{} ends within a row", file),
                "is the file complete? nothing was changed"};
  in.clear();
  in.seekg(0);
}

void require_rows(const std::map<std::string, std::string>& promised,
                  const std::map<std::string, std::int64_t>& rows, const std::string& folder) {
  for (const auto& [table, count] : promised) {
    const auto there = rows.find(table);
    const std::int64_t found = there == rows.end() ? 0 : there->second;
    if (std::to_string(found) != count)
      throw Error{Errc::file,
                  fmt::format("{} has {} rows of {} in {}.csv", folder, found, count, table),
                  "is the folder complete? nothing was changed"};
  }
}

}  // namespace

notebook::Restored restore_csv(const std::string& folder,
                               const std::function<notebook::Notebook()>& open_book) {
  const auto promised = rows_promised(folder);
  std::map<std::string, std::int64_t> rows;
  notebook::Notebook book = open_book();
  const auto tables = book.tables();
  auto next = tables.begin();
  std::optional<std::ifstream> in;
  std::optional<text::CsvReader> reader;
  const auto open = [&] {
    const std::string file = (fs::path{folder} / (next->name + ".csv")).string();
    in.emplace(file, std::ios::binary);
    if (!*in) {
      if (is_younger(next->name) && !promised.contains(next->name)) return false;
      throw Error{Errc::file, fmt::format("{} cannot be read", file), "is this folder an export?"};
    }
    require_end(file, *in);
    reader.emplace(*in, file);
    return true;
  };
  return book.restore(
      [&](notebook::NamedRow& row) {
        for (; next != tables.end(); ++next, reader.reset()) {
          if (!reader && !open()) continue;
          text::CsvRow cells;
          if (!reader->next(cells)) continue;
          row = {next->name, {}};
          ++rows[next->name];
          for (std::size_t i = 0; i < cells.cells.size(); ++i) {
            const std::string& name = reader->columns()[i];
            const auto column = std::find_if(next->columns.begin(), next->columns.end(),
                                             [&](const auto& c) { return c.name == name; });
            if (column == next->columns.end())
              throw Error{Errc::file, fmt::format("{} has no column '{}'", next->name, name),
                          "is this an export of areo, of this version?"};
            row.cells.emplace_back(name, cell_from_row(cells.cells[i], *column));
          }
          return true;
        }
        return false;
      },
      [&] {
        require_rows(promised, rows, folder);
        require_as_typed(book);
      });
}

std::string restored_json(const notebook::Restored& r) {
  return text::dump({{"added", r.added}, {"known", r.known}});
}

}  // namespace areo::stream
