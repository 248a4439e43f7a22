// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/trend.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/shell_word.hpp"
#include "areo/measurement/ferments.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/instrument.hpp"
#include "areo/wording/strength.hpp"

namespace areo::wording {
namespace {

using trend::Fall;
using trend::History;
using trend::Phase;

constexpr double day_s = 86400;

std::string days_text(double days) { return duration_text(std::llround(days * day_s)); }

// "0.0030 ± 0.0013 in 3.0 days"
std::string fall_text(const Fall& f) {
  const int decimals = text::last_place(f.expanded());
  return fmt::format("{} ± {} in {}", text::fixed(f.value.estimate, decimals),
                     text::rounded_up(f.expanded(), decimals), days_text(f.days));
}

// "up to 0.0006 a day would hide in them, 0.5 % vol and 2.6 bar a week"
std::string hidden_text(const History& h, const trend::Pace& p) {
  constexpr double week = 7;
  const measurement::Made made =
      measurement::made_by_fall(h.series.gravity.front(), week * p.per_day);
  const auto two_digits = [](double v) {
    return text::rounded_up(v, std::max(0, text::last_place(v)));
  };
  return fmt::format("up to {} a day would hide: {} % vol, or {} bar in a closed bottle, a week",
                     text::rounded_up(p.per_day, text::last_place(p.per_day)),
                     two_digits(made.percent_vol), two_digits(made.bar));
}

// The moment of a reading on the clock of the history's first one, so that all can be compared.
std::string reading_when(const History& h, std::size_t point) {
  return when_text({h.points[point].sample.at().seconds, h.zero.offset_s});
}

// "by the curve the drink passed it 2026-03-05 10:00 (2026-03-04 to 2026-03-05; 90 % likely)";
// empty without one
std::string curve_text(const History& h, const trend::Passing& p) {
  const trend::Crossing& c = p.by_curve;
  if (!c.day) return "";
  std::size_t first = h.since;  // with a strength
  while (first + 1 < h.points.size() && !h.points[first].has_strength()) ++first;
  return fmt::format(
      "by the curve the drink passed it {} ({} to {}; {:g} % likely)",
      when_text(trend::moment_of(h, *c.day)),
      c.lo ? when_text(trend::moment_of(h, *c.lo)) : "before " + reading_when(h, first),
      c.hi ? when_text(trend::moment_of(h, *c.hi)) : "perhaps not yet", 100 * (2 * p.level - 1));
}

std::string cell(const batch::Point& p, const char* key, bool full) {
  if (!p.drink || p.drink->state != measurement::Fermentation::measured) return "";
  return text::value_text(p.drink->result.at(key).value, "", full);
}

// Where the last reading is not behind a fall, up to which one it goes.
std::string until_text(const History& h, const Fall& f) {
  return f.last + 1 == h.series.size() ? "" : ", until " + reading_when(h, h.counted[f.last]);
}

}  // namespace

const char* word(Phase p) {
  switch (p) {
    case Phase::not_begun: return "not_begun";
    case Phase::falling: return "falling";
    case Phase::fell: return "fell";
    case Phase::no_fall: return "no_fall_seen";
    case Phase::steady: return "steady";
    case Phase::unclear: break;
  }
  return "unclear";
}

std::string state_text(const History& h, const std::optional<double>& expected) {
  const trend::State& s = h.state;
  const auto hidden = [&](const std::string& since) {
    return fmt::format("{}; {}{}", since, hidden_text(h, *s.hidden),
                       s.why.empty() ? "" : "; not called steady: " + s.why);
  };
  const auto none = [&](const std::string& since) { return "no fall seen " + hidden(since); };
  const auto days = [&] { return "in " + days_text(s.hidden->days); };
  switch (s.phase) {
    case Phase::not_begun:
      return fmt::format("NOT BEGUN: no fall seen since the {}; in the last {} {}",
                         h.since > 0 ? "last addition" : "first reading", days_text(s.hidden->days),
                         hidden_text(h, *s.hidden));
    case Phase::falling: return "FALLING: " + fall_text(*s.fall) + until_text(h, *s.fall);
    case Phase::fell:
      return fmt::format("FELL; whether it still does is open: {}", hidden_text(h, *s.hidden));
    case Phase::no_fall: return "NO FALL SEEN " + hidden(days());
    case Phase::steady:
      return trend::is_stuck(h, expected) ? fmt::format("STUCK above the expected {}: {}",
                                                        text::fixed(*expected, 3), none(days()))
                                          : "STEADY: " + none(days());
    case Phase::unclear: break;
  }
  return "CANNOT TELL: " + (!s.why.empty()        ? s.why
                            : h.series.size() < 2 ? std::string{"it takes two readings"}
                                                  : std::string{"the readings are too near"});
}

std::vector<std::string> outlook_lines(const History& h, bool full) {
  const trend::Forecast& o = h.outlook;
  if (!o.highest) return {"none: " + o.refused};
  // With the digits of the reading's own ±, away from what lies between.
  const double expanded = h.series.value(h.series.size() - 1).expanded();
  const int decimals = text::last_place(expanded) + (full ? text::further_digits : 0);
  const std::string highest = text::rounded_up(*o.highest, decimals);
  const double level = 100 * trend::outlook_level;
  std::vector<std::string> all{
      o.lowest ? fmt::format("ends at {} or below, but not below {}, where no extract is left; "
                             "{:g} % sure",
                             highest, text::rounded_down(*o.lowest, decimals), level)
               : fmt::format("ends at {} or below; {:g} % sure", highest, level)};
  if (o.steady_from)
    all.push_back(fmt::format(
        "steady on {} at the earliest: if {} no fall until then",
        trend::moment_of(h, *o.steady_from).date(),
        o.step_days < 1 ? "readings as often as so far show" : "one reading a day shows"));
  return all;
}

std::vector<std::vector<std::string>> point_rows(const History& h,
                                                 const std::vector<std::size_t>& shown, bool full) {
  std::vector<std::vector<std::string>> rows{{"no.", "when", "gravity 20/20", "a day",
                                              strength_head, "real extract, % mass",
                                              "real attenuation, %"}};
  for (const std::size_t i : shown) {
    const batch::Point& p = h.points[i];
    const auto& fall = h.per_day[i];
    rows.push_back(
        {numbers_cell(p.sample), when_text(p.sample.at()),
         p.computed() ? text::value_text(p.gravity().value, "", full) : "",
         fall ? text::value_text({-fall->estimate, fall->u, fall->degrees_of_freedom}, "", full)
              : "",
         strength_cell_text(p, full), cell(p, "real_extract_percent", full),
         cell(p, "real_attenuation_percent", full)});
  }
  return rows;
}

std::string odd_text(const History& h, const trend::Outlier& o) {
  return fmt::format(
      "reading {} lies {} {} the others: {}? nothing is concluded from it; if it is wrong: "
      "areo reading exclude {} --reason TEXT",
      numbers(h.points[o.point].sample), text::fixed(std::abs(o.off), 4),
      o.off > 0 ? "above" : "below", o.likely, h.points[o.point].sample.first().id);
}

std::vector<std::string> odd_notes(const History& h) {
  std::vector<std::string> all;
  if (h.state.scatter > 1)
    all.push_back(fmt::format(
        "these readings scatter {:.1f} times as much as their ± allows: bubbles, layers, "
        "another eye? what is said of the fall counts it, a single reading's ± does not",
        h.state.scatter));
  for (const trend::Outlier& o : h.odd) all.push_back(odd_text(h, o));
  return all;
}

std::string limit_text(batch::Batch& batch, const History& h, const trend::Passing& p) {
  const std::string asked = fmt::format("Under {:g} % vol? ", p.percent_vol);
  const auto when = [&](std::size_t point) { return reading_when(h, point); };
  if (p.contradiction)
    return fmt::format(
        "{}Not known: reading {} says over, and reading {} later under; one of them is off", asked,
        numbers(h.points[p.contradiction->first].sample),
        numbers(h.points[p.contradiction->second].sample));
  switch (p.side()) {
    case uncertainty::Side::below:
      return fmt::format("{}Yes, at the last reading, {}; it rises as long as the gravity falls",
                         asked, when(*p.last));
    case uncertainty::Side::above: {
      const std::string between =
          p.by_curve.lo
              ? fmt::format("between {} and {}", when_text(trend::moment_of(h, *p.by_curve.lo)),
                            p.by_curve.hi ? when_text(trend::moment_of(h, *p.by_curve.hi))
                                          : when(*p.above_from))
          : p.below_until
              ? fmt::format("between {} and {}", when(*p.below_until), when(*p.above_from))
              : "before " + when(*p.above_from);
      return asked + "No: it passed it " + between;
    }
    case uncertainty::Side::cannot_tell: break;
  }
  if (!p.last) return asked + "Not known: no reading says how strong it is";
  const trend::Deciding d = trend::deciding_readings(batch, h, p);
  const auto& instrument = batch.shelf().instrument(h.points[*p.last].sample.first().instrument);
  // Rounded to the side where it would do.
  const int decimals = text::supported_decimals(instrument.graduation().division);
  const std::string unit = unit_of(instrument).empty() ? "" : " " + unit_of(instrument);
  std::string would;
  if (d.below)
    would = fmt::format("Degassed, a reading of {}{} or more would decide for under",
                        text::rounded_up(*d.below, decimals), unit);
  if (d.above)
    would +=
        fmt::format("{} of {}{} or less {}for over", would.empty() ? "A reading" : ", one",
                    text::rounded_down(*d.above, decimals), unit, d.below ? "" : "would decide ");
  return fmt::format(
      "{}Not known. {}", asked,
      would.empty() ? fmt::format("No reading of {} would decide it", instrument.name()) : would);
}

std::vector<std::string> passing_lines(batch::Batch& batch, const History& h,
                                       const trend::Passing& p) {
  const auto reading = [&](std::size_t point) {
    return fmt::format("{} (reading {})", reading_when(h, point), numbers(h.points[point].sample));
  };
  const std::string below =
      p.below_until ? "under until " + reading(*p.below_until) : "no reading decides for under";
  const std::string above =
      p.above_from ? "over from " + reading(*p.above_from) + " on" : "none for over";
  std::vector<std::string> all{
      limit_text(batch, h, p),
      fmt::format("{}, {}; {:g} % sure is asked of each", below, above, 100 * p.level)};
  if (std::string curve = curve_text(h, p); !curve.empty()) all.push_back(std::move(curve));
  return all;
}

std::string next_text(const History& h, const std::optional<double>& expected,
                      const std::string& name) {
  if (trend::is_stuck(h, expected))
    return "find out why before a bottle is closed; then read again";
  if (trend::shifted(h.state))
    return fmt::format(
        "if something was added: areo addition add sugar {} GRAMS --on DAY; if it is "
        "another drink, keep those readings out",
        shell_word(name));
  const std::vector<bool>& lifted = h.series.lifted;
  if (!lifted.empty() && std::find(lifted.begin(), lifted.end(), false) == lifted.end())
    return "degas a sample and read again";
  if (!h.odd.empty()) return "degas a sample and read again; or keep the odd reading out, as noted";
  if (h.state.phase == Phase::steady)
    return expected ? "read once more before a bottle is closed"
                    : fmt::format(
                          "is this its end? areo trend {} --expected SG says whether it is "
                          "stuck above it",
                          shell_word(name));
  return "read again in a day";
}

std::vector<std::string> refused_since(const History& h, const batch::Point& last) {
  std::vector<std::string> all;
  for (const batch::Point& p : h.points)
    if (!p.computed() && p.sample.at() > last.sample.at())
      all.push_back(fmt::format("reading {} came later and could not be computed: {}",
                                numbers(p.sample), p.refused));
  return all;
}

}  // namespace areo::wording
