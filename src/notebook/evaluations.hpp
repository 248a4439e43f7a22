// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What the checks of a notebook were found to say, so that no set of them is evaluated twice.
#include <atomic>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <span>
#include <vector>

#include "areo/calibration/check.hpp"
#include "areo/instruments/correction.hpp"
#include "areo/notebook/record.hpp"
#include "sqlite.hpp"

namespace areo::notebook {

/// Of one connection. Forgets everything when an instrument, a check or a calibration changes,
/// whoever changes it, as a check may rest on the calibration of a thermometer.
class Evaluations {
 public:
  explicit Evaluations(const sqlite::Connection& db);
  ~Evaluations();
  Evaluations(const Evaluations&) = delete;
  Evaluations& operator=(const Evaluations&) = delete;

  /// @param db  the same connection
  [[nodiscard]] calibration::CheckSet of(const sqlite::Connection& db,
                                         const InstrumentRecord& instrument,
                                         std::span<const CheckRecord> checks,
                                         const std::function<calibration::CheckSet()>& make);
  [[nodiscard]] instruments::Correction of(const sqlite::Connection& db,
                                           const CalibrationRecord& calibration,
                                           const std::function<instruments::Correction()>& make);
  [[nodiscard]] std::size_t made() const { return made_; }

 private:
  struct Set {
    InstrumentRecord instrument;
    std::vector<CheckRecord> checks;
    std::shared_ptr<const calibration::CheckSet> outcome;
  };
  struct Known {
    CalibrationRecord calibration;
    instruments::Correction correction;
  };
  struct Seen {  // by this connection, by others
    std::int64_t changes, version;
    friend bool operator==(const Seen&, const Seen&) = default;
  };
  /// Forgets what was made before the notebook was like this.
  [[nodiscard]] Seen up_to_date(const sqlite::Connection& db);
  sqlite3* db_;
  std::atomic<std::int64_t> own_changes_{0};
  std::atomic<std::size_t> made_{0};
  std::mutex one_at_a_time_;  // of what follows; never held while something is made
  Seen seen_{0, 0};
  std::vector<Set> sets_;
  std::vector<Known> corrections_;
};

}  // namespace areo::notebook
