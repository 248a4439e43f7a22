// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A budget of uncertainty for people and for programs.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "areo/measurement/alcohol.hpp"
#include "areo/measurement/result.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo::wording {

/// The word of docs/reference/json.md for a distribution: "rectangular", "student_t".
[[nodiscard]] const char* distribution_word(uncertainty::Distribution distribution);

/// Whether a measure moves the second digit of the expanded uncertainty by one unit at least.
[[nodiscard]] bool worth_taking(const uncertainty::Value& before, const uncertainty::Value& after);

/// The key of the quantity that a budget is asked of; the first one if empty.
/// @throws ParseError naming the nearest one, or all
[[nodiscard]] std::string budget_key(const measurement::Result& result, const std::string& of);
/// A ± that is wanted, in the unit of the result; nothing if empty.
/// @throws ParseError
[[nodiscard]] std::optional<double> target_from_text(const std::string& text);

/// A contribution to an uncertainty: the ± for about 95 % that the result would have if there were
/// no other.
struct BudgetPart {
  double expanded = 0;  ///< in the unit of the quantity
  std::string text;     ///< the same with the digits that the whole supports: "± 0.27"
  double fraction = 0;  ///< of the variance
  std::string name;     ///< of the input
  std::string of;       ///< the reading that the input belongs to, with which its name ends, if any
  std::string provenance;
};
struct BudgetParts {
  std::vector<BudgetPart> parts;  ///< largest first; half a percent of the variance or more
  std::string rest;               ///< "and 4 more, together 0.3 %"; empty if there are none
};
/// @throws Error{domain} as analysis::budget()
[[nodiscard]] BudgetParts budget_parts(const measurement::Result& result, std::string_view key,
                                       bool full = false);

/// What each measure alone would gain, and all of them.
/// @throws Error{domain} as analysis::budget()
[[nodiscard]] std::vector<std::string> measure_sentences(const measurement::Result& result,
                                                         std::string_view key, bool full = false);

/// A table of contributions, largest first, with bars and provenance, 80 columns wide; then what
/// measures would gain, and with a target the cheapest way to it. A contribution is shown as the ±
/// for about 95 % that the result would have if there were no other; those below half a percent of
/// the variance are summed up.
/// @param target  expanded uncertainty, unit of the quantity, > 0
/// @param full    with more digits, as value_text()
/// @throws Error{domain} as analysis::budget() and analysis::cheapest()
[[nodiscard]] std::vector<std::string> budget_lines(const measurement::Result& result,
                                                    std::string_view key,
                                                    std::optional<double> target,
                                                    bool full = false);

/// The same as one JSON object on one line; the schema is in docs/reference/json.md.
/// @param state  comes first, under "state"; empty = none
/// @throws Error{domain} as budget_lines()
[[nodiscard]] std::string budget_json(const measurement::Result& result, std::string_view key,
                                      std::optional<double> target, const std::string& state = {});
/// The same of a strength that was not computed: without contributions and measures.
[[nodiscard]] std::string no_budget_json(const measurement::AlcoholResult& a);

}  // namespace areo::wording
