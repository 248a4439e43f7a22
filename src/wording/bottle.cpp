// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/bottle.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "areo/core/shell_word.hpp"
#include "areo/measurement/ferments.hpp"
#include "areo/text/format.hpp"
#include "areo/text/temperature_text.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/notes.hpp"
#include "areo/wording/trend.hpp"
#include "record_value.hpp"
#include "result_value.hpp"

namespace areo::wording {
namespace {

using measurement::BottlePlan;
using measurement::Priming;
using measurement::Quantity;
using measurement::RatingVerdict;
using trend::Phase;

// Of a case, with the words around its key: "co2_", "_g_l".
uncertainty::Interval range_of(const BottleReport& t, const BottleCase& c, const char* before,
                               const char* after) {
  const auto& r = t.outcome.result;
  return measurement::range_of(r.at(before + c.key + after),
                               r.at(before + std::string{"now"} + after));
}

uncertainty::Interval pressure_of(const BottleReport& t, const BottleCase& c) {
  return range_of(t, c, "gauge_pressure_", "_bar");
}

RatingVerdict verdict_of(const BottleReport& t, const BottleCase& c) {
  return measurement::against_rating(pressure_of(t, c), *t.rating);
}

// An end that was stated counts in the place of fermenting everything where the drink is steady
// there, within its ±.
bool end_is_supported(const BottleReport& t) {
  return t.plan.expected_sg && t.history.state.phase == Phase::steady && !t.stuck;
}

// All of the extract is counted.
bool ferments_all(const BottleCase& c) { return c.key == "all" || c.key == "primed"; }

// Whether a case lies where the solubility of the gas was not measured.
bool any_beyond(const BottleReport& t) {
  return std::any_of(t.cases.begin(), t.cases.end(), [&](const BottleCase& c) {
    return measurement::beyond_measurements(pressure_of(t, c));
  });
}

std::string range_text(const Quantity& q, bool full) {
  return text::interval_text(measurement::range_of(q), q.unit, full);
}

}  // namespace

std::vector<std::vector<std::string>> case_rows(const BottleReport& t, bool full) {
  std::vector<std::vector<std::string>> rows{{"if", "CO2, g/L", "volumes", "pressure, bar"}};
  for (const BottleCase& c : t.cases)
    rows.push_back({c.words, text::interval_text(range_of(t, c, "co2_", "_g_l"), "", full),
                    text::interval_text(range_of(t, c, "co2_", "_volumes"), "", full),
                    text::interval_text(pressure_of(t, c), "", full)});
  return rows;
}

namespace {

using Lines = std::vector<std::string>;

Lines priming_lines(const BottleReport& t, const std::string& name, bool full) {
  Lines all;
  if (t.outcome.priming == Priming::none) return all;
  const std::string wanted = fmt::format("priming for {:.3g} g/L: ", *t.plan.carbonation);
  if (t.outcome.priming == Priming::enough) {
    all.push_back(
        wanted +
        "no figure; what is dissolved and the sugar that is left can make as much or more");
    return all;
  }
  if (t.outcome.priming == Priming::not_yet) {
    all.push_back(wanted +
                  (t.stuck ? "not yet: it is stuck, and may start again"
                           : "not yet: wait until it is steady; how much sugar it takes depends on "
                             "where it ends"));
    return all;
  }
  const auto& r = t.outcome.result;
  // The least that may be needed leaves the carbonation below what is wanted, whatever is left.
  const auto least = [&](const char* key) {
    const Quantity& q = r.at(key);
    return text::rounded_down(measurement::range_of(q).lo, text::last_place(q.value.expanded())) +
           " " + q.unit;
  };
  const auto about = [&](const char* key) {
    const Quantity& q = r.at(key);
    return text::interval_text(q.value.estimate, measurement::range_of(q), q.unit, full);
  };
  const std::string of_all = t.plan.volume_l ? fmt::format(" for {:g} L", *t.plan.volume_l) : "";
  const char* key = t.plan.volume_l ? "priming_sugar_g" : "priming_sugar_g_l";
  all.push_back(fmt::format(
      "{}{} of table sugar{} stay below it; {} make about as much; as carbonated {}", wanted,
      least(key), of_all, about(key), range_text(r.at("gauge_pressure_carbonated_bar"), full)));
  if (!t.plan.volume_l)
    all.push_back(
        fmt::format("  how much in all: areo bottle {} ... --volume 5L", shell_word(name)));
  return all;
}

Lines rating_lines(const BottleReport& t) {
  Lines all;
  if (!t.rating) return all;
  const double bar = t.rating->value() / 1e5;
  const std::string rating = fmt::format("{:.3g} bar", bar);
  if (all_below(t)) {
    double least = bar;
    for (const BottleCase& c : t.cases)
      if (!ferments_all(c) || !end_is_supported(t))
        least = std::min(least, bar - pressure_of(t, c).hi);
    all.push_back(fmt::format(
        "below the rating of {} by {} bar or more, as far as these readings tell{}", rating,
        text::rounded_down(least, 1),
        end_is_supported(t)
            ? fmt::format(", if it stays at {}: it has been steady there for {:.0f} "
                          "days, within the ± of a reading",
                          text::fixed(*t.plan.expected_sg, 4), t.history.state.hidden->days)
            : ""));
    return all;
  }
  for (const BottleCase& c : t.cases) {
    const uncertainty::Interval p = pressure_of(t, c);
    switch (verdict_of(t, c)) {
      case RatingVerdict::above:
        all.push_back(fmt::format("ABOVE the rating of {} by up to {} bar if {}", rating,
                                  text::rounded_up(p.hi - bar, 1), c.words));
        break;
      case RatingVerdict::below:
        all.push_back(fmt::format(
            "below the rating of {} by {} bar or more if {}, as far as these readings tell", rating,
            text::rounded_down(bar - p.hi, 1), c.words));
        break;
      case RatingVerdict::cannot_tell:
        all.push_back(
            fmt::format("CANNOT TELL whether it is below the rating of {} if {}", rating, c.words));
        break;
    }
  }
  return all;
}

// Why an end that was stated does not count in the place of fermenting everything; empty if it
// does.
std::string unsupported_text(const BottleReport& t) {
  if (!t.rating || !t.plan.expected_sg || end_is_supported(t) || all_below(t)) return "";
  const uncertainty::Value& now = t.point.gravity().value;
  const std::string at = text::fixed(now.estimate, 4);
  return fmt::format("all extract counts, not only that down to the stated {}: {}",
                     text::fixed(*t.plan.expected_sg, 4),
                     t.stuck
                         ? fmt::format("it is steady at {}, above that, and may start again", at)
                     : now.estimate - *t.plan.expected_sg > now.expanded()
                         ? fmt::format("it is at {}, above that, and not steady", at)
                         : "it is there, within the ±, but not yet steady");
}

const char* state_text(const BottleReport& t) {
  if (t.stuck) return "STUCK above where it should end: it may start again";
  switch (t.history.state.phase) {
    case Phase::steady: return "steady";
    case Phase::falling: return "STILL FERMENTS";
    case Phase::not_begun:
    case Phase::fell:
    case Phase::no_fall:
    case Phase::unclear: break;
  }
  return "these readings do not show that it has stopped";
}

// The fastest that goes with the readings, SG a day.
std::optional<double> fastest(const trend::State& s) {
  if (s.fall) return (s.fall->value.estimate + s.fall->expanded()) / s.fall->days;
  if (s.hidden) return s.hidden->per_day;
  return std::nullopt;
}

// How long until a pressure is reached, and how far the gravity falls until then.
struct Reach {
  double per_day, bar, days, fall, end;
  bool out_of_reach;  // no extract is left for it
};
std::optional<Reach> reach_of(const BottleReport& t) {
  const auto pace = fastest(t.history.state);
  if (!pace || !(*pace > 0)) return std::nullopt;
  constexpr double usual_bar = 3, pa_per_bar = 1e5;
  const double target = t.rating ? t.rating->value() / pa_per_bar : usual_bar;
  const double now = pressure_of(t, t.cases.front()).hi;
  const double a_day = measurement::made_by_fall(t.history.series.gravity.front(), *pace).bar;
  if (now >= target) return std::nullopt;
  const double days = (target - now) / a_day;
  const double fall = *pace * days, end = t.point.gravity().value.estimate - fall;
  const auto& lowest = t.history.outlook.lowest;
  // Only where no case reaches it: priming sugar makes more than this extract.
  const bool out_of_reach =
      lowest && end < *lowest && std::all_of(t.cases.begin(), t.cases.end(), [&](const auto& c) {
        return pressure_of(t, c).hi < target;
      });
  return Reach{*pace, target, days, fall, end, out_of_reach};
}

Lines pace_lines(const BottleReport& t) {
  Lines all;
  const auto r = reach_of(t);
  if (!r) return all;
  if (r->out_of_reach) {
    all.push_back(fmt::format("{:.3g} bar would be a fall to below {}, where no extract is left",
                              r->bar, text::rounded_up(*t.history.outlook.lowest, 4)));
    return all;
  }
  all.push_back(fmt::format(
      "at the fastest pace that goes with these readings, {} a day, kept at 25 °C, it reaches "
      "{:.3g} bar after {};",
      text::rounded_up(r->per_day, text::last_place(r->per_day)), r->bar,
      r->days < 1    ? "less than a day"
      : r->days < 60 ? fmt::format("{:.0f} day{}", std::floor(r->days), r->days < 2 ? "" : "s")
                     : "more than two months"));
  all.push_back("  cold slows this by an amount nobody measured here");
  all.push_back(fmt::format("  {:.3g} bar is a fall of {} from now on, to {}", r->bar,
                            text::rounded_down(r->fall, 4), text::rounded_up(r->end, 4)));
  return all;
}

text::Json pace_value(const BottleReport& t) {
  const auto r = reach_of(t);
  if (!r) return nullptr;
  return {{"sg_per_day", text::number_json(r->per_day)}, {"bar", text::number_json(r->bar)},
          {"days", text::number_json(r->days)},          {"fall", text::number_json(r->fall)},
          {"until_sg_20_20", text::number_json(r->end)}, {"out_of_reach", r->out_of_reach}};
}

Lines culture_notes(ferment::Culture culture) {
  Lines all;
  if (culture == ferment::Culture::yeast) return all;
  all.push_back(fmt::format(
      "note: a culture that makes acids makes less CO2 of the same sugar, or none: what yeast "
      "would make is the upper bound{}",
      culture == ferment::Culture::acetic
          ? "; it uses up alcohol too, and then more extract is read than there is"
          : ""));
  return all;
}

std::string next_text(const BottleReport& t) {
  const std::string name = shell_word(t.batch.record().name) +
                           (t.bottle.empty() ? "" : " --bottle " + shell_word(t.bottle));
  if (t.history.state.phase != Phase::steady)
    return fmt::format("close nothing yet; read again in a day, areo trend {}", name);
  if (t.stuck) return "find out why before a bottle is closed; then read again";
  if (!t.rating)
    return fmt::format("what does the maker of your bottle say? areo bottle {} --rating 6bar",
                       name);
  if (any_beyond(t) && !all_below(t)) return "leave it open, and read again in a week";
  if (!all_below(t)) return "a bottle rated higher, or leave it open and read again in a week";
  return "open one bottle after some days, cold, before you trust the others";
}

const char* word(RatingVerdict v) {
  switch (v) {
    case RatingVerdict::below: return "below";
    case RatingVerdict::above: return "above";
    case RatingVerdict::cannot_tell: break;
  }
  return "cannot_tell";
}

const char* word(Priming p) {
  switch (p) {
    case Priming::figure: return "figure";
    case Priming::enough: return "enough";
    case Priming::not_yet: return "not_yet";
    case Priming::none: break;
  }
  return "none";
}

text::Json verdicts_value(const BottleReport& t) {
  if (!t.rating) return nullptr;
  text::Json verdicts = text::Json::object();
  for (const BottleCase& c : t.cases) verdicts[c.key] = word(verdict_of(t, c));
  return verdicts;
}

}  // namespace

std::vector<BottleCase> cases_of(const BottlePlan& plan, Priming priming) {
  std::vector<BottleCase> cases{{"now", "nothing more ferments"}};
  const std::string ends =
      plan.expected_sg ? fmt::format("it ends at {}", text::fixed(*plan.expected_sg, 4)) : "";
  if (plan.expected_sg) cases.push_back({"expected", ends});
  cases.push_back({"all", "everything ferments"});
  if (priming != Priming::figure) return cases;
  if (plan.expected_sg)
    cases.push_back({"expected_primed", ends + " and the priming sugar ferments too"});
  cases.push_back({"primed", "everything and the priming sugar ferments"});
  return cases;
}

bool all_below(const BottleReport& t) {
  return std::all_of(t.cases.begin(), t.cases.end(), [&](const BottleCase& c) {
    return (ferments_all(c) && end_is_supported(t)) || verdict_of(t, c) == RatingVerdict::below;
  });
}

bool answers(const BottleReport& t) {
  return std::none_of(t.cases.begin(), t.cases.end(), [&](const BottleCase& c) {
    return verdict_of(t, c) == RatingVerdict::cannot_tell;
  });
}

namespace {

std::string told(const BottleReport& t, double celsius) {
  return text::temperature_text(celsius, text::temperature_unit(t.batch.settings().temperature));
}

}  // namespace

std::vector<std::string> bottle_lines(const BottleReport& t, bool full) {
  const auto& r = t.outcome.result;
  Lines all{batch_text(t.batch.record()) + (t.bottle.empty() ? "" : "; bottle " + t.bottle),
            fmt::format("reading {} of {}: gravity 20/20 {}; {}", numbers(t.point.sample),
                        when_text(t.point.sample.at()),
                        text::value_text(t.point.gravity().value, "", full), state_text(t)),
            fmt::format("sugar that could still ferment: {}, counting all extract",
                        range_text(r.at("sugar_all_g_l"), full))};
  if (t.plan.expected_sg)
    all.push_back(fmt::format("  down to {}: {}", text::fixed(*t.plan.expected_sg, 4),
                              range_text(r.at("sugar_expected_g_l"), full)));
  all.push_back(fmt::format("CO2 dissolved at {}: {}", told(t, t.plan.closing.indication_c),
                            range_text(r.at("co2_dissolved_g_l"), full)));
  all.push_back(fmt::format(
      "closed and kept at {}{} with {:g} % headspace, gauge pressure (about 95 %):",
      told(t, t.plan.storage_c), t.storage_stated ? "" : " ± 5 °C", 100 * t.plan.headspace));
  return all;
}

std::vector<std::string> bottle_advice(const BottleReport& t, bool full) {
  Lines all;
  const auto add = [&all](const Lines& more) { all.insert(all.end(), more.begin(), more.end()); };
  add(pace_lines(t));
  add(priming_lines(t, t.batch.record().name, full));
  add(rating_lines(t));
  if (!t.plan.expected_sg)
    all.emplace_back("  all extract was counted; if you know where it ends: --expected SG");
  if (const std::string why = unsupported_text(t); !why.empty()) all.push_back("  " + why);
  if (any_beyond(t))
    all.emplace_back("note: above 10 bar the solubility was not measured: trust no figure there");
  for (const std::string& note : own_notes(t.outcome.result)) all.push_back("note: " + note);
  add(culture_notes(t.batch.record().culture));
  add({"only bottles made for pressure, and their maker's rating rules; glass can burst;",
       "  nobody knows the sugar that is left exactly; keep them cold, never warm them",
       "next: " + next_text(t)});
  return all;
}

std::string bottle_json(const BottleReport& t) {
  const BottlePlan& p = t.plan;
  constexpr double pa_per_bar = 1e5;
  text::Json rating;
  if (t.rating) rating = text::number_json(t.rating->value() / pa_per_bar);
  return json_line(t.outcome.result, {{"batch", t.batch.record().name},
                                      {"bottle", t.bottle},
                                      {"readings", numbers_value(t.point.sample)},
                                      {"state", t.stuck ? "stuck" : word(t.history.state.phase)},
                                      {"culture", notebook::word(t.batch.record().culture)},
                                      {"closed_at_c", text::number_json(p.closing.indication_c)},
                                      {"storage_c", text::number_json(p.storage_c)},
                                      {"headspace_percent", text::number_json(100 * p.headspace)},
                                      {"expected_sg_20_20", text::number_json(p.expected_sg)},
                                      {"carbonation_g_l", text::number_json(p.carbonation)},
                                      {"volume_l", text::number_json(p.volume_l)},
                                      {"priming", word(t.outcome.priming)},
                                      {"rating_bar", std::move(rating)},
                                      {"rating_verdicts", verdicts_value(t)},
                                      {"pace", pace_value(t)},
                                      {"odd", odd_value(t.history)}});
}

}  // namespace areo::wording
