// SPDX-License-Identifier: GPL-3.0-or-later
// Where the uncertainty of a certified correction comes from.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/text/format.hpp"
#include "areo/wording/budget.hpp"
#include "areo/wording/instrument.hpp"
#include "certificate_parts.hpp"

namespace areo::paper {
namespace {

using calibration::CorrectionBudget;

using Rows = std::vector<std::vector<std::string>>;

std::vector<std::string> numbers_of(const Certified& c, const std::vector<std::size_t>& checks) {
  std::vector<std::string> all;
  all.reserve(checks.size());
  for (const std::size_t i : checks) all.push_back(fmt::format("{}", c.summary.checks[i].id));
  return all;
}

// "input 7 of the budget": numbered in the order of what it does to the correction in the middle.
std::vector<std::size_t> by_contribution(const Certified& c) {
  const CorrectionBudget& middle = c.budgets[c.budgets.size() / 2];
  std::vector<std::size_t> order;
  for (std::size_t k = 0; k < middle.shares.size(); ++k)
    if (!calibration::checks_with(c.summary.evaluated, k).empty()) order.push_back(k);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return std::abs(middle.shares[a]) > std::abs(middle.shares[b]);
  });
  return order;
}

std::string in_people_words(std::string word) {
  std::replace(word.begin(), word.end(), '_', ' ');
  return word;
}

std::string unit_text(const Certified& c, const std::string& unit) {
  if (unit == uncertainty::unit_of_scale) return wording::unit_of(c.instrument);
  return unit == uncertainty::unit_of_formula ? "of the formula's own" : unit;
}

// "reading of the check: water" is "reading", where a column says of which check.
std::string short_name(const Certified& c, std::size_t input) {
  const uncertainty::Input& all = c.summary.evaluated.inputs.all()[input];
  return all.of.empty() ? all.name : all.what;
}

std::string checks_text(const Certified& c, std::size_t input) {
  return fmt::format(
      "{}", fmt::join(numbers_of(c, calibration::checks_with(c.summary.evaluated, input)), ", "));
}

document::CaptionedTable inputs(const Certified& c, const std::vector<std::size_t>& order) {
  Rows rows{{"no.", "input", "in checks", "standard uncertainty", "distribution, type",
             "where it comes from"}};
  for (std::size_t n = 0; n < order.size(); ++n) {
    const uncertainty::Input& input = c.summary.evaluated.inputs.all()[order[n]];
    const std::string unit = unit_text(c, input.unit);
    rows.push_back({fmt::format("{}", n + 1), short_name(c, order[n]), checks_text(c, order[n]),
                    fmt::format("{}{}", text::fixed(input.u, text::last_place(input.u)),
                                unit.empty() ? "" : " " + unit),
                    fmt::format("{}, {}", in_people_words(wording::distribution_word(input.shape)),
                                input.type == uncertainty::Evaluation::type_a ? "A" : "B"),
                    input.provenance});
  }
  return {
      "Inputs, the largest contribution first. Those in several checks are shared: they err "
      "together, and more checks do not average them out.",
      std::move(rows)};
}

// Where a budget is told, as the head of a column.
std::string at_text(const Certified& c, const CorrectionBudget& b) {
  const Figures f{c};
  const instruments::Correction& k = c.summary.fit.correction;
  const bool read = b.indication == k.checked_lo || b.indication == k.checked_hi;
  return fmt::format("at {}, {}", read ? f.shown(b.indication) : f.place(b.indication), f.unit());
}

document::CaptionedTable budget(const Certified& c, const std::vector<std::size_t>& order) {
  const Figures f{c};
  double least = c.budgets.front().correction.expanded();
  for (const CorrectionBudget& b : c.budgets) least = std::min(least, b.correction.expanded());
  Rows rows{{"no.", "contribution of", "in checks"}};
  for (const CorrectionBudget& b : c.budgets) rows.front().push_back(at_text(c, b));
  const auto add = [&](std::vector<std::string> cells, const auto& value) {
    for (const CorrectionBudget& b : c.budgets) cells.push_back(f.number(value(b), least, 1));
    rows.push_back(std::move(cells));
  };
  for (std::size_t n = 0; n < order.size(); ++n)
    add({fmt::format("{}", n + 1), short_name(c, order[n]), checks_text(c, order[n])},
        [&](const auto& b) { return std::abs(b.shares[order[n]]); });
  const auto any = [&](double CorrectionBudget::*part) {
    return std::any_of(c.budgets.begin(), c.budgets.end(),
                       [&](const CorrectionBudget& b) { return b.*part > 0; });
  };
  if (any(&CorrectionBudget::slope))
    add({"", "a slope that the checks do not show", ""}, [](const auto& b) { return b.slope; });
  if (any(&CorrectionBudget::beyond))
    add({"", "the scale outside its checked range", ""}, [](const auto& b) { return b.beyond; });
  add({"", "standard uncertainty u", ""}, [](const auto& b) { return b.correction.u; });
  add({"", "expanded uncertainty U, k = 1.96", ""},
      [](const auto& b) { return b.correction.expanded(); });
  return {
      "Budget of the correction: each contribution as a standard uncertainty; the root of the "
      "sum of their squares is u.",
      std::move(rows)};
}

// As many checks side by side as a sheet takes.
std::vector<document::Block> checks_budget(const Certified& c,
                                           const std::vector<std::size_t>& order) {
  constexpr std::size_t most_columns = 6;
  const Figures f{c};
  const calibration::CheckSet& set = c.summary.evaluated;
  std::vector<document::Block> out;
  for (std::size_t first = 0; first < set.checks.size(); first += most_columns) {
    const std::size_t last = std::min(first + most_columns, set.checks.size());
    double least = set.checks[first].correction.expanded();
    for (std::size_t i = first; i < last; ++i)
      least = std::min(least, set.checks[i].correction.expanded());
    Rows rows{{"no.", "contribution of"}};
    for (std::size_t i = first; i < last; ++i)
      rows.front().push_back(fmt::format("to check {}, {}", c.summary.checks[i].id, f.unit()));
    for (std::size_t n = 0; n < order.size(); ++n) {
      const auto concerned = calibration::checks_with(set, order[n]);
      std::vector<std::string> cells{fmt::format("{}", n + 1), short_name(c, order[n])};
      bool any = false;
      for (std::size_t i = first; i < last; ++i) {
        const bool here = std::find(concerned.begin(), concerned.end(), i) != concerned.end();
        any = any || here;
        cells.push_back(here ? f.number(std::abs(set.shares[i][order[n]]), least, 1) : "");
      }
      if (any) rows.push_back(std::move(cells));
    }
    std::vector<std::string> u{"", "standard uncertainty u"};
    for (std::size_t i = first; i < last; ++i)
      u.push_back(f.number(set.checks[i].correction.u, least, 1));
    rows.push_back(std::move(u));
    out.emplace_back(
        document::CaptionedTable{"Budget of each check's own correction", std::move(rows)});
  }
  return out;
}

}  // namespace

document::Section certificate_budget(const Certified& c) {
  const auto order = by_contribution(c);
  document::Section s{"7 Where the uncertainty comes from", {budget(c, order), inputs(c, order)}};
  for (document::Block& b : checks_budget(c, order)) s.blocks.push_back(std::move(b));
  return s;
}

}  // namespace areo::paper
