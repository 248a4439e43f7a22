// SPDX-License-Identifier: GPL-3.0-or-later
#include "evaluations.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace areo::notebook {

// SQLite tells of each row that this connection changes, before anybody can ask for what it means.
Evaluations::Evaluations(const sqlite::Connection& db) : db_{db.get()} {
  sqlite3_update_hook(
      db_,
      [](void* self, int, const char*, const char* table, sqlite3_int64) {
        constexpr std::array<std::string_view, 3> rests_on{"instrument", "check_reading",
                                                           "calibration"};
        if (std::find(rests_on.begin(), rests_on.end(), table) != rests_on.end())
          ++static_cast<Evaluations*>(self)->own_changes_;
      },
      this);
  sqlite3_rollback_hook(
      db_, [](void* self) { ++static_cast<Evaluations*>(self)->own_changes_; }, this);
}

Evaluations::~Evaluations() {
  sqlite3_update_hook(db_, nullptr, nullptr);
  sqlite3_rollback_hook(db_, nullptr, nullptr);
}

Evaluations::Seen Evaluations::up_to_date(const sqlite::Connection& db) {
  const Seen now{own_changes_, db.number("PRAGMA data_version")};
  const std::lock_guard alone{one_at_a_time_};
  if (now == seen_) return now;
  seen_ = now;
  sets_.clear();
  corrections_.clear();
  return now;
}

calibration::CheckSet Evaluations::of(const sqlite::Connection& db,
                                      const InstrumentRecord& instrument,
                                      std::span<const CheckRecord> checks,
                                      const std::function<calibration::CheckSet()>& make) {
  const Seen before = up_to_date(db);
  {
    const std::lock_guard alone{one_at_a_time_};
    for (const Set& s : sets_)
      if (s.instrument.id == instrument.id && std::ranges::equal(s.checks, checks) &&
          s.instrument.instrument == instrument.instrument)
        return *s.outcome;
  }
  const auto outcome = std::make_shared<const calibration::CheckSet>(make());
  ++made_;
  const std::lock_guard alone{one_at_a_time_};
  if (seen_ == before) sets_.push_back({instrument, {checks.begin(), checks.end()}, outcome});
  return *outcome;
}

instruments::Correction Evaluations::of(const sqlite::Connection& db,
                                        const CalibrationRecord& calibration,
                                        const std::function<instruments::Correction()>& make) {
  const Seen before = up_to_date(db);
  {
    const std::lock_guard alone{one_at_a_time_};
    for (const Known& k : corrections_)
      if (k.calibration == calibration) return k.correction;
  }
  instruments::Correction correction = make();
  const std::lock_guard alone{one_at_a_time_};
  if (seen_ == before) corrections_.push_back({calibration, correction});
  return correction;
}

}  // namespace areo::notebook
