// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/notebook/dump.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include "areo/notebook/store.hpp"
#include "filled.hpp"
#include "notebook/sqlite.hpp"

namespace areo::notebook {
namespace {

class Dump : public TemporaryFolder {
 protected:
  Dump() : book_{path(), Open::create}, batch_{fill(book_)} {}
  Notebook book_;
  Id batch_;
};

TEST_F(Dump, HoldsEveryTableOfTheFile) {
  const sqlite::Connection db = raw(path());
  EXPECT_EQ(static_cast<std::int64_t>(book_.tables().size()),
            db.number("SELECT count(*) FROM sqlite_schema WHERE type = 'table'"));
}

TEST_F(Dump, ComesBackIntoAnEmptyNotebook) {
  const auto rows = rows_of(book_);
  Notebook other{path("other.db"), Open::create};
  const Restored r = other.restore(from(rows));
  EXPECT_EQ(r.added, static_cast<std::int64_t>(rows.size()));
  EXPECT_EQ(r.known, 0);
  EXPECT_TRUE(rows_of(other) == rows);
  EXPECT_EQ(other.batch("PT-1").volume_l, 4);
}

TEST_F(Dump, BroughtBackTwiceAddsNothing) {
  const auto rows = rows_of(book_);
  const Restored r = book_.restore(from(rows));
  EXPECT_EQ(r.added, 0);
  EXPECT_EQ(r.known, static_cast<std::int64_t>(rows.size()));
  EXPECT_TRUE(rows_of(book_) == rows);
}

TEST_F(Dump, BringsWhatWasAddedSince) {
  const auto before = rows_of(book_);
  Notebook other{path("other.db"), Open::create};
  other.restore(from(before));
  BatchRecord b;
  b.name = "PT-2";
  book_.add(b);
  const auto rows = rows_of(book_);
  const Restored r = other.restore(from(rows));
  EXPECT_EQ(r.added, 1);
  EXPECT_TRUE(rows_of(other) == rows);
}

TEST_F(Dump, OfAnotherNotebookIsRefusedWhole) {
  Notebook other{path("other.db"), Open::create};
  other.add(hydrometer("stem-9"));
  const auto before = rows_of(other);
  expect_contains(refusal([&] { other.restore(from(rows_of(book_))); }),
                  "holds another instrument with the same number: name differs");
  EXPECT_TRUE(rows_of(other) == before);
}

TEST_F(Dump, WithRowsMissingIsRefusedWhole) {
  auto rows = rows_of(book_);
  std::erase_if(rows, [](const NamedRow& r) { return r.table == "instrument"; });
  Notebook other{path("other.db"), Open::create};
  expect_contains(refusal([&] { other.restore(from(rows)); }), "that the export lacks");
  EXPECT_TRUE(rows_of(other).empty());
}

TEST_F(Dump, InAnyOrderComesBack) {
  auto rows = rows_of(book_);
  std::reverse(rows.begin(), rows.end());
  Notebook other{path("other.db"), Open::create};
  EXPECT_EQ(other.restore(from(rows)).added, static_cast<std::int64_t>(rows.size()));
  EXPECT_TRUE(rows_of(other) == rows_of(book_));
}

TEST_F(Dump, WithForeignTablesOrColumnsIsRefused) {
  Notebook other{path("other.db"), Open::create};
  std::vector<NamedRow> rows{{"sqlite_schema", {{"sql", std::string{"x"}}}}};
  expect_contains(refusal([&] { other.restore(from(rows)); }), "no table 'sqlite_schema'");
  rows = {rows_of(book_).front()};
  rows[0].cells.emplace_back("evil", std::int64_t{1});
  expect_contains(refusal([&] { other.restore(from(rows)); }), "columns that areo does not know");
  rows[0].cells = {{"id", std::int64_t{1}}};
  expect_contains(refusal([&] { other.restore(from(rows)); }), "lacks 'name'");
  EXPECT_TRUE(rows_of(other).empty());
}

TEST_F(Dump, ABackupIsTheWholeNotebook) {
  EXPECT_EQ(book_.backup(path("backup.db")), static_cast<std::int64_t>(rows_of(book_).size()));
  EXPECT_TRUE(rows_of(Notebook{path("backup.db")}) == rows_of(book_));
  EXPECT_EQ(names_in(folder()), (std::set<std::string>{"backup.db", "notebook.db",
                                                       "notebook.db-shm", "notebook.db-wal"}));
}

TEST_F(Dump, ABackupOverwritesNothing) {
  std::ofstream{path("backup.db")} << "mine";
  const auto backup = [&](const char* name) { (void)book_.backup(path(name)); };
  expect_contains(refusal([&] { backup("backup.db"); }), "is there already");
  EXPECT_EQ(bytes_of(path("backup.db")), "mine");
  expect_contains(refusal([&] { backup("no/such/folder.db"); }), "cannot be written");
}

TEST_F(Dump, ABackupHoldsWhatAnotherWroteMeanwhile) {
  Notebook other{path()};
  BatchRecord b;
  b.name = "PT-2";
  other.add(b);
  (void)book_.backup(path("backup.db"));
  EXPECT_EQ(Notebook{path("backup.db")}.batches().size(), 2u);
}

}  // namespace
}  // namespace areo::notebook
