// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as a file given to `areo import`: an export goes back into an empty notebook, a list or
// a table of readings into one that is in use. What is taken is kept whole and can be listed.
#include <fmt/format.h>

#include <cstdint>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "areo/stream/rows.hpp"
#include "desk.hpp"
#include "kept.hpp"
#include "refusal.hpp"

namespace areo::fuzz {
namespace {

using notebook::Cell;
using Json = nlohmann::json;

// 5.0 is written as 5.
bool same(const Cell& a, const Cell& b) {
  const auto* d = std::get_if<double>(&a);
  const auto* i = std::get_if<std::int64_t>(&b);
  return d != nullptr && i != nullptr ? *d == static_cast<double>(*i) : a == b;
}

void check_cell(const std::string& name, const Cell& cell) {
  const auto* text = std::get_if<std::string>(&cell);
  const bool nothing = std::holds_alternative<std::monostate>(cell);
  const notebook::Column column{name, text != nullptr, nothing};
  const std::string written = stream::row_cell(cell);
  require(!drives_terminal(written), "a cell of a CSV file drives no terminal", written);
  require(same(cell, stream::cell_from_row(written, column)),
          "a cell of a CSV file written and read again is the same", written);
}

// Numbers and texts as they stood in the file; bytes in another notation are compared as rows.
void check_nothing_changed(const Json& before, const Json& after) {
  for (const auto& [name, value] : before.items())
    if (!value.is_object())
      require(value.dump() == after.at(name).dump(), "a value is read as it is written",
              value.dump());
}

void check_row(const std::string& line) {
  notebook::NamedRow row;
  if (!accepts([&] { row = stream::row_from_json(line); })) return;
  notebook::Table table{row.table, {}};
  std::vector<Cell> cells;
  for (const auto& [name, cell] : row.cells) {
    table.columns.push_back({name});
    cells.push_back(cell);
    check_cell(name, cell);
  }
  const std::string written = stream::row_json(table, cells);
  require(!drives_terminal(written), "a row of an export drives no terminal", written);
  require(stream::row_from_json(written) == row, "a row written and read again is the same",
          written);
  check_nothing_changed(Json::parse(line)["row"], Json::parse(written)["row"]);
}

void check_objects(const std::string& text) {
  (void)accepts([&] {
    stream::each_object(text, [](const auto& members) { (void)accepts([&] { (void)members(); }); });
  });
}

bool is_export(const std::string& text) {
  const auto first = text.find_first_not_of(" \t\r\n");
  return first != std::string::npos && (text.substr(first).starts_with(R"({"areo":)") ||
                                        text.substr(first).starts_with(R"({"table":)"));
}

void check_import(Desk& desk, const std::string& text) {
  const bool whole = is_export(text);
  desk.clear(whole ? Notebook::empty : Notebook::filled);
  const std::string before = rows_of(desk.notebook());
  std::ofstream{desk.path("f"), std::ios::binary} << text;
  std::vector<std::string> words{"import", "f", "--json"};
  if (!whole) words.insert(words.end(), {"--batch=PT-1", "--instrument=stem-1", "--yes"});
  const Ran first = desk.run(words);
  check_ran(first, "import");
  if (rows_of(desk.notebook()) != before) check_kept(desk);
  if (first.status > 1) {
    require(rows_of(desk.notebook()) == before, "what is refused changes nothing", first.err);
    return;
  }
  const Ran second = desk.run(words);
  require(second.status == first.status, "a file imported again is judged as before", second.err);
  require(second.out.find(whole ? R"({"added":0,)" : R"({"noted":0,)") != std::string::npos,
          "nothing is noted twice", second.out);
}

}  // namespace
}  // namespace areo::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace areo::fuzz;
  static Desk desk;
  const std::string text{reinterpret_cast<const char*>(data), size};
  std::istringstream lines{text};
  for (std::string line; std::getline(lines, line);) check_row(line);
  check_objects(text);
  check_import(desk, text);
  return 0;
}
