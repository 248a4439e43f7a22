// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/nearest.hpp"

#include <algorithm>
#include <numeric>
#include <vector>

namespace areo {
namespace {

std::size_t distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t replaced = diagonal + (a[i] == b[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({replaced, row[j] + 1, diagonal + 1});
    }
  }
  return row.back();
}

}  // namespace

std::string nearest(std::string_view word, std::span<const std::string> known) {
  return nearest(word, known, std::max<std::size_t>(1, word.size() / 2));
}

std::string nearest(std::string_view word, std::span<const std::string> known, std::size_t most) {
  std::string best;
  std::size_t least = most + 1;
  for (const std::string& k : known) {
    const std::size_t d = distance(word, k);
    if (d < least) {
      least = d;
      best = k;
    }
  }
  return best;
}

}  // namespace areo
