// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How a strength is reported, however it was obtained: with its range, as an upper bound, or not at
// all and why.
#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "areo/analysis/limit.hpp"
#include "areo/text/extra_field.hpp"
#include "areo/wording/reported.hpp"

namespace areo::wording {

/// What an upper bound is asked for.
struct BoundWanted {
  double level = analysis::usual_level;
  /// That it stands beside, % vol: rounding does not take it across.
  std::optional<double> limit{};
};

/// What is said differently for different ways to a strength.
struct StrengthWords {
  std::string how;        ///< before "about 95 %": "an estimate from weighed sugar, "
  std::string no_change;  ///< "no measurable change"
  std::vector<std::string> beside_bound;            ///< keys of the quantities that stand then
  std::string above;                                ///< what cannot be, when no alcohol is computed
  std::vector<std::string> causes;                  ///< likely ones, line by line
  std::string retry;                                ///< what to do then
  std::string basis = "for a clean yeast ferment";  ///< what the figure holds for
  BoundWanted bound{};                              ///< where the strength is no figure
  std::vector<std::string> verdict = {};            ///< lines about a limit, after the headline
  bool all = false;  ///< for people too, all that follows from a figure: not only the gravities
  /// Further ones for programs, by their keys.
  std::vector<std::pair<std::string, text::ExtraField>> members = {};
};

/// A word for programs.
[[nodiscard]] const char* word(measurement::Fermentation f);
/// Key of the strength.
inline constexpr const char* strength_key = "alcohol_percent_vol";
/// The samples of a strength, if it was sampled.
[[nodiscard]] analysis::StrengthSamples samples_of(const ReportedResult& reported);
/// "below 0.24 % vol (about 95 %)": the upper bound, rounded up.
/// @param a  with a strength
[[nodiscard]] std::string below_text(const measurement::AlcoholResult& a,
                                     const BoundWanted& wanted = {},
                                     const analysis::StrengthSamples& samples = {});
/// The same below a head that says the unit and how sure it is: "below 0.24".
[[nodiscard]] std::string below_cell(const measurement::AlcoholResult& a,
                                     const BoundWanted& wanted = {},
                                     const analysis::StrengthSamples& samples = {});
/// "at least 3.1 % vol (about 95 %), not degassed": the lower bound, rounded down.
/// @param a  with a strength, lifted by bubbles
[[nodiscard]] std::string at_least_text(const measurement::AlcoholResult& a);
/// The same below a head that says the unit and how sure it is: "at least 3.1, not degassed".
[[nodiscard]] std::string at_least_cell(const measurement::AlcoholResult& a);
/// What programs get of the bound of a strength that has no figure; the values in the order of
/// the keys. Empty values for other states.
inline constexpr std::array bound_keys{"alcohol_below_percent_vol", "alcohol_below_level"};
[[nodiscard]] std::vector<text::ExtraField> bound_facts(
    const measurement::AlcoholResult& a, const BoundWanted& wanted = {},
    const analysis::StrengthSamples& samples = {});
/// Keys of what says nothing where the strength is a bound only.
[[nodiscard]] const std::vector<std::string>& rests_on_strength();
/// What such a result is reported for. No figure, nothing to check.
/// @param check  whether to ask if the law of propagation is good enough
[[nodiscard]] ReportingPlan reporting_plan(const measurement::AlcoholResult& a,
                                           const StrengthWords& words, bool check);
/// The culture by its word; yeast if empty.
/// @throws ParseError for another word
[[nodiscard]] ferment::Culture culture_from_text(const std::string& word);
/// What a strength holds for, by culture.
[[nodiscard]] const char* basis_text(ferment::Culture culture);
/// What strengths hold for, and what they are not.
[[nodiscard]] std::string basis_line(const std::string& basis);
/// "4.98 ± 0.30 % vol  (about 95 %)", or the bound; for states with a figure.
[[nodiscard]] std::string headline(const measurement::AlcoholResult& a, const StrengthWords& words,
                                   const ReportedResult& reported);
/// Everything a person reads about it, line by line.
[[nodiscard]] std::vector<std::string> strength_lines(const measurement::AlcoholResult& a,
                                                      const StrengthWords& words,
                                                      const ReportedResult& reported);
/// The same for programs.
[[nodiscard]] std::string strength_json(const measurement::AlcoholResult& a,
                                        const StrengthWords& words, const ReportedResult& reported);

}  // namespace areo::wording
