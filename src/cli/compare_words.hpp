#pragma once
// The bottles of a batch against each other, in words.
#include <cstdint>
#include <cstdlib>
#include <string>
#include <vector>

#include "areo/batch/batch.hpp"
#include "areo/trend/compare.hpp"

namespace areo::cli {

/// So near counts as the same, % vol: the tolerance of the label of a beer up to 5.5 % vol,
/// Regulation (EU) 1169/2011 Annex XII. A judgement for other drinks.
inline constexpr double usual_within = 0.5;

/// The last reading of each bottle that has a strength, by name; "" is the batch as a whole.
[[nodiscard]] std::vector<batch::Point> last_of_each_bottle(batch::Batch& batch);

/// Two of these points, which must outlive it.
struct BottlePair {
  const batch::Point *a, *b;
  trend::Comparison c;
  [[nodiscard]] std::int64_t apart_s() const {
    return std::abs(b->sample.at().seconds - a->sample.at().seconds);
  }
};
[[nodiscard]] std::vector<BottlePair> pairs_of(const std::vector<batch::Point>& points,
                                               double within);

/// What was read, below the names of the columns.
[[nodiscard]] std::vector<std::vector<std::string>> bottle_rows(
    const std::vector<batch::Point>& points, bool full);
/// A verdict for each pair, and what has to be known of them.
[[nodiscard]] std::vector<std::string> comparison_lines(const std::vector<BottlePair>& pairs,
                                                        double within);

}  // namespace areo::cli
