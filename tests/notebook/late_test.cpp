// SPDX-License-Identifier: GPL-3.0-or-later
// A correction that arrives late: which calibration holds for a reading of a moment.
#include <algorithm>

#include "areo/notebook/instrument_history.hpp"
#include "areo/notebook/recompute.hpp"
#include "batches.hpp"
#include "notebook/schema.hpp"

namespace areo::notebook {
namespace {

class Late : public Batches {
 protected:
  Id check(double reading, const char* at) { return book_.add(water_check(stem_, reading, at)); }
  Id calibrate(std::vector<Id> checks, const char* from, bool stated = false) {
    CalibrationRecord c = calibration(stem_, std::move(checks), from);
    c.from_stated = stated;
    return book_.add(c);
  }
  // 0 is none.
  Id holding(const char* at) {
    const auto c = book_.in_force(stem_, day(at));
    return c ? c->id : 0;
  }
};

TEST_F(Late, TheFirstCalibrationHoldsForEarlierReadings) {
  const Id c = check(1.003, "2026-05-25T10:00Z");
  EXPECT_EQ(holding("2026-05-20"), 0);
  const Id first = calibrate({c}, "2026-05-25T10:00Z");
  EXPECT_EQ(holding("2026-05-20"), first);
  EXPECT_EQ(holding("2026-05-26"), first);
  const Id second = calibrate({check(1.004, "2026-06-25T10:00Z")}, "2026-06-25T10:00Z");
  EXPECT_EQ(holding("2026-05-20"), first);
  EXPECT_EQ(holding("2026-06-24"), first);
  EXPECT_EQ(holding("2026-06-26"), second);
}

TEST_F(Late, UnlessItsOwnerStatedSinceWhen) {
  const Id c = check(1.003, "2026-05-25T10:00Z");
  const Id stated = calibrate({c}, "2026-05-25T10:00Z", true);
  EXPECT_EQ(holding("2026-05-20"), 0);
  EXPECT_EQ(holding("2026-05-26"), stated);
  // Of two from one moment the one added last counts, here as well.
  const Id anew = calibrate({c}, "2026-05-25T10:00Z");
  EXPECT_EQ(holding("2026-05-20"), anew);
}

TEST_F(Late, TheCorrectionIsOneAndSaysSo) {
  calibrate({check(1.003, "2026-05-25T10:00Z")}, "2026-05-25T10:00Z");
  const InstrumentRecord stem = book_.instrument(stem_);
  const auto before = correction_in_force(book_, stem, day("2026-05-20"));
  const auto after = correction_in_force(book_, stem, day("2026-05-26"));
  EXPECT_TRUE(instruments::same_knowledge(before, after));
  EXPECT_LT(before.offset, -0.002);
  EXPECT_TRUE(after.remarks.empty());
  ASSERT_EQ(before.remarks.size(), 1u);
  expect_contains(before.remarks[0], "checked later, on 2026-05-25");
  // A shelf that has computed the one does not forget to say it for the other.
  InstrumentHistory shelf{book_};
  EXPECT_TRUE(shelf.correction(stem_, day("2026-05-26")).remarks.empty());
  EXPECT_EQ(shelf.correction(stem_, day("2026-05-20")).remarks, before.remarks);
}

TEST_F(Late, AHeldCorrectionCountsAtAllTimesUntilItIsReleased) {
  const Id first = calibrate({check(1.003, "2026-05-25T10:00Z")}, "2026-05-25T10:00Z");
  const Id second = calibrate({check(1.006, "2026-06-25T10:00Z")}, "2026-06-25T10:00Z");
  InstrumentHistory shelf{book_};
  const auto offset = [&](const char* at) { return shelf.correction(stem_, day(at)).offset; };
  const double early = offset("2026-05-20");
  const double late = offset("2026-07-01");
  EXPECT_NEAR(late - early, -0.003, 1e-6);
  shelf.hold(stem_, second);
  EXPECT_EQ(offset("2026-05-20"), late);
  shelf.hold(stem_, first);
  EXPECT_EQ(offset("2026-07-01"), early);
  shelf.hold(stem_, std::nullopt);
  EXPECT_EQ(offset("2026-07-01"), 0);
  shelf.release();
  EXPECT_EQ(offset("2026-07-01"), late);
}

TEST_F(Late, ANewCalibrationNamesWhatItChanges) {
  const Id first = note(1.024, "2026-05-20T10:00Z");
  const Id gone = note(1.023, "2026-05-22T10:00Z");
  book_.exclude_reading(gone, exclusion(true, "bubbles"));
  const Id second = note(1.022, "2026-05-26T10:00Z");
  const InstrumentRecord stem = book_.instrument(stem_);
  const auto ids = [&](const std::vector<CalibrationRecord>& before) {
    std::vector<Id> all;
    for (const ReadWith& r : changed(book_, stem, before, book_.calibrations(stem_))) {
      EXPECT_EQ(r.of, "PT-1");
      all.push_back(r.id);
    }
    return all;
  };
  const Id c = check(1.003, "2026-05-25T10:00Z");
  calibrate({c}, "2026-05-25T10:00Z");
  EXPECT_EQ(ids({}), (std::vector{first, second}));
  // From the same checks anew: another row, the same correction.
  auto before = book_.calibrations(stem_);
  calibrate({c}, "2026-05-25T11:00Z");
  EXPECT_TRUE(ids(before).empty());
  before = book_.calibrations(stem_);
  calibrate({check(1.004, "2026-05-26T09:00Z")}, "2026-05-26T09:00Z");
  EXPECT_EQ(ids(before), std::vector{second});
}

// --- files of before ---

// The version before did not note whether the day was stated; it shows where it is not that of the
// last check.
TEST_F(TemporaryFolder, AnOlderNotebookTellsWhatWasStatedByItsDays) {
  {
    const sqlite::Connection db = raw(path());
    for (const char* step : {schema_1, schema_2, schema_3}) db.run(step);
    for (const char* row :
         {"INSERT INTO instrument VALUES (1, 'stem-1', 'hydrometer', 'specific_gravity', 20, 20, "
          "NULL, 0.99, 1.1, 0.002, 25e-6, NULL, NULL, '2026-02-28T18:00:00+00:00', '', NULL, NULL)",
          "INSERT INTO instrument SELECT 2, 'stem-2', kind, scale_kind, scale_sample_c, "
          "scale_water_c, scale_modulus, lo, hi, division, glass_expansion_per_c, meniscus_height, "
          "tolerance, added_at, note, compensated, also_gravity FROM instrument",
          "INSERT INTO check_reading VALUES (1, 1, 'water', '2026-03-01T10:00:00+00:00', "
          "1772359200, '1.001', 1.001, 0, '21C', 21, 0.5, 'level', NULL, NULL, NULL, NULL, NULL, "
          "NULL, NULL, NULL, NULL, NULL, NULL, NULL, '', NULL)",
          "INSERT INTO check_reading SELECT 2, 2, method, made_at, made_at_s, reading_typed, "
          "reading, reading_half_width, temperature_typed, temperature_c, "
          "temperature_half_width_c, meniscus, solute_g, water_g, balance_division_g, purity_lo, "
          "purity_hi, moisture_lo, moisture_hi, correction, expanded, coverage_factor, "
          "pressure_pa, pressure_half_width_pa, note, thermometer FROM check_reading",
          "INSERT INTO calibration VALUES (1, 1, '2026-03-01T10:00:00+00:00', 1772359200, '', "
          "NULL, NULL)",
          "INSERT INTO calibration VALUES (2, 2, '2026-02-15T00:00:00+00:00', 1771113600, '', "
          "NULL, NULL)",
          "INSERT INTO calibration_check VALUES (1, 1)",
          "INSERT INTO calibration_check VALUES (2, 2)"})
      db.run(row);
    db.run(("PRAGMA user_version = 3; PRAGMA application_id = " + std::to_string(application_id))
               .c_str());
  }
  Notebook book{path()};
  EXPECT_EQ(raw(path()).number("PRAGMA user_version"), schema_version);
  EXPECT_EQ(raw(path("notebook.db.version-3")).number("PRAGMA user_version"), 3);
  EXPECT_FALSE(book.calibrations(1).at(0).from_stated);
  EXPECT_TRUE(book.calibrations(2).at(0).from_stated);
  EXPECT_TRUE(book.in_force(1, day("2026-02-01")).has_value());
  EXPECT_FALSE(book.in_force(2, day("2026-02-01")).has_value());
}

TEST_F(Late, AnExportOfTheVersionBeforeComesBack) {
  calibrate({check(1.003, "2026-05-25T10:00Z")}, "2026-05-25T10:00Z");
  std::vector<NamedRow> rows;
  for (const Table& table : book_.tables())
    book_.each_row(table, [&](const std::vector<Cell>& cells) {
      NamedRow row{table.name, {}};
      for (std::size_t i = 0; i < cells.size(); ++i)
        if (table.columns[i].name != "from_stated")
          row.cells.emplace_back(table.columns[i].name, cells[i]);
      rows.push_back(std::move(row));
    });
  Notebook other{path("other.db"), Open::create};
  auto next = rows.begin();
  EXPECT_EQ(other
                .restore([&](NamedRow& row) {
                  if (next == rows.end()) return false;
                  row = *next++;
                  return true;
                })
                .added,
            static_cast<std::int64_t>(rows.size()));
  EXPECT_TRUE(other.in_force(stem_, day("2026-05-20")).has_value());
}

// --- which instrument ---

TEST_F(Late, AnInstrumentIsItsRow) {
  const Id another = book_.add(hydrometer("stem-2"));
  const auto identity = [](const Notebook& book, Id id) {
    return book.instrument(id).hydrometer()->identity;
  };
  EXPECT_EQ(identity(book_, stem_), identity(book_, stem_));
  EXPECT_NE(identity(book_, stem_), identity(book_, another));
  EXPECT_EQ(identity(Notebook{path(), Open::read}, stem_), identity(book_, stem_));
  Notebook other{path("other.db"), Open::create};
  EXPECT_NE(identity(other, other.add(hydrometer("stem-1"))), identity(book_, stem_));
}

}  // namespace
}  // namespace areo::notebook
