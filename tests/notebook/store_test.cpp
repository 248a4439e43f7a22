// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/notebook/store.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "areo/core/error.hpp"
#include "notebook/schema.hpp"
#include "notebook/sqlite.hpp"
#include "temporary.hpp"

namespace areo::notebook {
namespace {

using sqlite::Connection;
using sqlite::Statement;
using Store = TemporaryFolder;

// --- what goes in comes out ---

TEST_F(Store, KeepsEveryFieldOfAHydrometer) {
  const physics::Scale scales[] = {physics::sg_20_20,
                                   physics::specific_gravity_scale<Ref60F>(),
                                   physics::specific_gravity_scale<Ref20_4>(),
                                   physics::apparent_sg_20_20,
                                   physics::density_20,
                                   physics::plato_20,
                                   physics::brix_20,
                                   physics::baume_scale<Modulus145>(),
                                   physics::baume_scale<Modulus144_3>(),
                                   physics::oechsle_20,
                                   physics::sugar_g_l_20};
  int i = 0;
  for (const physics::Scale& scale : scales) {
    InstrumentRecord r = hydrometer("stem-" + std::to_string(++i));
    auto& h = std::get<instruments::Hydrometer>(r.instrument);
    h.scale = scale;
    h.lo = physics::mark_from_liquid(scale, {});
    h.hi = physics::mark_from_liquid(scale, {.extract = ExtractFraction{1.0 / 7}});
    h.division = (h.hi - h.lo) / 30;
    h.glass_expansion_per_c = 9.9e-6;
    if (i % 2 == 0) h.meniscus_height = 0.0028;
    if (i % 3 == 0) h.tolerance = 0.0015;
    r.note = "note " + std::to_string(i);
    const Id id = Notebook{path(), Open::create}.add(r);
    const InstrumentRecord back = Notebook{path()}.instrument(h.name);
    EXPECT_EQ(back.id, id);
    ASSERT_NE(back.hydrometer(), nullptr);
    EXPECT_EQ(back.thermometer(), nullptr);
    EXPECT_EQ(back.name(), h.name);
    EXPECT_EQ(back.hydrometer()->scale, h.scale);
    EXPECT_EQ(back.hydrometer()->lo, h.lo);
    EXPECT_EQ(back.hydrometer()->hi, h.hi);
    EXPECT_EQ(back.hydrometer()->division, h.division);
    EXPECT_EQ(back.hydrometer()->glass_expansion_per_c, h.glass_expansion_per_c);
    EXPECT_EQ(back.hydrometer()->meniscus_height, h.meniscus_height);
    EXPECT_EQ(back.hydrometer()->tolerance, h.tolerance);
    EXPECT_EQ(back.added_at.text(), "2026-02-28T18:00:00+01:00");
    EXPECT_EQ(back.note, r.note);
  }
}

TEST_F(Store, KeepsEveryFieldOfARefractometer) {
  Notebook book{path(), Open::create};
  const instruments::Refractometer plain{"prism-1"};
  const instruments::Refractometer other{
      "prism-2", instruments::RefractometerScale::index, 1.33, 1.42, 0.0005, true, true, 0.0003};
  for (const auto& r : {plain, other}) {
    InstrumentRecord record;
    record.instrument = r;
    record.added_at = moment_from_text("2026-03-01");
    book.add(record);
    const InstrumentRecord back = Notebook{path()}.instrument(r.name);
    ASSERT_NE(back.refractometer(), nullptr);
    EXPECT_STREQ(back.kind(), "refractometer");
    const instruments::Refractometer& b = *back.refractometer();
    EXPECT_EQ(b.name, r.name);
    EXPECT_EQ(b.scale, r.scale);
    EXPECT_EQ(b.lo, r.lo);
    EXPECT_EQ(b.hi, r.hi);
    EXPECT_EQ(b.division, r.division);
    EXPECT_EQ(b.compensated, r.compensated);
    EXPECT_EQ(b.also_gravity, r.also_gravity);
    EXPECT_EQ(b.tolerance, r.tolerance);
  }
}

TEST_F(Store, KeepsEveryFieldOfAThermometer) {
  InstrumentRecord r;
  r.instrument = instruments::Thermometer{"probe-1", -12.5, 104.25, 0.1};
  r.added_at = moment_from_text("2026-02-28T18:00:00-03:30");
  Notebook{path(), Open::create}.add(r);
  const InstrumentRecord back = Notebook{path()}.instrument("probe-1");
  ASSERT_NE(back.thermometer(), nullptr);
  EXPECT_EQ(back.hydrometer(), nullptr);
  EXPECT_EQ(back.thermometer()->name, "probe-1");
  EXPECT_EQ(back.thermometer()->lo_c, -12.5);
  EXPECT_EQ(back.thermometer()->hi_c, 104.25);
  EXPECT_EQ(back.thermometer()->division_c, 0.1);
  EXPECT_EQ(back.added_at.text(), r.added_at.text());
}

void expect_equal(const CheckRecord& a, const CheckRecord& b) {
  EXPECT_EQ(a.instrument, b.instrument);
  EXPECT_EQ(a.method, b.method);
  EXPECT_EQ(a.made_at.text(), b.made_at.text());
  EXPECT_EQ(a.reading_typed, b.reading_typed);
  EXPECT_EQ(a.reading, b.reading);
  EXPECT_EQ(a.reading_half_width, b.reading_half_width);
  EXPECT_EQ(a.temperature_typed, b.temperature_typed);
  EXPECT_EQ(a.temperature_c, b.temperature_c);
  EXPECT_EQ(a.temperature_half_width_c, b.temperature_half_width_c);
  EXPECT_EQ(a.meniscus, b.meniscus);
  ASSERT_EQ(a.solution.has_value(), b.solution.has_value());
  if (a.solution) {
    EXPECT_EQ(a.solution->solute, b.solution->solute);
    EXPECT_EQ(a.solution->solute_g, b.solution->solute_g);
    EXPECT_EQ(a.solution->water_g, b.solution->water_g);
    EXPECT_EQ(a.solution->balance_division_g, b.solution->balance_division_g);
    EXPECT_EQ(a.solution->purity_lo, b.solution->purity_lo);
    EXPECT_EQ(a.solution->purity_hi, b.solution->purity_hi);
    EXPECT_EQ(a.solution->moisture_lo, b.solution->moisture_lo);
    EXPECT_EQ(a.solution->moisture_hi, b.solution->moisture_hi);
  }
  EXPECT_EQ(a.correction, b.correction);
  EXPECT_EQ(a.expanded, b.expanded);
  EXPECT_EQ(a.coverage_factor, b.coverage_factor);
  EXPECT_EQ(a.pressure_pa, b.pressure_pa);
  EXPECT_EQ(a.pressure_half_width_pa, b.pressure_half_width_pa);
  EXPECT_EQ(a.note, b.note);
  EXPECT_EQ(a.thermometer, b.thermometer);
}

TEST_F(Store, KeepsEveryFieldOfACheck) {
  Notebook book{path(), Open::create};
  const Id stem = book.add(hydrometer("stem-1"));
  const Id probe = book.add(thermometer("probe-1"));
  std::vector<CheckRecord> in;
  for (const CheckMethod m : {CheckMethod::water, CheckMethod::sugar, CheckMethod::salt,
                              CheckMethod::certificate, CheckMethod::ice, CheckMethod::boiling}) {
    const bool hot_or_cold = m == CheckMethod::ice || m == CheckMethod::boiling;
    const double reading = 1.0 + static_cast<double>(in.size()) / 300;
    CheckRecord c =
        water_check(hot_or_cold ? probe : stem,
                    hot_or_cold ? (m == CheckMethod::ice ? 1.0 / 3 : 99 + 1.0 / 3) : reading,
                    "2026-03-01T10:15+01:00");
    c.method = m;
    c.reading_typed = "1,001";
    c.reading_half_width = (0.1 + 0.2) / 100;  // not the nearest double to 0.003
    c.temperature_half_width_c = 0.25;
    c.thermometer = probe;
    c.note = "with a \"note\"";
    if (m == CheckMethod::sugar) {
      c.solution = calibration::WeighedSolution{
          calibration::Solute::sucrose, 52.1, 448.3, 0.1, 0.99, 0.995, 0.001, 0.002};
      c.meniscus = instruments::Meniscus::top;
    }
    if (m == CheckMethod::salt) c.solution = calibration::salt_solution(28.5, 471.5, 0.1);
    if (m == CheckMethod::certificate) {
      c.correction = -0.0004;
      c.expanded = 0.0003;
      c.coverage_factor = 2.1;
      c.temperature_typed = "";
      c.temperature_c.reset();
    }
    if (m == CheckMethod::boiling) {
      c.pressure_pa = 98200.5;
      c.pressure_half_width_pa = 200;
    }
    c.id = book.add(c);
    in.push_back(c);
  }
  auto out = Notebook{path()}.checks(stem);
  for (const CheckRecord& c : Notebook{path()}.checks(probe)) out.push_back(c);
  ASSERT_EQ(out.size(), in.size());
  for (std::size_t i = 0; i < in.size(); ++i) {
    SCOPED_TRACE(word(in[i].method));
    EXPECT_EQ(out[i].id, in[i].id);
    expect_equal(out[i], in[i]);
  }
}

TEST_F(Store, KeepsEveryFieldOfACalibration) {
  Notebook book{path(), Open::create};
  const Id stem = book.add(hydrometer("stem-1"));
  const Id first = book.add(water_check(stem, 1.001, "2026-03-01T10:00Z"));
  const Id second = book.add(water_check(stem, 1.002, "2026-03-01T11:00Z"));
  CalibrationRecord r = calibration(stem, {second, first}, "2026-03-01T12:00:00+01:00");
  r.note = "both";
  const Id id = book.add(r);
  const auto back = Notebook{path()}.calibrations(stem);
  ASSERT_EQ(back.size(), 1u);
  EXPECT_EQ(back[0].id, id);
  EXPECT_EQ(back[0].instrument, stem);
  EXPECT_EQ(back[0].in_force_from.text(), "2026-03-01T12:00:00+01:00");
  EXPECT_EQ(back[0].checks, (std::vector<Id>{first, second}));
  EXPECT_EQ(back[0].note, "both");
}

TEST_F(Store, ListsInOrder) {
  Notebook book{path(), Open::create};
  const Id b = book.add(hydrometer("b"));
  book.add(hydrometer("a"));
  EXPECT_EQ(book.instruments()[0].name(), "a");
  book.add(water_check(b, 1.003, "2026-03-01T12:00+03:00"));  // 09:00Z
  book.add(water_check(b, 1.001, "2026-03-01T08:00Z"));
  book.add(water_check(b, 1.002, "2026-03-01T10:00+02:00"));  // 08:00Z too: as added
  std::vector<double> readings;
  for (const auto& c : book.checks(b)) readings.push_back(c.reading);
  EXPECT_EQ(readings, (std::vector<double>{1.001, 1.002, 1.003}));
  EXPECT_TRUE(book.checks(b + 100).empty());
}

TEST_F(Store, KeepsHostileNames) {
  const std::string names[] = {"\x1b[31mred",
                               "line\nend",
                               "'; DROP TABLE instrument; --",
                               R"("quoted")",
                               "<script>x</script>",
                               "=cmd|x",
                               "-1",
                               "%s%n",
                               "../../x",
                               "é水",
                               "\xff\xfe",
                               std::string(100000, 'n'),
                               " "};
  Notebook book{path(), Open::create};
  for (const std::string& n : names) {
    InstrumentRecord r = hydrometer(n);
    r.note = n;
    book.add(r);
  }
  const Notebook again{path()};
  EXPECT_EQ(again.instruments().size(), std::size(names));
  for (const std::string& n : names) {
    EXPECT_EQ(again.instrument(n).name(), n);
    EXPECT_EQ(again.instrument(n).note, n);
  }
}

// --- in force ---

TEST_F(Store, TheNewestCalibrationBeforeTheMomentIsInForce) {
  Notebook book{path(), Open::create};
  const Id stem = book.add(hydrometer("stem-1"));
  const Id other = book.add(hydrometer("stem-2"));
  const Id check = book.add(water_check(stem, 1.001, "2026-03-01T10:00Z"));
  const Id late = book.add(calibration(stem, {check}, "2026-03-10T10:00Z"));  // added first
  const Id early = book.add(calibration(stem, {check}, "2026-03-01T10:00Z"));
  const auto at = [&](const char* text) {
    const auto c = book.in_force(stem, moment_from_text(text));
    return c ? c->id : 0;
  };
  EXPECT_EQ(at("2026-03-01T09:59:59Z"), early);  // the first one holds for earlier readings too
  EXPECT_EQ(at("2026-03-01T10:00:00Z"), early);  // from that very moment on
  EXPECT_EQ(at("2026-03-01T11:00:00+01:00"), early);
  EXPECT_EQ(at("2026-03-10T09:59:59Z"), early);
  EXPECT_EQ(at("2026-03-10T10:00:00Z"), late);
  EXPECT_EQ(at("2030-01-01T00:00:00Z"), late);
  EXPECT_FALSE(book.in_force(other, moment_from_text("2030-01-01")).has_value());
  const Id same = book.add(calibration(stem, {check}, "2026-03-10T12:00+02:00"));
  EXPECT_EQ(at("2026-03-10T10:00:00Z"), same);  // of two from one moment, the one added last
}

// --- all or nothing ---

TEST_F(Store, ARefusedCalibrationLeavesNoRow) {
  Notebook book{path(), Open::create};
  const Id stem = book.add(hydrometer("stem-1"));
  const Id other = book.add(hydrometer("stem-2"));
  const Id own = book.add(water_check(stem, 1.001, "2026-03-01T10:00Z"));
  const Id foreign = book.add(water_check(other, 1.001, "2026-03-01T10:00Z"));
  expect_contains(refusal([&] {
                    book.add(calibration(stem, {own, foreign}, "2026-03-01"));
                  }),
                  "this instrument has no check " + std::to_string(foreign));
  expect_contains(refusal([&] {
                    book.add(calibration(stem, {own, 999}, "2026-03-01"));
                  }),
                  "check 999");
  expect_contains(refusal([&] { book.add(calibration(stem, {}, "2026-03-01")); }), "needs a check");
  EXPECT_NE(refusal([&] { book.add(calibration(stem, {own, own}, "2026-03-01")); }), "accepted");
  EXPECT_TRUE(book.calibrations(stem).empty());
  const Connection db = raw(path());
  EXPECT_EQ(db.number("SELECT count(*) FROM calibration"), 0);
  EXPECT_EQ(db.number("SELECT count(*) FROM calibration_check"), 0);
  EXPECT_GT(book.add(calibration(stem, {own}, "2026-03-01")), 0);  // and is usable afterwards
}

TEST_F(Store, ARefusedCheckOrInstrumentLeavesNoRow) {
  Notebook book{path(), Open::create};
  const Id stem = book.add(hydrometer("stem-1"));
  EXPECT_NE(refusal([&] { book.add(water_check(stem + 1, 1.001, "2026-03-01")); }), "accepted");
  CheckRecord no_number = water_check(stem, std::numeric_limits<double>::quiet_NaN(), "2026-03-01");
  EXPECT_NE(refusal([&] { book.add(no_number); }), "accepted");  // SQLite has no NaN: a null
  InstrumentRecord upside_down = hydrometer("stem-2");
  std::get<instruments::Hydrometer>(upside_down.instrument).hi = 0;
  EXPECT_NE(refusal([&] { book.add(upside_down); }), "accepted");
  EXPECT_NE(refusal([&] { book.add(hydrometer("")); }), "accepted");
  EXPECT_TRUE(book.checks(stem).empty());
  EXPECT_EQ(book.instruments().size(), 1u);
}

TEST_F(Store, ATransactionThatIsNotCommittedIsUndone) {
  const Connection db = raw(path());
  db.run("CREATE TABLE t (x INTEGER) STRICT");
  {
    const sqlite::Transaction t{db};
    db.run("INSERT INTO t VALUES (1)");
  }
  EXPECT_EQ(db.number("SELECT count(*) FROM t"), 0);
  {
    sqlite::Transaction t{db};
    db.run("INSERT INTO t VALUES (1)");
    t.commit();
  }
  EXPECT_EQ(db.number("SELECT count(*) FROM t"), 1);
}

TEST_F(Store, WhatWasReadIsNeverChanged) {
  {
    Notebook book{path(), Open::create};
    const Id stem = book.add(hydrometer("stem-1"));
    const Id check = book.add(water_check(stem, 1.001, "2026-03-01T10:00Z"));
    book.add(calibration(stem, {check}, "2026-03-01"));
  }
  const Connection db = raw(path());
  for (const char* sql :
       {"UPDATE check_reading SET reading = 1", "DELETE FROM check_reading",
        "UPDATE calibration SET in_force_from_s = 0", "DELETE FROM calibration",
        "UPDATE check_reading SET note = 'x' WHERE id = 1", "UPDATE instrument SET division = 1",
        "DELETE FROM instrument", "UPDATE calibration_check SET check_reading = 1",
        "DELETE FROM calibration_check"})
    expect_contains(refusal([&] { db.run(sql); }), "never");
  EXPECT_EQ(db.number("SELECT count(*) FROM check_reading WHERE reading = 1.001"), 1);
  EXPECT_EQ(db.number("SELECT count(*) FROM calibration WHERE in_force_from_s <> 0"), 1);
}

TEST_F(Store, ANumberIsNeverStoredAsText) {
  Notebook{path(), Open::create}.add(hydrometer("stem-1"));
  const Connection db = raw(path());
  expect_contains(
      refusal([&] {
        db.run(
            "INSERT INTO calibration (instrument, in_force_from, in_force_from_s, note) "
            "VALUES (1, '2026-03-01', 'long ago', '')");
      }),
      "cannot store TEXT value in INTEGER column");
}

TEST_F(Store, WritesThroughToTheDisk) {
  const Notebook book{path(), Open::create};
  const Connection db = raw(path());
  Statement mode{db, "PRAGMA journal_mode"};
  ASSERT_TRUE(mode.step());
  EXPECT_EQ(mode.text(0), "wal");
  EXPECT_EQ(db.number("PRAGMA user_version"), schema_version);
  EXPECT_EQ(db.number("PRAGMA application_id"), application_id);
}

// --- names ---

TEST_F(Store, RefusesANameThatIsTaken) {
  Notebook book{path(), Open::create};
  book.add(hydrometer("stem-1"));
  InstrumentRecord thermometer;
  thermometer.instrument = instruments::Thermometer{"stem-1"};
  for (const InstrumentRecord& r : {hydrometer("stem-1"), thermometer})
    expect_contains(refusal([&] { book.add(r); }), "there is an instrument 'stem-1' already");
  EXPECT_EQ(book.instruments().size(), 1u);
}

TEST_F(Store, SuggestsTheNearestName) {
  Notebook book{path(), Open::create};
  book.add(hydrometer("stem-1"));
  expect_contains(refusal([&] { (void)book.instrument("stm-1"); }),
                  "there is no instrument 'stm-1' | did you mean 'stem-1'?");
  expect_contains(refusal([&] { (void)book.instrument("pycnometer"); }), "areo instrument list");
}

}  // namespace
}  // namespace areo::notebook
