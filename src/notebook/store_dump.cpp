// SPDX-License-Identifier: GPL-3.0-or-later
// Everything in the file, out and back in; and a copy of it.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <unordered_set>

#include "areo/core/unfinished_file.hpp"
#include "areo/notebook/store.hpp"
#include "impl.hpp"
#include "migrate.hpp"
#include "rules.hpp"

namespace areo::notebook {
namespace {

using sqlite::Connection;
using sqlite::Statement;

// No row refers to one of a later table, nor to a later row of its own.
constexpr std::array table_names{"instrument",
                                 "instrument_retired",
                                 "check_reading",
                                 "calibration",
                                 "calibration_check",
                                 "liquid_pair",
                                 "liquid_pair_left_out",
                                 "batch",
                                 "batch_amendment",
                                 "batch_event",
                                 "reading",
                                 "reading_exclusion",
                                 "addition",
                                 "addition_exclusion",
                                 "setting"};

// Names of tables and columns come from the file's own schema, never from what is imported.
std::string list_of(const Table& table, const char* separator, const char* behind = "") {
  std::string out;
  for (const Column& c : table.columns)
    out += fmt::format("{}{}{}", out.empty() ? "" : separator, c.name, behind);
  return out;
}

std::vector<std::string> keys_of(const Connection& db, const std::string& table) {
  std::vector<std::string> keys;
  Statement s{db, "SELECT name FROM pragma_table_info(?) WHERE pk > 0 ORDER BY pk"};
  s.bind(std::string_view{table});
  while (s.step()) keys.push_back(s.text(0));
  return keys;
}

Cell cell_of(const Statement& s, int column) {
  switch (s.type(column)) {
    case SQLITE_INTEGER: return s.integer(column);
    case SQLITE_FLOAT: return s.real(column);
    case SQLITE_TEXT: return s.text(column);
    default: return std::monostate{};
  }
}

void bind(Statement& s, const Cell& cell) {
  if (const auto* i = std::get_if<std::int64_t>(&cell))
    s.bind(*i);
  else if (const auto* d = std::get_if<double>(&cell))
    s.bind(*d);
  else if (const auto* t = std::get_if<std::string>(&cell))
    s.bind(std::string_view{*t});
  else
    s.null();
}

// 5 and 5.0 are one number: which of them comes out depends on the column's type.
bool same(const Cell& a, const Cell& b) {
  const auto* i = std::get_if<std::int64_t>(&a);
  const auto* d = std::get_if<double>(&b);
  if (i != nullptr && d != nullptr) return static_cast<double>(*i) == *d;
  return a == b;
}

// Columns that exports of an older areo lack: nothing is known of them.
constexpr std::array younger_columns{
    std::pair{"calibration", "from_stated"}, std::pair{"instrument", "maker"},
    std::pair{"instrument", "serial"},       std::pair{"instrument", "stem_diameter_mm"},
    std::pair{"instrument", "mass_g"},       std::pair{"instrument", "made_for_mn_m"},
    std::pair{"check_reading", "water"},     std::pair{"check_reading", "balance"},
    std::pair{"check_reading", "apart"},
};

bool is_younger(const Table& table, const Column& column) {
  return std::any_of(younger_columns.begin(), younger_columns.end(), [&](const auto& y) {
    return table.name == y.first && column.name == y.second;
  });
}

// Cells in order of the table's columns.
std::vector<Cell> in_order(const std::string& path, const Table& table, const NamedRow& row) {
  std::vector<Cell> cells;
  std::size_t used = row.cells.size();
  for (const Column& c : table.columns) {
    const auto found = std::find_if(row.cells.begin(), row.cells.end(),
                                    [&](const auto& cell) { return cell.first == c.name; });
    if (found == row.cells.end() && is_younger(table, c)) {
      cells.emplace_back(std::monostate{});
      ++used;
      continue;
    }
    if (found == row.cells.end())
      refuse(path, fmt::format("a row of {} lacks '{}'", table.name, c.name),
             "is this an export of areo, of this version?");
    cells.push_back(found->second);
  }
  if (used != table.columns.size())
    refuse(path, fmt::format("a row of {} has columns that areo does not know", table.name),
           fmt::format("its columns are: {}", list_of(table, ", ")));
  return cells;
}

// One table on its way back.
class Restorer {
 public:
  using Keys = std::unordered_set<std::string>;

  // @param added  keys of the rows of all tables that are new; they are put in there
  Restorer(const Connection& db, Table table, Keys& added)
      : db_{&db},
        added_{&added},
        table_{std::move(table)},
        keys_{keys_of(db, table_.name)},
        find_{db, fmt::format("SELECT {} FROM {} WHERE {} = ?", list_of(table_, ", "), table_.name,
                              fmt::join(keys_, " = ? AND "))
                      .c_str()},
        insert_{db, fmt::format("INSERT INTO {} ({}) VALUES ({})", table_.name,
                                list_of(table_, ", "), marks())
                        .c_str()} {}
  [[nodiscard]] const std::string& name() const { return table_.name; }

  // Whether the row is new.
  bool take(const NamedRow& row) {
    const std::vector<Cell> cells = in_order(db_->path(), table_, row);
    find_.again();
    for (const std::string& key : keys_) {
      if (!std::holds_alternative<std::int64_t>(cells[place_of(key)]))
        refuse(db_->path(), fmt::format("a row of {} has no number in '{}'", table_.name, key),
               "is this an export of areo?");
      bind(find_, cells[place_of(key)]);
    }
    const std::string key = row_key(cells);
    if (find_.step()) {
      if (added_->contains(key))
        refuse(db_->path(), fmt::format("{} is in the export twice", key),
               "is the file as areo wrote it?");
      for (std::size_t i = 0; i < cells.size(); ++i)
        if (!same(cells[i], cell_of(find_, static_cast<int>(i))))
          refuse(db_->path(),
                 fmt::format("holds another {} with the same number: {} differs", table_.name,
                             table_.columns[i].name),
                 "an export goes back into the notebook it came from, or into an empty one");
      return false;
    }
    require_plain(db_->path(), table_, cells);
    insert_.again();
    for (const Cell& c : cells) bind(insert_, c);
    try {
      insert_.step();
    } catch (const Error& e) {
      throw Error{e.code, fmt::format("{}: {}", key, e.what()),
                  "nothing was changed; mend the row, or leave it out"};
    }
    added_->insert(key);
    return true;
  }

 private:
  [[nodiscard]] std::string marks() const {
    std::string out = "?";
    for (std::size_t i = 1; i < table_.columns.size(); ++i) out += ", ?";
    return out;
  }
  // "reading 5"
  [[nodiscard]] std::string row_key(const std::vector<Cell>& cells) const {
    std::string out = table_.name;
    for (const std::string& key : keys_)
      out += fmt::format(" {}", std::get<std::int64_t>(cells[place_of(key)]));
    return out;
  }
  [[nodiscard]] std::size_t place_of(const std::string& column) const {
    return static_cast<std::size_t>(
        std::find_if(table_.columns.begin(), table_.columns.end(),
                     [&](const Column& c) { return c.name == column; }) -
        table_.columns.begin());
  }
  const Connection* db_;
  Keys* added_;
  Table table_;
  std::vector<std::string> keys_;
  Statement find_, insert_;
};

std::int64_t rows_in(const Connection& db) {
  std::int64_t rows = 0;
  for (const char* name : table_names)
    rows += db.number(fmt::format("SELECT count(*) FROM {}", name).c_str());
  return rows;
}

// The pages of one file into another, a while at a time, so that writers get their turn.
void copy_pages(const Connection& from, const Connection& to) {
  constexpr int pages_at_once = 1000, wait_ms = 20;
  sqlite3_backup* copy = sqlite3_backup_init(to.get(), "main", from.get(), "main");
  if (copy == nullptr) to.require(sqlite3_errcode(to.get()));
  int code = SQLITE_OK;
  while (code == SQLITE_OK || code == SQLITE_BUSY || code == SQLITE_LOCKED) {
    code = sqlite3_backup_step(copy, pages_at_once);
    if (code == SQLITE_BUSY || code == SQLITE_LOCKED) sqlite3_sleep(wait_ms);
  }
  sqlite3_backup_finish(copy);
  to.require(code);
}

}  // namespace

std::int64_t Notebook::rows() const { return rows_in(impl_->db); }

std::vector<Table> Notebook::tables() const {
  std::vector<Table> all;
  for (const char* name : table_names) {
    Table table{name, {}};
    Statement s{impl_->db, "SELECT name, type, \"notnull\" FROM pragma_table_info(?) ORDER BY cid"};
    s.bind(std::string_view{name});
    while (s.step())
      table.columns.push_back(
          {s.text(0), s.text(1) == "TEXT", s.text(1) == "INTEGER", s.integer(2) == 0});
    all.push_back(std::move(table));
  }
  return all;
}

void Notebook::each_row(const Table& table,
                        const std::function<void(const std::vector<Cell>&)>& act) const {
  const auto keys = keys_of(impl_->db, table.name);
  Statement s{impl_->db, fmt::format("SELECT {} FROM {} ORDER BY {}", list_of(table, ", "),
                                     table.name, fmt::join(keys, ", "))
                             .c_str()};
  std::vector<Cell> cells(table.columns.size());
  while (s.step()) {
    for (std::size_t i = 0; i < cells.size(); ++i) cells[i] = cell_of(s, static_cast<int>(i));
    act(cells);
  }
}

Restored Notebook::restore(const NextRow& next, const std::function<void()>& accept) {
  const Connection& db = impl_->db;
  const auto known = tables();
  Restored restored;
  sqlite::Transaction t{db};
  db.run("PRAGMA defer_foreign_keys = ON");  // until the end of this transaction
  Restorer::Keys added;
  std::unique_ptr<Restorer> into;
  for (NamedRow row; next(row);) {
    if (!into || into->name() != row.table) {
      const auto table = std::find_if(known.begin(), known.end(),
                                      [&](const Table& k) { return k.name == row.table; });
      if (table == known.end())
        refuse(db.path(), fmt::format("a notebook has no table '{}'", row.table),
               "is this an export of areo, of this version?");
      into = std::make_unique<Restorer>(db, *table, added);
    }
    ++(into->take(row) ? restored.added : restored.known);
  }
  into.reset();
  if (Statement lacks{db, "SELECT \"table\", rowid, parent FROM pragma_foreign_key_check LIMIT 1"};
      lacks.step())
    refuse(db.path(),
           fmt::format("{} {} refers to a row of {} that the export lacks", lacks.text(0),
                       lacks.integer(1), lacks.text(2)),
           "nothing was changed; is the file complete?");
  require_plausible(*this, db.path(), [&](const char* table, Id id) {
    return added.contains(fmt::format("{} {}", table, id));
  });
  if (accept) accept();
  t.commit();
  return restored;
}

std::int64_t Notebook::backup(const std::string& path) const try {
  UnfinishedFile file{path, Present::kept, impl_->db.path()};
  std::int64_t rows = 0;
  {
    const Connection copy{file.path(), SQLITE_OPEN_READWRITE};
    copy_pages(impl_->db, copy);
    require_intact(copy, "is the disk sound? no copy was kept");
    rows = rows_in(copy);
  }
  file.finish();
  return rows;
} catch (const Error& e) {
  throw Error{Errc::store, e.what(), e.hint};
}

}  // namespace areo::notebook
