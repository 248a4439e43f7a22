// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/strength.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/notes.hpp"
#include "result_value.hpp"

namespace areo::wording {
namespace {

using measurement::AlcoholResult;
using measurement::Fermentation;
using measurement::Quantity;

constexpr const char* rule_key = "rule_of_thumb_percent_vol";

std::vector<Quantity> chosen(const AlcoholResult& a, const std::vector<std::string>& keys) {
  std::vector<Quantity> all;
  all.reserve(keys.size());
  for (const std::string& key : keys) all.push_back(a.result.at(key));
  return all;
}

bool has(const AlcoholResult& a, const std::string& key) {
  return std::any_of(a.result.quantities.begin(), a.result.quantities.end(),
                     [&](const Quantity& q) { return q.key == key; });
}

// Keys of what stands below the strength: of a figure the two gravities.
std::vector<std::string> below_strength(const AlcoholResult& a, const StrengthWords& words) {
  if (a.state != Fermentation::measured) return words.beside_bound;
  std::vector<std::string> keys;
  for (const char* key : {"sg_20_20_original", "sg_20_20_present"})
    if (has(a, key)) keys.emplace_back(key);
  return keys;
}

// Keys of what is printed as text; empty = all.
std::vector<std::string> shown_keys(const AlcoholResult& a, const StrengthWords& words) {
  if ((a.state == Fermentation::measured && words.all) || a.state == Fermentation::above) return {};
  std::vector<std::string> keys{strength_key};
  for (std::string& key : below_strength(a, words)) keys.push_back(std::move(key));
  return keys;
}

std::vector<Quantity> shown(const AlcoholResult& a, const StrengthWords& words) {
  const std::vector<std::string> keys = shown_keys(a, words);
  return keys.empty() ? a.result.quantities : chosen(a, keys);
}

void append(std::vector<std::string>& lines, const std::vector<std::string>& more) {
  lines.insert(lines.end(), more.begin(), more.end());
}

void append_notes(std::vector<std::string>& lines, const std::vector<std::string>& notes) {
  for (const std::string& n : notes) lines.push_back("note: " + n);
}

std::vector<std::string> refusal_lines(const AlcoholResult& a, const StrengthWords& words,
                                       const ReportedResult& reported) {
  std::vector<std::string> lines{"no alcohol computed: " + words.above};
  const std::vector<Quantity> quantities = shown(a, words);
  append(lines, reported.lines(quantities));
  append(lines, reported.summary(quantities));
  for (std::size_t i = 0; i < words.causes.size(); ++i)
    lines.push_back((i == 0 ? "likely causes: " : "  ") + words.causes[i]);
  append_notes(lines, all_notes(a.result));
  lines.push_back("next: " + words.retry);
  return lines;
}

void append_drink(std::vector<std::string>& lines, const AlcoholResult& a,
                  const ReportedResult& reported) {
  std::vector<Quantity> rest;
  std::copy_if(a.result.quantities.begin(), a.result.quantities.end(), std::back_inserter(rest),
               [](const Quantity& q) { return q.key != strength_key && q.key != rule_key; });
  append(lines, reported.lines(rest));
  const Quantity& kj = a.result.at("energy_kj_per_100_ml");
  lines.push_back(
      fmt::format("  that is {} for 100 mL", reported.text(kj, 1 / ferment::kj_per_kcal, "kcal")));
  const auto rule = std::find_if(a.result.quantities.begin(), a.result.quantities.end(),
                                 [](const Quantity& q) { return q.key == rule_key; });
  if (rule != a.result.quantities.end())
    lines.push_back(
        fmt::format("  for comparison {} by the rule 131.25 (OG - FG): common practice, no source",
                    reported.text(*rule)));
}

std::string headline_of_bound(const AlcoholResult& a, const StrengthWords& words,
                              const ReportedResult& reported) {
  const std::string why = a.state == Fermentation::bound
                              ? "an upper bound only, the culture uses up alcohol"
                              : words.no_change;
  return fmt::format("{}; alcohol {}", why, below_text(a, words.bound, samples_of(reported)));
}

std::string at_least(const AlcoholResult& a, const char* unit) {
  const double lower = analysis::strength_bounds(a).lower;
  if (a.has_bound_only() || !(lower > 0)) return "unknown: not degassed, bubbles may hide it";
  return fmt::format(
      "at least {}{}, not degassed",
      text::rounded_down(lower, text::last_place(a.result.at(strength_key).value.expanded())),
      unit);
}

std::vector<std::string> figure_lines(const AlcoholResult& a, const StrengthWords& words,
                                      const ReportedResult& reported) {
  const bool measured = a.state == Fermentation::measured;
  std::vector<std::string> lines{headline(a, words, reported)};
  append(lines, words.verdict);
  if (measured && words.all) {
    append_drink(lines, a, reported);
  } else {
    append(lines, reported.lines(chosen(a, below_strength(a, words))));
    if (measured) lines.emplace_back("  --all shows extract, attenuation and energy too");
  }
  append(lines, reported.summary(shown(a, words)));
  append_notes(lines, all_notes(a.result));
  lines.push_back(basis_line(words.basis));
  lines.emplace_back("next: read again in a day or two; strength rises as long as gravity falls");
  return lines;
}

}  // namespace

const char* word(Fermentation f) {
  switch (f) {
    case Fermentation::measured: return "measured";
    case Fermentation::no_change: return "no_measurable_change";
    case Fermentation::above: return "present_above_original";
    case Fermentation::contradiction: return "contradiction";
    case Fermentation::bound: return "upper_bound";
  }
  return "";
}

analysis::StrengthSamples samples_of(const ReportedResult& reported) {
  return {reported.sample(), reported.other_sample()};
}

std::string below_cell(const AlcoholResult& a, const BoundWanted& wanted,
                       const analysis::StrengthSamples& samples) {
  const double upper = analysis::strength_bounds(a, samples, wanted.level).upper;
  return "below " + text::rounded_up(upper,
                                     text::last_place(a.result.at(strength_key).value.expanded()),
                                     wanted.limit);
}

std::string below_text(const AlcoholResult& a, const BoundWanted& wanted,
                       const analysis::StrengthSamples& samples) {
  return fmt::format("{} % vol (about {:g} %)", below_cell(a, wanted, samples), 100 * wanted.level);
}

std::string at_least_text(const AlcoholResult& a) { return at_least(a, " % vol (about 95 %)"); }

std::string at_least_cell(const AlcoholResult& a) { return at_least(a, ""); }

std::vector<text::ExtraField> bound_facts(const AlcoholResult& a, const BoundWanted& wanted,
                                          const analysis::StrengthSamples& samples) {
  if (!a.has_bound_only() || a.lifted) return {{}, {}};
  return {{"", analysis::strength_bounds(a, samples, wanted.level).upper}, {"", wanted.level}};
}

void add_bound(text::Json& to, const AlcoholResult& a, const BoundWanted& wanted,
               const analysis::StrengthSamples& samples) {
  const std::vector<text::ExtraField> facts = bound_facts(a, wanted, samples);
  for (std::size_t i = 0; i < facts.size(); ++i) text::add_field(to, bound_keys.at(i), facts[i]);
}

const std::vector<std::string>& rests_on_strength() {
  static const std::vector<std::string> keys{strength_key,           "alcohol_percent_mass",
                                             "real_extract_percent", "real_attenuation_percent",
                                             "energy_kj_per_100_ml", rule_key};
  return keys;
}

ReportingPlan reporting_plan(const AlcoholResult& a, const StrengthWords& words, bool check) {
  ReportingPlan plan{.shown = shown_keys(a, words), .level = words.bound.level};
  // Whoever asks for more, or in JSON, is told the same strength.
  if (a.state == Fermentation::measured) plan.shown.clear();
  plan.check = a.has_strength() && check;
  if (a.has_strength()) plan.keep = strength_key;
  if (a.clean_yeast) plan.also = &*a.clean_yeast;
  return plan;
}

ferment::Culture culture_from_text(const std::string& word) {
  if (word.empty() || word == "yeast") return ferment::Culture::yeast;
  if (word == "mixed") return ferment::Culture::mixed;
  if (word == "acetic") return ferment::Culture::acetic;
  throw ParseError{fmt::format("'{}' is not a kind of culture", word), word, 0, word.size(),
                   "yeast, mixed (wild, with lactic bacteria) or acetic (with acetic bacteria)"};
}

const char* basis_text(ferment::Culture culture) {
  switch (culture) {
    case ferment::Culture::yeast: return "for a clean yeast ferment";
    case ferment::Culture::mixed:
      return "for a mixed culture, up to 15 % of the fermented sugar taken as acids";
    case ferment::Culture::acetic: return "for a culture with acetic bacteria";
  }
  return "";
}

std::string basis_line(const std::string& basis) {
  return basis +
         "; a home estimate is not a legal strength: local law and an accredited laboratory decide";
}

std::string headline(const AlcoholResult& a, const StrengthWords& words,
                     const ReportedResult& reported) {
  if (a.state != Fermentation::measured) return headline_of_bound(a, words, reported);
  const Quantity& strength = a.result.at(strength_key);
  return fmt::format("{}  ({}about 95 %)", reported.text(strength), words.how);
}

std::vector<std::string> strength_lines(const AlcoholResult& a, const StrengthWords& words,
                                        const ReportedResult& reported) {
  return a.has_strength() ? figure_lines(a, words, reported) : refusal_lines(a, words, reported);
}

std::string strength_json(const AlcoholResult& a, const StrengthWords& words,
                          const ReportedResult& reported) {
  text::Json head{{"state", word(a.state)}};
  add_bound(head, a, words.bound, samples_of(reported));
  add_sampling(head, reported);
  for (const auto& [key, field] : words.members) text::add_field(head, key, field);
  return json_line(a.result, std::move(head));
}

}  // namespace areo::wording
