// SPDX-License-Identifier: GPL-3.0-or-later
#include "print_strength.hpp"

#include "budget.hpp"
#include "failure.hpp"

namespace areo::cli {

void add_all_option(const Command& command, bool& all) {
  command.add_flag("--all", all, "also alcohol by mass, extract, attenuation and energy");
}

int print_strength(const measurement::AlcoholResult& a, const wording::StrengthWords& words,
                   const Session& session, const wording::ReportedResult& reported) {
  if (session.budget.wanted) return print_strength_budget(a, words, session);
  if (session.json)
    raw_line(wording::strength_json(a, words, reported));
  else
    lines(wording::strength_lines(a, words, reported));
  return a.has_strength() ? done : said_no;
}

}  // namespace areo::cli
