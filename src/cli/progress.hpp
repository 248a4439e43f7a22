// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A bar on the terminal for what takes long.
#include <chrono>

namespace areo::cli {

/// Draws on standard error, if that is a terminal and more than a second has passed; gone without a
/// trace when it ends.
class ProgressBar {
 public:
  ProgressBar();
  ~ProgressBar();
  ProgressBar(const ProgressBar&) = delete;
  ProgressBar& operator=(const ProgressBar&) = delete;

  /// @param fraction  done, 0 .. 1
  void show(double fraction);

 private:
  std::chrono::steady_clock::time_point begin_;
  bool terminal_, drawn_ = false;
};

}  // namespace areo::cli
