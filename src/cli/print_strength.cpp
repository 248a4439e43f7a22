#include "print_strength.hpp"

#include "budget.hpp"
#include "failure.hpp"

namespace areo::cli {

void add_all_option(const Command& command, bool& all) {
  command.add_flag("--all", all, "also alcohol by mass, extract, attenuation and energy");
}

int print_strength(const measurement::AlcoholResult& a, const StrengthWords& words,
                   const Session& session, const ReportedResult& reported) {
  if (session.budget.wanted) return print_strength_budget(a, words, session);
  if (session.json)
    raw_line(strength_json(a, words, reported));
  else
    lines(strength_lines(a, words, reported));
  return a.has_strength() ? done : said_no;
}

}  // namespace areo::cli
