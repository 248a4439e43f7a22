// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A strength against a limit, in words.
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "areo/analysis/limit.hpp"
#include "areo/ferment/limit.hpp"
#include "areo/wording/strength.hpp"

namespace areo::wording {

struct Limit {
  double percent_vol = 0;
  double level = analysis::usual_level;           ///< probability that is asked for
  const ferment::StrengthLimit* named = nullptr;  ///< or nothing: a number
};

/// @param limit  "0.5", "0.5%vol", or a name; empty = none
/// @param level  "95", "95%"; empty = 95 %
/// @throws ParseError for other texts and unknown names
[[nodiscard]] std::optional<Limit> limit_from_text(const std::string& limit,
                                                   const std::string& level);
/// The bound that is printed beside a verdict: at its level.
[[nodiscard]] BoundWanted bound_beside(const std::optional<Limit>& limit);
/// The decision, from the sample if there is one.
[[nodiscard]] uncertainty::Decision decide(const Limit& limit, const measurement::AlcoholResult& a,
                                           const ReportedResult& reported);
/// "limit 0.5 % vol: CANNOT TELL; 62.0 % likely to be below it, and 95 % is needed"
[[nodiscard]] std::string verdict_text(const Limit& limit, const measurement::AlcoholResult& a,
                                       const uncertainty::Decision& decision);
/// What a named limit is, and that rules change.
[[nodiscard]] std::string named_text(const ferment::StrengthLimit& named);
/// What programs get of a limit and a decision; the values in the order of the keys.
inline constexpr std::array limit_keys{"limit_percent_vol", "limit_level", "limit_decision",
                                       "limit_probability_below"};
[[nodiscard]] std::vector<text::ExtraField> limit_facts(const Limit& limit,
                                                        const uncertainty::Decision& decision);
/// Adds what is to be said about a limit to the words of a result.
/// @return whether the strength is decided to lie below it
bool judge(const Limit& limit, const measurement::AlcoholResult& a,
           const measurement::Original& original, const measurement::HydrometerSample& present,
           ferment::Culture culture, const ReportedResult& reported, StrengthWords& words);

/// A word for programs.
[[nodiscard]] const char* word(uncertainty::Side s);

}  // namespace areo::wording
