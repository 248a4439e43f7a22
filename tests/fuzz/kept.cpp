// SPDX-License-Identifier: GPL-3.0-or-later
#include "kept.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <sstream>

#include "areo/notebook/store.hpp"
#include "areo/stream/rows.hpp"
#include "notebook/sqlite.hpp"
#include "refusal.hpp"

namespace areo::fuzz {
namespace {

using notebook::Open;
using notebook::sqlite::Connection;
using notebook::sqlite::Statement;

std::string rows_of(const notebook::Notebook& book) {
  std::string out;
  for (const notebook::Table& table : book.tables())
    book.each_row(table, [&](const auto& cells) { out += stream::row_json(table, cells) + "\n"; });
  return out;
}

void check_whole(const std::string& file) {
  const Connection db{file, SQLITE_OPEN_READWRITE};
  Statement check{db, "PRAGMA integrity_check"};
  require(check.step() && check.text(0) == "ok", "SQLite finds the notebook whole", check.text(0));
  require(db.number("SELECT count(*) FROM pragma_foreign_key_check") == 0,
          "no row refers to one that is missing");
}

void check_round_trip(const std::string& empty, const std::string& rows) {
  std::istringstream lines{rows};
  notebook::Notebook other{empty};
  const notebook::Restored restored = other.restore([&](notebook::NamedRow& row) {
    std::string line;
    if (!std::getline(lines, line)) return false;
    row = stream::row_from_json(line);
    return true;
  });
  require(restored.known == 0, "an empty notebook knows no row");
  require(rows_of(other) == rows, "an export brought back is the same export", rows);
}

void check_list(Desk& desk, const std::vector<std::string>& words) {
  check_ran(desk.run(words), fmt::format("{}", fmt::join(words, " ")));
}

}  // namespace

std::string rows_of(const std::string& file) {
  return rows_of(notebook::Notebook{file, Open::read});
}

void check_ran(const Ran& ran, const std::string& call) {
  require(ran.status >= 0 && ran.status <= 4, "the program knows how it ended",
          fmt::format("{} ends with {}: {}", call, ran.status, ran.err));
  if (ran.status > 1) require(!ran.err.empty(), "a call that failed says why", call);
  require(!drives_terminal(ran.out) && !drives_terminal(ran.err),
          "what is printed drives no terminal", call);
}

void check_kept(Desk& desk) {
  constexpr std::size_t most = 2;  // of a kind: each call takes its time
  check_whole(desk.notebook());
  check_round_trip(desk.other_notebook(), rows_of(desk.notebook()));
  check_list(desk, {"batch", "list"});
  std::vector<std::string> batches, instruments;
  if (!accepts([&] {
        const notebook::Notebook book{desk.notebook(), Open::read};
        for (const auto& b : book.batches()) batches.push_back(b.name);
        for (const auto& i : book.instruments()) instruments.push_back(i.name());
      }))
    return;
  for (std::size_t i = 0; i < std::min(most, batches.size()); ++i) {
    check_list(desk, {"reading", "list", "--", batches[i]});
    check_list(desk, {"batch", "show", "--json", "--", batches[i]});
  }
  for (std::size_t i = 0; i < std::min(most, instruments.size()); ++i)
    check_list(desk, {"calibrate", "show", "--", instruments[i]});
}

}  // namespace areo::fuzz
