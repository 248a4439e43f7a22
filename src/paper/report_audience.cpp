// SPDX-License-Identifier: GPL-3.0-or-later
// One sheet for people who only want to know what is in the glass.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "areo/analysis/budget.hpp"
#include "areo/analysis/limit.hpp"
#include "areo/physics/ethanol.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/compare.hpp"
#include "areo/wording/strength.hpp"
#include "report_charts.hpp"
#include "report_parts.hpp"

namespace areo::paper {
namespace {

using batch::Point;

bool refracted(const ReportData& m, const Point& p) {
  return m.batch->shelf().instrument(p.sample.first().instrument).refractometer() != nullptr;
}

// Of several, which one.
std::string who(const ReportData& m, const BottleHistory& a) {
  return m.accounts.size() > 1 ? title_of(a) + ": " : "";
}

// "12 times from 2026-03-02 to 2026-03-13"
std::string measured_text(const ReportData& m, const BottleHistory& a) {
  const auto& points = a.history.points;
  const bool drop =
      std::any_of(points.begin(), points.end(), [&](const Point& p) { return refracted(m, p); });
  const bool floated =
      std::any_of(points.begin(), points.end(), [&](const Point& p) { return !refracted(m, p); });
  const char* with = !drop      ? "how deep a glass float sinks in it"
                     : !floated ? "how a drop of it bends light"
                                : "how deep a glass float sinks in it, and how a drop bends light";
  const std::string first = points.front().sample.at().date();
  if (points.size() == 1) return fmt::format("{}once, on {}, by {}.", who(m, a), first, with);
  return fmt::format("{}{} times from {} to {}, by {}.", who(m, a), a.history.readings, first,
                     points.back().sample.at().date(), with);
}

// Grams of alcohol in a glass of what holds so much.
double grams(const ReportData& m, double percent_vol) {
  constexpr double litres_per_m3 = 1000, g_per_kg = 1000;
  return percent_vol / 100 * physics::pure_ethanol_density().value() * g_per_kg / litres_per_m3 *
         m.glass_l;
}

// The strength as a range in words, and what a glass holds of it.
std::string meaning(const ReportData& m, const BottleHistory& a) {
  const Point* last = a.last_strength();
  if (last == nullptr) return who(m, a) + "these readings say nothing of its alcohol.";
  const auto& v = last->result().at(wording::strength_key).value;
  const std::string glass = fmt::format("a glass of {:g} mL", 1000 * m.glass_l);
  if (last->lifted)
    return text::sentence(who(m, a) + wording::strength_alone_text(*last, m.full)) +
           " Bubbles in the sample lift the float: the drink is stronger than it seems.";
  if (last->drink->state != measurement::Fermentation::measured)
    return text::sentence(fmt::format(
        "{}{}: less than {} g of alcohol in {}", who(m, a),
        wording::strength_alone_text(*last, m.full),
        text::rounded_up(grams(m, analysis::strength_bounds(*last->drink).upper), 1), glass));
  const uncertainty::Interval range{v.estimate - v.expanded(), v.estimate + v.expanded()};
  return fmt::format("{}{} on {}, with about 95 %: {} of alcohol in {}.", who(m, a),
                     text::interval_text(range, "% vol"), last->sample.at().date(),
                     text::interval_text({grams(m, range.lo), grams(m, range.hi)}, "g"), glass);
}

// Whether it still becomes stronger, without a figure.
std::string course(const BottleHistory& a) {
  const trend::State& s = a.history.state;
  switch (s.phase) {
    case trend::Phase::falling: return "it still ferments, and becomes stronger";
    case trend::Phase::steady:
      return fmt::format(
          "for {:.0f} days no change was seen; what is left of the sugar may start again",
          s.hidden->days);
    case trend::Phase::not_begun:
      return a.history.since > 0 ? "since something was added it was not seen to ferment"
                                 : "it was not seen to ferment yet";
    case trend::Phase::fell:
    case trend::Phase::no_fall:
    case trend::Phase::unclear: break;
  }
  return "whether it still becomes stronger these readings do not show";
}

// Without the words of decision rules.
std::string limit_for_guests(const ReportData& m, const BottleHistory& a) {
  const double limit = a.passing->percent_vol;
  const uncertainty::Side side = a.passing->side();
  if (side == uncertainty::Side::cannot_tell)
    return text::sentence(fmt::format(
        "{}these readings cannot tell on which side of {:g} % vol it is", who(m, a), limit));
  return text::sentence(fmt::format("{}it is {} {:g} % vol ({:g} % sure)", who(m, a),
                                    side == uncertainty::Side::below ? "below" : "above", limit,
                                    100 * a.passing->level));
}

// Where a doubt comes from, in everyday words.
const char* everyday(uncertainty::Origin origin) {
  using enum uncertainty::Origin;
  switch (origin) {
    case reading: return "how exactly a fine scale can be read by eye";
    case temperature:
    case cooling:
    case thermometer: return "how exactly its temperature was known";
    case calibration:
    case compensation: return "how far the instrument itself may be off";
    case glass:
    case meniscus:
    case surface:
    case stem: return "how the float sits in the liquid";
    case mass:
    case composition: return "how exactly it is known what went in";
    case refraction: return "how the fruit in it bends light";
    case formula: return "how exactly the science of liquids is known";
    case method:
      return "how much alcohol a yeast makes of its sugar, which differs from one to another";
    case typed:
    case other: break;
  }
  return "a figure that was taken as stated";
}

// Where the largest part of the doubt comes from.
std::string doubt(const ReportData& m, const BottleHistory& a) {
  const Point* last = a.last_strength();
  if (last == nullptr || last->drink->state != measurement::Fermentation::measured) return "";
  const auto parts = analysis::budget(last->result(), wording::strength_key);
  return text::sentence(fmt::format("{}most of the doubt is about {}", who(m, a),
                                    everyday(parts.front().input.origin)));
}

// What made it, without the words of a laboratory.
const char* made_by(ferment::Culture culture) {
  switch (culture) {
    case ferment::Culture::yeast: break;
    case ferment::Culture::mixed:
      return "a drink that yeast and bacteria soured together, of which some sugar became acid";
    case ferment::Culture::acetic:
      return "a drink in which bacteria turn alcohol into vinegar, so that it can only say how "
             "much "
             "alcohol there is at most";
  }
  return "a drink that yeast alone has made";
}

// Which of two is stronger, for people who did not measure them.
std::string guests_comparison(const wording::ComparedPair& p) {
  if (p.c.verdict == trend::Verdict::different) return wording::stronger_text(p) + ".";
  return fmt::format("Whether {} or {} is stronger, these readings cannot tell.", p.a->title,
                     p.b->title);
}

}  // namespace

void write_audience(document::Document& d, const ReportData& m) {
  write_headline(d, m, false);
  d.section("What was measured");
  std::vector<std::string> measured, means, sure;
  for (const BottleHistory& a : m.accounts) {
    measured.push_back(measured_text(m, a));
    means.push_back(meaning(m, a));
    if (a.passing) means.push_back(limit_for_guests(m, a));
    if (std::string text = doubt(m, a); !text.empty()) sure.push_back(std::move(text));
  }
  const std::string first = course(m.accounts.front());
  const bool one_course = std::all_of(m.accounts.begin(), m.accounts.end(),
                                      [&](const BottleHistory& a) { return course(a) == first; });
  if (one_course)
    means.push_back(text::sentence(first));
  else
    for (const BottleHistory& a : m.accounts)
      means.push_back(text::sentence(who(m, a) + course(a)));
  d.add(document::Bullets{measured});
  d.add(document::Paragraph{
      "Sugar makes a liquid heavier; yeast turns sugar into alcohol, and it becomes lighter. From "
      "how much lighter it became follows how much alcohol there is."});
  d.section("What it means");
  d.add(document::Bullets{means});
  if (m.accounts.size() > 1) {
    const std::vector<wording::ComparedReading> bottles = wording::bottles_of(*m.batch);
    const std::vector<wording::ComparedPair> pairs =
        wording::pairs_of(bottles, std::array{m.batch}, std::nullopt);
    std::vector<std::string> lines;
    lines.reserve(pairs.size());
    for (const wording::ComparedPair& p : pairs) lines.push_back(guests_comparison(p));
    d.add(document::Bullets{lines});
    d.add(document::Bullets{wording::notes_on_time(pairs)});
  } else if (const auto chart = strength_chart(m, m.accounts[0]); !chart.points.empty()) {
    d.add(
        document::Picture{document::svg_of(chart), "Alcohol by volume; the bars hold about 95 %."});
  }
  if (!sure.empty()) d.section("How sure that is");
  d.add(document::Bullets{sure});
  d.section("What could be wrong");
  std::vector<std::string> wrong{
      fmt::format("It holds for {}.", made_by(m.batch->record().culture)),
      "It was not distilled, and no laboratory has seen it.",
      "Nobody can tell from it how a drink acts on a person, or who may drive."};
  for (const BottleHistory& a : m.accounts)
    for (const trend::Outlier& o : a.history.odd)
      wrong.push_back(text::sentence(
          fmt::format("{}the reading of {} does not go with the others ({}?)", who(m, a),
                      wording::when_text(a.history.points[o.point].sample.at()), o.likely)));
  for (const BottleHistory& a : m.accounts)
    for (const std::string& text : a.corrections)
      wrong.push_back(who(m, a) + text + ".");  // begins with a name
  d.add(document::Bullets{wrong});
  write_cautions(d);
}

}  // namespace areo::paper
