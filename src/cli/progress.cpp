// SPDX-License-Identifier: GPL-3.0-or-later
#include "progress.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <string>

namespace areo::cli {
namespace {

constexpr int width = 40;
constexpr std::chrono::seconds patience{1};
// "sampling [", the bar, "] 100 %"
constexpr int columns = 10 + width + 7;

void draw(const std::string& text) {
  std::fwrite(text.data(), 1, text.size(), stderr);
  std::fflush(stderr);
}

}  // namespace

ProgressBar::ProgressBar()
    : begin_{std::chrono::steady_clock::now()}, terminal_{isatty(STDERR_FILENO) != 0} {}

// Blanks, which every terminal knows, instead of an escape sequence.
ProgressBar::~ProgressBar() {
  if (drawn_) draw("\r" + std::string(columns, ' ') + "\r");
}

void ProgressBar::show(double fraction) {
  if (!terminal_ || std::chrono::steady_clock::now() - begin_ < patience) return;
  const double part = std::clamp(fraction, 0.0, 1.0);
  const std::string bar(static_cast<std::size_t>(part * width), '#');
  draw(fmt::format("\rsampling [{:<{}}] {:3.0f} %", bar, width, 100 * part));
  drawn_ = true;
}

}  // namespace areo::cli
