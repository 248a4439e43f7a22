// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Electricity that fails while something is written.
#include <sqlite3.h>

#include <limits>
#include <optional>

#include "vfs.hpp"

namespace areo::torture {

/// Fails at one of the calls that change the disk; from then on nothing works.
class Power {
 public:
  static constexpr int never = std::numeric_limits<int>::max();
  Power(Disk& disk, Chance& chance, int calls) : disk_{&disk}, chance_{&chance}, left_{calls} {}

  int answer(Call call) {
    if (off()) return SQLITE_IOERR;
    if (!changes(call)) return SQLITE_OK;
    ++calls_;
    if (--left_ > 0) return SQLITE_OK;
    fail();
    return SQLITE_IOERR;
  }
  void fail() {
    if (off()) return;
    files_ = disk_->after_a_cut(*chance_);
    disk_->stop();
  }
  [[nodiscard]] bool off() const { return files_.has_value(); }
  /// What lies on the disk afterwards.
  [[nodiscard]] const Files& files() const { return files_.value(); }
  /// Calls that changed the disk.
  [[nodiscard]] int calls() const { return calls_; }

 private:
  Disk* disk_;
  Chance* chance_;
  int left_, calls_ = 0;
  std::optional<Files> files_;
};

}  // namespace areo::torture
