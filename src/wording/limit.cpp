// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/limit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"

namespace areo::wording {
namespace {

using measurement::AlcoholResult;
using measurement::Fermentation;
using uncertainty::Side;

// Never more than it is: 94.96 % are no 95.0 %.
std::string percent_text(double p) {
  if (p > 0.999) return "more than 99.9 %";
  if (p < 0.001) return "less than 0.1 %";
  return fmt::format("{} %", text::fixed(std::floor(1000 * p + 1e-9) / 10, 1));
}

// What present reading would settle it, rounded so that it still does.
std::string settling_text(const Limit& l, const measurement::Original& original,
                          const measurement::HydrometerSample& present, ferment::Culture culture) {
  const auto least =
      analysis::least_indication_below(present, original, culture, l.percent_vol, l.level);
  if (!least)
    return "  these instruments cannot decide for below: even an unchanged gravity leaves a doubt";
  const int decimals = text::supported_decimals(present.instrument.hydrometer.division);
  const double place = std::pow(10.0, -decimals);
  return fmt::format("  a present reading of {} or more would decide for below",
                     text::fixed(std::ceil(*least / place - 1e-6) * place, decimals));
}

double level_from_text(const std::string& text) {
  if (text.empty()) return analysis::usual_level;
  const text::TypedNumber n = text::number_with_unit(text, "a level");
  constexpr double least = 50, most = 99.9;
  if (!(n.value > least && n.value <= most) || (!n.unit.empty() && n.unit != "%"))
    throw ParseError{"a level is a percentage above 50, at most 99.9", text, 0, text.size(),
                     "write 95 or 95%"};
  return n.value / 100;
}

}  // namespace

const char* word(uncertainty::Side s) {
  switch (s) {
    case Side::below: return "below";
    case Side::above: return "above";
    case Side::cannot_tell: return "cannot_tell";
  }
  return "";
}

std::optional<Limit> limit_from_text(const std::string& limit, const std::string& level) {
  if (limit.empty()) return std::nullopt;
  Limit l;
  l.level = level_from_text(level);
  if (limit.front() >= 'a' && limit.front() <= 'z') {
    l.named = &ferment::strength_limit(limit);
    l.percent_vol = l.named->percent_vol;
    return l;
  }
  const text::TypedNumber n = text::number_with_unit(limit, "a limit");
  if (!n.unit.empty() && n.unit != "%vol")
    throw ParseError{fmt::format("'{}' is not a unit of a limit", n.unit), limit, n.unit_position,
                     n.unit.size(), "write 0.5 or 0.5%vol"};
  if (!(n.value > 0 && n.value < 100))
    throw ParseError{"a limit lies above zero and below 100 % vol", limit, 0, limit.size(),
                     "e.g. --limit 0.5"};
  l.percent_vol = n.value;
  return l;
}

BoundWanted bound_beside(const std::optional<Limit>& l) {
  return l ? BoundWanted{l->level, l->percent_vol} : BoundWanted{};
}

uncertainty::Decision decide(const Limit& l, const AlcoholResult& a,
                             const ReportedResult& reported) {
  return analysis::decide_strength(a, samples_of(reported), l.percent_vol, l.level);
}

std::string verdict_text(const Limit& l, const AlcoholResult& a, const uncertainty::Decision& d) {
  const std::string what = fmt::format("limit {:g} % vol: ", l.percent_vol);
  const std::string wanted = fmt::format("{:g} % is needed", 100 * l.level);
  switch (d.side) {
    case Side::below:
      return fmt::format("{}BELOW, {} likely{}; {}", what, percent_text(d.probability_below),
                         a.state == Fermentation::bound ? " at least" : "", wanted);
    case Side::above:
      return fmt::format("{}ABOVE, {} likely; {}", what, percent_text(d.probability_above), wanted);
    case Side::cannot_tell: break;
  }
  const bool as_good_as_above = d.probability_above >= l.level;
  if (a.state == Fermentation::bound || (a.has_bound_only() && as_good_as_above))
    return what + "CANNOT TELL; the upper bound lies above it";
  // That no strength is negative leaves little room below the limit; the readings alone do not say
  // it.
  if (as_good_as_above)
    return fmt::format("{}CANNOT TELL; {} likely to be above it, but within the guard band", what,
                       percent_text(d.probability_above));
  return fmt::format("{}CANNOT TELL; {} likely to be below it, and {}", what,
                     percent_text(d.probability_below), wanted);
}

std::string named_text(const ferment::StrengthLimit& named) {
  return fmt::format("{}: {} [{}{}]; rules change: ask your authority", named.name, named.meaning,
                     named.citation, named.verified == "memory" ? ", from memory" : "");
}

std::vector<text::ExtraField> limit_facts(const Limit& l, const uncertainty::Decision& d) {
  return {{"", l.percent_vol}, {"", l.level}, {word(d.side)}, {"", d.probability_below}};
}

bool judge(const Limit& l, const AlcoholResult& a, const measurement::Original& original,
           const measurement::HydrometerSample& present, ferment::Culture culture,
           const ReportedResult& reported, StrengthWords& words) {
  const uncertainty::Decision d = decide(l, a, reported);
  words.verdict.push_back(verdict_text(l, a, d));
  if (d.side == Side::cannot_tell)
    words.verdict.push_back(settling_text(l, original, present, culture));
  if (l.named != nullptr) words.verdict.push_back("  " + named_text(*l.named));
  const std::vector<text::ExtraField> facts = limit_facts(l, d);
  for (std::size_t i = 0; i < facts.size(); ++i)
    words.members.emplace_back(limit_keys.at(i), facts[i]);
  return d.side == Side::below;
}

}  // namespace areo::wording
