// SPDX-License-Identifier: GPL-3.0-or-later
// No question about one batch makes SQLite walk through the rows of all others.
#include <gtest/gtest.h>

#include "areo/batch/batch.hpp"
#include "areo/notebook/store.hpp"
#include "temporary.hpp"

namespace areo::notebook {
namespace {

// Statements that stepped through a whole table or index, of every connection made meanwhile.
std::vector<std::string> scans;  // NOLINT: SQLite's hooks have no place for it

int note_scan(unsigned, void*, void* statement, void*) {
  auto* s = static_cast<sqlite3_stmt*>(statement);
  if (sqlite3_stmt_status(s, SQLITE_STMTSTATUS_FULLSCAN_STEP, 0) > 0)
    scans.emplace_back(sqlite3_sql(s));
  return 0;
}
int watch(sqlite3* db, char**, const void*) {
  return sqlite3_trace_v2(db, SQLITE_TRACE_PROFILE, note_scan, nullptr);
}

class Index : public TemporaryFolder {
 protected:
  Index() {
    Notebook book{path(), Open::create};
    stem_ = book.add(hydrometer("stem-1"));
    book.add(calibration(stem_, {book.add(water_check(stem_, 1.001, "2026-03-01T10:00Z"))},
                         "2026-03-01T10:00Z"));
    for (const char* name : {"PT-1", "PT-2", "PT-3"}) fill(book, name);
    sqlite3_auto_extension(reinterpret_cast<void (*)()>(watch));
    scans.clear();
  }
  ~Index() override { sqlite3_cancel_auto_extension(reinterpret_cast<void (*)()>(watch)); }

 private:
  void fill(Notebook& book, const char* name) const {
    BatchRecord b;
    b.name = name;
    b.volume_typed = "5L";
    b.volume_l = 5;
    b.started_at = moment_from_text("2026-03-02T10:00Z");
    const Id id = book.add(b);
    book.amend({id, b.started_at, "drink", "pear", {}, "forgotten"});
    ReadingRecord r;
    r.batch = id;
    r.instrument = stem_;
    r.made_at = r.noted_at = b.started_at;
    r.typed = "1.048";
    r.indication = 1.048;
    r.temperature_typed = "20C";
    r.temperature_c = 20;
    r.stage = Stage::original;
    const auto original = book.add(std::array{r, r, r});  // repeats of one sample
    ReadingRecord amended = r;
    amended.amends = original[1];
    amended.reason = "misread";
    book.add(std::array{amended});
    r.stage = Stage::present;
    r.indication = 1.020;
    const auto present = book.add(std::array{r, r});
    book.exclude_reading(present[0], {b.started_at, true, "bubbles"});
    AdditionRecord a;
    a.batch = id;
    a.made_at = a.noted_at = b.started_at;
    a.amount_typed = "40g";
    a.mass_g = 40;
    book.exclude_addition(book.add(a), {b.started_at, true, "spilt"});
    book.note(id, {b.started_at, true, ""});
  }
  Id stem_ = 0;
};

TEST_F(Index, ABatchIsShownWithoutReadingTheOthers) {
  Notebook book{path(), Open::read};
  scans.clear();  // opening looks at the whole of a small file
  batch::Batch batch{book, "PT-2"};
  for (const auto& p : batch.points()) EXPECT_TRUE(p.computed()) << p.refused;
  (void)batch.original("", end_of_time);
  (void)book.events(batch.record().id);
  (void)book.amendments(batch.record().id);
  (void)book.reading(5);
  EXPECT_EQ(book.count_readings(batch.record().id).count, 4);
  EXPECT_EQ(scans, std::vector<std::string>{});
}

TEST_F(Index, AReadingIsNotedWithoutReadingTheOthers) {
  Notebook book{path()};
  scans.clear();
  ReadingRecord r = book.reading(6);
  r.id = r.sample = 0;
  r.amends.reset();
  r.reason.clear();
  book.add(std::array{r});
  book.exclude_reading(6, {r.made_at, true, "bubbles"});
  EXPECT_EQ(scans, std::vector<std::string>{});
}

TEST_F(Index, AScanWouldBeSeen) {
  raw(path()).run("SELECT count(*) FROM reading WHERE note = 'x'");
  EXPECT_EQ(scans.size(), 1u);
}

}  // namespace
}  // namespace areo::notebook
