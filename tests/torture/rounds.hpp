#pragma once
// How long an attack goes on: briefly with every change, longer when somebody asks for it.
#include <algorithm>
#include <cstdlib>
#include <string>

namespace areo::torture {

/// The variable AREO_TORTURE multiplies the rounds of every attack; 1 if it is not set.
inline int rounds(int ordinary) {
  const char* more = std::getenv("AREO_TORTURE");
  return more == nullptr ? ordinary : ordinary * std::stoi(more);
}

/// One of so many is tried; of fewer, up to each one, if it takes longer.
inline int one_of(int ordinary) { return std::max(1, ordinary / rounds(1)); }

/// The variable AREO_TORTURE_SEED makes all that is left to chance come out otherwise.
inline unsigned seed() {
  const char* other = std::getenv("AREO_TORTURE_SEED");
  return other == nullptr ? 20260301 : static_cast<unsigned>(std::stoul(other));
}

}  // namespace areo::torture
