// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What somebody does to a notebook, by chance.
#include <functional>
#include <string>

#include "disk.hpp"
#include "notebook/batches.hpp"

namespace areo::torture {

using notebook::Id;
using notebook::Notebook;
using notebook::ReadingRecord;

/// Does the same to every notebook that holds the same rows.
using Act = std::function<void(Notebook&)>;

inline Act add_sample(Id batch, Id stem, Chance& chance) {
  std::vector<ReadingRecord> sample(1 + chance() % 3);
  for (ReadingRecord& r : sample) {
    r = notebook::reading(batch, stem, 1.0 + static_cast<double>(chance() % 60) / 1000,
                          "2026-03-05T18:00Z");
    r.note = std::string(chance() % 8 == 0 ? chance() % 9000 : chance() % 40, 'n');
  }
  return [sample](Notebook& book) { book.add(sample); };
}

/// Something that can be done to a notebook like this one.
inline Act something(const Notebook& book, Chance& chance) {
  const auto instruments = book.instruments();
  if (instruments.empty()) return [](Notebook& b) { b.add(notebook::hydrometer("stem-1")); };
  const auto batches = book.batches();
  if (batches.empty()) return [](Notebook& b) { b.add(notebook::batch("PT-1")); };
  const Id pt1 = batches[0].id, stem = instruments[0].id;
  const auto readings = book.readings(pt1);
  const auto kind = chance() % 8;
  if (readings.empty() || kind < 5) return add_sample(pt1, stem, chance);
  if (kind == 5)
    return [pt1](Notebook& b) {
      notebook::AdditionRecord a;
      a.batch = pt1;
      a.mass_g = 50;
      b.add(a);
    };
  const ReadingRecord& one = readings[chance() % readings.size()];
  if (one.amended_by) return add_sample(pt1, stem, chance);
  if (kind == 6)
    return [id = one.id, now = one.excluded().empty()](Notebook& b) {
      b.exclude_reading(id, notebook::exclusion(now, "bubbles"));
    };
  ReadingRecord amended = notebook::reading(pt1, stem, 1.031, "2026-03-05T18:00Z");
  amended.amends = one.id;
  amended.reason = "slipped digit";
  return [amended](Notebook& b) { b.add(std::span{&amended, 1}); };
}

}  // namespace areo::torture
