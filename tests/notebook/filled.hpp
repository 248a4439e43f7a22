// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// One of everything that a notebook holds, and all of its rows as an export has them.
#include <utility>
#include <vector>

#include "areo/notebook/dump.hpp"
#include "areo/notebook/store.hpp"
#include "temporary.hpp"

namespace areo::notebook {

using Rows = std::vector<NamedRow>;

/// In order of their tables and keys.
inline Rows rows_of(const Notebook& book) {
  Rows all;
  for (const Table& table : book.tables())
    book.each_row(table, [&](const std::vector<Cell>& cells) {
      NamedRow row{table.name, {}};
      for (std::size_t i = 0; i < cells.size(); ++i)
        row.cells.emplace_back(table.columns[i].name, cells[i]);
      all.push_back(std::move(row));
    });
  return all;
}

inline NextRow from(const Rows& rows) {
  return [&rows, i = std::size_t{0}](NamedRow& row) mutable {
    if (i == rows.size()) return false;
    row = rows[i++];
    return true;
  };
}

/// A row in every table.
/// @return the batch
inline Id fill(Notebook& book) {
  const Id stem = book.add(hydrometer("stem-1"));
  InstrumentRecord prism = hydrometer("");
  prism.instrument = instruments::Refractometer{.name = "prism-1"};
  const Id prism_id = book.add(prism);
  const Id check = book.add(water_check(stem, 1.001, "2026-03-01T10:00Z"));
  CalibrationRecord c = calibration(stem, {check}, "2026-03-01T10:00Z");
  c.due = moment_from_text("2027-03-01");
  book.add(c);
  LiquidPairRecord pair;
  pair.liquid = "pear-juice";
  pair.made_at = moment_from_text("2026-03-01T11:00Z");
  pair.refraction = {prism_id, "12.6", 12.6, 0, "20C", 20.0};
  pair.gravity = {stem, "1.050", 1.050, 0, "20C", 20.0};
  book.leave_out("pear-juice", book.add(pair), moment_from_text("2026-03-02"), "cloudy");
  BatchRecord b;
  b.name = "PT-1";
  b.note = "=cmd";
  const Id batch = book.add(b);
  std::vector<ReadingRecord> two(2);
  for (ReadingRecord& r : two) {
    r.batch = batch;
    r.instrument = stem;
    r.indication = 1.048;
  }
  const auto ids = book.add(two);
  two[0].amends = ids[0];
  two[0].reason = "slip";
  book.add(std::span{two.data(), 1});
  book.exclude_reading(ids[1], {moment_from_text("2026-03-02"), true, "bubbles"});
  AdditionRecord a;
  a.batch = batch;
  a.mass_g = 50;
  book.exclude_addition(book.add(a), {moment_from_text("2026-03-02"), true, "other jar"});
  book.note(batch, {moment_from_text("2026-03-03"), true, ""});
  book.amend({batch, moment_from_text("2026-03-03"), "volume", "4L", 4, "measured"});
  book.retire(stem, moment_from_text("2026-03-04"), "broke");
  book.set("mass", "oz", moment_from_text("2026-03-04"));
  return batch;
}

}  // namespace areo::notebook
