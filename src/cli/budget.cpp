// SPDX-License-Identifier: GPL-3.0-or-later
#include "budget.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/core/nearest.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/budget.hpp"
#include "failure.hpp"

namespace areo::cli {
namespace {

using measurement::AlcoholResult;
using measurement::Fermentation;
using measurement::Quantity;
using measurement::Result;

std::string chosen_key(const Result& result, const std::string& of) {
  if (of.empty()) return result.quantities.front().key;
  std::vector<std::string> keys;
  for (const Quantity& q : result.quantities) keys.push_back(q.key);
  if (std::find(keys.begin(), keys.end(), of) != keys.end()) return of;
  const std::string near = nearest(of, keys);
  throw ParseError{fmt::format("'{}' is no quantity of this result", of), of, 0, of.size(),
                   near.empty() ? fmt::format("one of {}", fmt::join(keys, ", "))
                                : fmt::format("did you mean '{}'?", near)};
}

std::optional<double> target_of(const std::string& text) {
  if (text.empty()) return std::nullopt;
  const double target = text::plain_number(text, "a target");
  if (!(target > 0))
    throw ParseError{"a target is a ± above zero, in the unit of the result", text, 0, text.size()};
  return target;
}

}  // namespace

int print_budget(const Result& result, const std::string& headline, const Session& session,
                 const std::string& state) {
  const std::string key = chosen_key(result, session.budget.of);
  const std::optional<double> target = target_of(session.budget.target);
  if (session.json) {
    raw_line(wording::budget_json(result, key, target, state));
    return done;
  }
  line(headline);
  for (const std::string& text : wording::budget_lines(result, key, target, session.full))
    line(text);
  notes(result.all_notes());
  return done;
}

int print_strength_budget(const AlcoholResult& a, const wording::StrengthWords& words,
                          const Session& session) {
  if (a.state != Fermentation::above && a.state != Fermentation::contradiction)
    return print_budget(
        a.result,
        wording::headline(a, words,
                          wording::ReportedResult{a.result, {}, session.full, {.check = false}}),
        session, wording::word(a.state));
  if (session.json) {
    raw_line(wording::no_budget_json(a));
    return said_no;
  }
  line("no alcohol computed, so there is no budget: " + words.above);
  notes(a.result.all_notes());
  line("next: " + words.retry);
  return said_no;
}

}  // namespace areo::cli
