#include "strength.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/report/result_json.hpp"
#include "areo/text/format.hpp"
#include "areo/text/json.hpp"
#include "budget.hpp"
#include "failure.hpp"

namespace areo::cli {
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

void print_refusal(const AlcoholResult& a, const StrengthWords& words, const Told& told) {
  line("no alcohol computed: " + words.above);
  const std::vector<Quantity> quantities = shown(a, words);
  told.lines(quantities);
  told.summary(quantities);
  for (std::size_t i = 0; i < words.causes.size(); ++i)
    line((i == 0 ? "likely causes: " : "  ") + words.causes[i]);
  notes(a.result.notes);
  line("next: " + words.retry);
}

void print_drink(const AlcoholResult& a, const Told& told) {
  std::vector<Quantity> rest;
  std::copy_if(a.result.quantities.begin(), a.result.quantities.end(), std::back_inserter(rest),
               [](const Quantity& q) { return q.key != strength_key && q.key != rule_key; });
  told.lines(rest);
  const Quantity& kj = a.result.at("energy_kj_per_100_ml");
  line(fmt::format("  that is {} for 100 mL", told.text(kj, 1 / ferment::kj_per_kcal, "kcal")));
  const auto rule = std::find_if(a.result.quantities.begin(), a.result.quantities.end(),
                                 [](const Quantity& q) { return q.key == rule_key; });
  if (rule != a.result.quantities.end())
    line(fmt::format("  for comparison {} by the rule 131.25 (OG - FG): common practice, no source",
                     told.text(*rule)));
}

std::string headline_of_bound(const AlcoholResult& a, const StrengthWords& words,
                              const Told& told) {
  const std::string why = a.state == Fermentation::bound
                              ? "an upper bound only, the culture uses up alcohol"
                              : words.no_change;
  return fmt::format("{}; alcohol {}", why, below_text(a, words.bound, samples_of(told)));
}

std::string at_least(const AlcoholResult& a, const char* unit) {
  const double lower = analysis::strength_bounds(a).lower;
  if (a.has_bound_only() || !(lower > 0)) return "unknown: not degassed, bubbles may hide it";
  return fmt::format(
      "at least {}{}, not degassed",
      text::rounded_down(lower, text::last_place(a.result.at(strength_key).value.expanded())),
      unit);
}

void print_figure(const AlcoholResult& a, const StrengthWords& words, const Told& told) {
  const bool measured = a.state == Fermentation::measured;
  line(headline(a, words, told));
  for (const std::string& v : words.verdict) line(v);
  if (measured && words.all) {
    print_drink(a, told);
  } else {
    told.lines(chosen(a, below_strength(a, words)));
    if (measured) line("  --all shows extract, attenuation and energy too");
  }
  told.summary(shown(a, words));
  notes(a.result.notes);
  print_basis(words.basis);
  line("next: read again in a day or two; strength rises as long as gravity falls");
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

analysis::StrengthSamples samples_of(const Told& told) {
  return {told.sample(), told.other_sample()};
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

std::vector<text::Fact> bound_facts(const AlcoholResult& a, const BoundWanted& wanted,
                                    const analysis::StrengthSamples& samples) {
  if (!a.has_bound_only() || a.lifted) return {{"", true}, {"", true}};
  return {{fmt::format("{}", analysis::strength_bounds(a, samples, wanted.level).upper), true},
          {fmt::format("{}", wanted.level), true}};
}

std::vector<std::pair<std::string, std::string>> bound_members(
    const AlcoholResult& a, const BoundWanted& wanted, const analysis::StrengthSamples& samples) {
  std::vector<std::pair<std::string, std::string>> all;
  const std::vector<text::Fact> facts = bound_facts(a, wanted, samples);
  for (std::size_t i = 0; i < facts.size(); ++i)
    if (!facts[i].text.empty()) all.emplace_back(bound_keys.at(i), facts[i].json());
  return all;
}

const std::vector<std::string>& rests_on_strength() {
  static const std::vector<std::string> keys{strength_key,           "alcohol_percent_mass",
                                             "real_extract_percent", "real_attenuation_percent",
                                             "energy_kj_per_100_ml", rule_key};
  return keys;
}

Telling telling_of(const AlcoholResult& a, const StrengthWords& words, const Session& session) {
  Telling telling{.shown = shown_keys(a, words), .level = words.bound.level};
  // Whoever asks for more, or in JSON, is told the same strength.
  if (a.state == Fermentation::measured) telling.shown.clear();
  telling.check = a.has_strength() && !session.budget.wanted;
  if (a.has_strength()) telling.keep = strength_key;
  if (a.clean_yeast) telling.also = &*a.clean_yeast;
  return telling;
}

ferment::Culture culture_from_text(const std::string& word) {
  if (word.empty() || word == "yeast") return ferment::Culture::yeast;
  if (word == "mixed") return ferment::Culture::mixed;
  if (word == "acetic") return ferment::Culture::acetic;
  throw ParseError{fmt::format("'{}' is no kind of culture", word), word, 0, word.size(),
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

void print_basis(const std::string& basis) {
  line(basis +
       "; a home estimate is no legal strength: local law and an accredited laboratory decide");
}

std::string headline(const AlcoholResult& a, const StrengthWords& words, const Told& told) {
  if (a.state != Fermentation::measured) return headline_of_bound(a, words, told);
  const Quantity& strength = a.result.at(strength_key);
  return fmt::format("{}  ({}about 95 %)", told.text(strength), words.how);
}

void add_all_option(const Command& command, bool& all) {
  command.add_flag("--all", all, "also alcohol by mass, extract, attenuation and energy");
}

int print_strength(const AlcoholResult& a, const StrengthWords& words, const Session& session,
                   const Told& told) {
  if (session.budget.wanted) return print_strength_budget(a, words, session);
  const bool refused = !a.has_strength();
  if (session.json) {
    std::vector<std::pair<std::string, std::string>> head{
        {"state", text::json_string(word(a.state))}};
    const auto bound = bound_members(a, words.bound, samples_of(told));
    head.insert(head.end(), bound.begin(), bound.end());
    const auto sampling = told.members();
    head.insert(head.end(), sampling.begin(), sampling.end());
    head.insert(head.end(), words.members.begin(), words.members.end());
    raw_line(report::json_line(a.result, head));
  } else if (refused) {
    print_refusal(a, words, told);
  } else {
    print_figure(a, words, told);
  }
  return refused ? said_no : done;
}

}  // namespace areo::cli
