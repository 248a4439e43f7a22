// SPDX-License-Identifier: GPL-3.0-or-later
#include "budget.hpp"

#include <optional>
#include <string>

#include "areo/wording/budget.hpp"
#include "areo/wording/notes.hpp"
#include "failure.hpp"

namespace areo::cli {

using measurement::AlcoholResult;
using measurement::Fermentation;

int print_budget(const measurement::Result& result, const std::string& headline,
                 const Session& session, const std::string& state) {
  const std::string key = wording::budget_key(result, session.budget.of);
  const std::optional<double> target = wording::target_from_text(session.budget.target);
  if (session.json) {
    raw_line(wording::budget_json(result, key, target, state));
    return done;
  }
  line(headline);
  lines(wording::budget_lines(result, key, target, session.full));
  notes(wording::all_notes(result));
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
  notes(wording::all_notes(a.result));
  line("next: " + words.retry);
  return said_no;
}

}  // namespace areo::cli
