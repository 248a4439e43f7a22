// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How long an attack goes on: briefly with every change, longer when somebody asks for it.
#include <algorithm>
#include <cstdlib>
#include <string>

namespace areo::torture {

/// With a sanitizer the same takes four times as long, and finds other things than more of it
/// would.
#ifdef __SANITIZE_ADDRESS__
inline constexpr int slower = 4;
#else
inline constexpr int slower = 1;
#endif

/// What the variable AREO_TORTURE multiplies the rounds of every attack by; 1 if it is not set.
inline int longer() {
  const char* more = std::getenv("AREO_TORTURE");
  return more == nullptr ? 1 : std::stoi(more);
}

inline int rounds(int ordinary) { return std::max(1, ordinary * longer() / slower); }

/// One of so many is tried; of fewer, up to each one, if it goes on for longer.
inline int one_of(int ordinary) { return std::max(1, ordinary * slower / longer()); }

/// The variable AREO_TORTURE_SEED makes all that is left to chance come out otherwise.
inline unsigned seed() {
  const char* other = std::getenv("AREO_TORTURE_SEED");
  return other == nullptr ? 20260301 : static_cast<unsigned>(std::stoul(other));
}

}  // namespace areo::torture
