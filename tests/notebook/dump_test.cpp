#include "areo/notebook/dump.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include "areo/notebook/store.hpp"
#include "notebook/sqlite.hpp"
#include "temporary.hpp"

namespace areo::notebook {
namespace {

// All rows of a notebook, in order.
std::vector<NamedRow> rows_of(const Notebook& book) {
  std::vector<NamedRow> all;
  for (const Table& table : book.tables())
    book.each_row(table, [&](const std::vector<Cell>& cells) {
      NamedRow row{table.name, {}};
      for (std::size_t i = 0; i < cells.size(); ++i)
        row.cells.emplace_back(table.columns[i].name, cells[i]);
      all.push_back(std::move(row));
    });
  return all;
}

NextRow from(const std::vector<NamedRow>& rows) {
  return [&rows, i = std::size_t{0}](NamedRow& row) mutable {
    if (i == rows.size()) return false;
    row = rows[i++];
    return true;
  };
}

class Dump : public TemporaryFolder {
 protected:
  Dump() : book_{path(), Open::create} {
    const Id stem = book_.add(hydrometer("stem-1"));
    const Id check = book_.add(water_check(stem, 1.001, "2026-03-01T10:00Z"));
    CalibrationRecord c = calibration(stem, {check}, "2026-03-01T10:00Z");
    c.due = moment_from_text("2027-03-01");
    book_.add(c);
    BatchRecord b;
    b.name = "PT-1";
    b.note = "=cmd";
    batch_ = book_.add(b);
    std::vector<ReadingRecord> two(2);
    for (ReadingRecord& r : two) {
      r.batch = batch_;
      r.instrument = stem;
      r.indication = 1.048;
    }
    const auto ids = book_.add(two);
    two[0].amends = ids[0];
    two[0].reason = "slip";
    book_.add(std::span{two.data(), 1});
    book_.exclude_reading(ids[1], {moment_from_text("2026-03-02"), true, "bubbles"});
    AdditionRecord a;
    a.batch = batch_;
    a.mass_g = 50;
    book_.exclude_addition(book_.add(a), {moment_from_text("2026-03-02"), true, "other jar"});
    book_.note(batch_, {moment_from_text("2026-03-03"), true, ""});
    book_.amend({batch_, moment_from_text("2026-03-03"), "volume", "4L", 4, "measured"});
    book_.retire(stem, moment_from_text("2026-03-04"), "broke");
  }
  Notebook book_;
  Id batch_ = 0;
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
  expect_contains(refusal([&] { other.restore(from(rows)); }), "refers to rows that it lacks");
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
