// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Bottles, batches or days against each other, in words.
#include <cstdint>
#include <cstdlib>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "areo/batch/batch.hpp"
#include "areo/trend/compare.hpp"

namespace areo::wording {

/// One of those that are compared: a reading with a strength.
struct ComparedReading {
  std::string title;  ///< for people: "A", "the batch", "PT-1", "2026-03-09 10:00"
  std::string key;    ///< for programs; "" is the batch as a whole among bottles
  std::string batch;
  batch::Point point;
  std::vector<std::string> odd{};  ///< of what is odd and later, or of itself: a sentence each
};
/// The last reading of each bottle that has a strength and goes with the others, by name, and of
/// the batch as a whole. Where none does, the last one.
[[nodiscard]] std::vector<ComparedReading> bottles_of(batch::Batch& batch);
/// The same, told apart from those of other batches.
[[nodiscard]] std::vector<ComparedReading> named_after_batch(batch::Batch& batch);
/// The last reading of a bottle that has a strength, at the end of each of these days or before.
/// @throws ParseError for a text that is not a past day; Error{inconsistent} for a day before the
///         first such reading, and for two days that come to the same reading
[[nodiscard]] std::vector<ComparedReading> days_of(batch::Batch& batch, const std::string& bottle,
                                                   const std::vector<std::string>& days);

/// What is compared: of one batch its bottles, or what was read of one until each of these days; of
/// several batches the bottles of all.
/// @param batches  at least one; of one only if there are days
/// @throws as days_of(); Error{inconsistent} if that is not two at least
[[nodiscard]] std::vector<ComparedReading> compared_of(std::span<batch::Batch* const> batches,
                                                       const std::string& bottle,
                                                       const std::vector<std::string>& days);
/// "0.3", "0.3%vol": how near counts as the same; nothing if empty.
/// @throws ParseError
[[nodiscard]] std::optional<double> within_from_text(const std::string& text);

/// Two of these contenders, which must outlive it.
struct ComparedPair {
  const ComparedReading *a, *b;
  trend::Comparison c;
  [[nodiscard]] std::int64_t apart_s() const {
    return std::abs(b->point.sample.at().seconds - a->point.sample.at().seconds);
  }
};
/// Counts their rounding where everything in these batches was read in whole divisions.
[[nodiscard]] std::vector<ComparedPair> pairs_of(const std::vector<ComparedReading>& all,
                                                 std::span<batch::Batch* const> batches,
                                                 const std::optional<double>& within);
/// That rounding counts: a sentence, or nothing.
[[nodiscard]] std::vector<std::string> notes_on_rounding(std::span<batch::Batch* const> batches);
/// On odd readings: a sentence each.
[[nodiscard]] std::vector<std::string> notes_on_odd(const std::vector<ComparedReading>& all);
/// "B is stronger by 0.12 ± 0.16 % vol"
[[nodiscard]] std::string stronger_text(const ComparedPair& p);

/// What was read, below the names of the columns.
/// @param what  names the first column
[[nodiscard]] std::vector<std::vector<std::string>> compared_rows(
    const std::vector<ComparedReading>& all, const std::string& what, bool full);
/// Every contender against every other one, below their names: "different", "same", "cannot tell".
/// Of two alone there is no matrix.
[[nodiscard]] std::vector<std::vector<std::string>> comparison_matrix(
    const std::vector<ComparedReading>& all, const std::vector<ComparedPair>& pairs);
/// A verdict for each pair, and what has to be known of them.
[[nodiscard]] std::vector<std::string> comparison_lines(const std::vector<ComparedPair>& pairs,
                                                        const std::optional<double>& within);
/// Each contender as point_json(), then each pair: {"compare", "verdict", ...}.
/// @param line  takes each
void each_comparison_json(std::span<batch::Batch* const> batches,
                          const std::vector<ComparedReading>& all,
                          const std::vector<ComparedPair>& pairs,
                          const std::optional<double>& within,
                          const std::function<void(const std::string&)>& line);
/// Days with an addition between them: a sentence, or nothing.
[[nodiscard]] std::vector<std::string> notes_on_additions(const batch::Batch& batch,
                                                          const std::vector<ComparedReading>& days);
/// Bottles that were not read at about the same time: a sentence, or nothing.
[[nodiscard]] std::vector<std::string> notes_on_time(const std::vector<ComparedPair>& pairs);

/// What the strengths hold for, culture by culture.
[[nodiscard]] std::vector<std::string> bases_lines(std::span<batch::Batch* const> batches);

}  // namespace areo::wording
