// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "areo/analysis/budget.hpp"
#include "areo/analysis/improvements.hpp"
#include "areo/core/error.hpp"
#include "areo/core/nearest.hpp"
#include "areo/text/format.hpp"
#include "areo/text/lines.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/budget.hpp"

namespace areo::wording {
namespace {

using analysis::Contribution;
using measurement::Quantity;
using uncertainty::Value;

constexpr std::size_t bar_columns = 12;
constexpr double shown_fraction = 0.005;

// Numbers with the digits that the whole uncertainty supports.
class Digits {
 public:
  Digits(const Quantity& q, bool full)
      : decimals_{text::last_place(q.value.expanded()) + (full ? text::further_digits : 0)},
        unit_{q.unit.empty() ? "" : " " + q.unit} {}
  [[nodiscard]] std::string number(double expanded) const {
    return "± " + text::fixed(expanded, decimals_);
  }
  [[nodiscard]] std::string with_unit(const Value& v) const { return number(v.expanded()) + unit_; }
  /// One digit more, so that what misses a target by little does not look like it.
  [[nodiscard]] std::string beside_target(const Value& v) const {
    return "± " + text::fixed(v.expanded(), decimals_ + 1) + unit_;
  }

 private:
  int decimals_;
  std::string unit_;
};

// `text` behind `first`; further lines begin under it.
void append_wrapped(std::vector<std::string>& lines, const std::string& first,
                    const std::string& text) {
  const std::size_t indent = text::display_width(first);
  const auto parts = text::wrapped(text, text::usual_columns - indent);
  for (std::size_t i = 0; i < parts.size(); ++i)
    lines.push_back((i == 0 ? first : std::string(indent, ' ')) + parts[i]);
}

void append_table(std::vector<std::string>& lines, const BudgetParts& table) {
  std::size_t width = 0;
  for (const BudgetPart& p : table.parts) width = std::max(width, text::display_width(p.text));
  for (const BudgetPart& p : table.parts) {
    const auto bar = static_cast<std::size_t>(std::lround(std::max(p.fraction, 0.0) * bar_columns));
    const std::string first =
        fmt::format("  {:<{}}  {:>3.0f} %  {:<{}}  ", p.text, width, 100 * p.fraction,
                    std::string(std::min(bar, bar_columns), '#'), bar_columns);
    append_wrapped(lines, first, p.name);
    append_wrapped(lines, std::string(text::display_width(first), ' '), p.provenance);
  }
  if (!table.rest.empty()) lines.push_back("  " + table.rest);
}

void append_plan(std::vector<std::string>& lines, const analysis::Plan& plan, double target,
                 const Digits& digits) {
  const std::string goal = fmt::format("target ± {:g}: ", target);
  if (!plan.reached) {
    append_wrapped(lines, goal,
                   "out of reach; all measures together leave " + digits.beside_target(plan.after));
  } else if (plan.steps.empty()) {
    append_wrapped(lines, goal, "reached already");
  } else {
    std::string steps;
    for (const analysis::Measure& m : plan.steps) steps += (steps.empty() ? "" : "; ") + m.words;
    append_wrapped(
        lines, goal,
        fmt::format("with the least effort by {}; {}", steps, digits.beside_target(plan.after)));
  }
}

}  // namespace

BudgetParts budget_parts(const measurement::Result& result, std::string_view key, bool full) {
  const Quantity& q = result.at(key);
  const Digits digits{q, full};
  const double coverage = q.value.expanded() / q.value.u;
  BudgetParts table;
  double rest = 0;
  std::size_t more = 0;
  for (const Contribution& c : analysis::budget(result, key)) {
    if (std::abs(c.fraction) < shown_fraction) {
      rest += c.fraction;
      ++more;
      continue;
    }
    const double expanded = coverage * c.share;
    table.parts.push_back({expanded, digits.number(expanded), c.fraction, c.input.name, c.input.of,
                           c.input.provenance});
  }
  if (more > 0)
    table.rest = fmt::format("and {} more, together {}", more,
                             rest < 0.0005 ? "below 0.1 %" : fmt::format("{:.1f} %", 100 * rest));
  return table;
}

std::vector<std::string> measure_sentences(const measurement::Result& result, std::string_view key,
                                           bool full) {
  const Quantity& q = result.at(key);
  const Digits digits{q, full};
  std::vector<std::string> all;
  for (const analysis::Measure& m : analysis::measures(result, key))
    all.push_back(worth_taking(q.value, m.after)
                      ? fmt::format("{}: {} -> {} ({})", m.words, digits.number(q.value.expanded()),
                                    digits.number(m.after.expanded()), m.changes)
                      : m.words + ": no gain");
  const analysis::BestAchievable floor = analysis::best_achievable(result, key);
  all.push_back(fmt::format(
      "all of them: {}, of which most by {}{}", digits.with_unit(floor.after), floor.limit,
      floor.needs_laboratory ? "; only a distillation or a laboratory gets below" : ""));
  return all;
}

bool worth_taking(const Value& before, const Value& after) {
  const double unit = std::pow(10.0, -text::last_place(before.expanded()));
  return before.expanded() - after.expanded() >= unit;
}

std::vector<std::string> budget_lines(const measurement::Result& result, std::string_view key,
                                      std::optional<double> target, bool full) {
  const Quantity& q = result.at(key);
  const Digits digits{q, full};
  std::vector<std::string> lines;
  append_wrapped(lines, "",
                 fmt::format("{}, {}; its parts as ± for about 95 %:", q.name,
                             text::value_text(q.value, q.unit, full)));
  append_table(lines, budget_parts(result, key, full));
  lines.emplace_back("what each measure alone would gain:");
  for (const std::string& sentence : measure_sentences(result, key, full))
    append_wrapped(lines, "  ", sentence);
  if (target) append_plan(lines, analysis::cheapest(result, key, *target), *target, digits);
  return lines;
}

std::string budget_key(const measurement::Result& result, const std::string& of) {
  if (of.empty()) return result.quantities.front().key;
  std::vector<std::string> keys;
  for (const Quantity& q : result.quantities) keys.push_back(q.key);
  if (std::find(keys.begin(), keys.end(), of) != keys.end()) return of;
  const std::string near = nearest(of, keys);
  throw ParseError{fmt::format("'{}' is not a quantity of this result", of), of, 0, of.size(),
                   near.empty() ? fmt::format("one of {}", fmt::join(keys, ", "))
                                : fmt::format("did you mean '{}'?", near)};
}

std::optional<double> target_from_text(const std::string& text) {
  if (text.empty()) return std::nullopt;
  const double target = text::plain_number(text, "a target");
  if (!(target > 0))
    throw ParseError{"a target is a ± above zero, in the unit of the result", text, 0, text.size()};
  return target;
}

}  // namespace areo::wording
