// SPDX-License-Identifier: GPL-3.0-or-later
// The whole story of a batch.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <set>

#include "areo/notebook/recompute.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/budget.hpp"
#include "areo/wording/compare.hpp"
#include "areo/wording/instrument.hpp"
#include "areo/wording/notes.hpp"
#include "areo/wording/strength.hpp"
#include "fit_chart.hpp"
#include "report_charts.hpp"
#include "report_parts.hpp"

namespace areo::paper {
namespace {

using batch::Point;
using trend::History;

// Of several bottles, what they begin with is said once: it was read of the batch, or went into
// it, before they were filled.
bool stands_before(const ReportData& m, const BottleHistory& a, const std::string& bottle) {
  return m.accounts.size() > 1 && !a.bottle.empty() && bottle.empty();
}

// Numbers of the points of a history that stand in one account, or before all of them.
std::vector<std::size_t> points_of(const ReportData& m, const BottleHistory& a, bool before) {
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < a.history.points.size(); ++i)
    if (stands_before(m, a, a.history.points[i].sample.bottle()) == before) all.push_back(i);
  return all;
}

std::string originals(const ReportData& m, const BottleHistory& a, bool before) {
  std::string all;
  for (const std::size_t i : points_of(m, a, before)) {
    const Point& p = a.history.points[i];
    if (p.computed() && p.sample.first().stage == notebook::Stage::original)
      all +=
          fmt::format("On {} the original gravity was {} ({}). ", wording::when_text(p.sample.at()),
                      text::value_text(p.gravity().value, "", m.full),
                      wording::sample_text(*m.batch, p.sample));
  }
  for (const notebook::AdditionRecord& r : m.batch->additions())
    if (concerns(r, a) && stands_before(m, a, r.bottle) == before)
      all += fmt::format("Added on {}: {}. ", wording::when_text(r.made_at),
                         wording::addition_text(*m.book, r));
  return all;
}

// What happened, in order of time; how it goes now stands in the headline.
std::string story(const ReportData& m, const BottleHistory& a) {
  const History& h = a.history;
  std::string all = originals(m, a, false);
  if (const auto& whole = h.state.whole)
    all += fmt::format("From {} to {} it fell by {} in {}. ", wording::when_text(h.zero),
                       wording::when_text(h.points.back().sample.at()),
                       text::value_text(whole->value, "", m.full),
                       wording::duration_text(std::llround(whole->days * 86400)));
  const char* first = "outlook: ";
  for (const std::string& text : wording::outlook_lines(h, m.full)) {
    all += text::sentence(first + text) + " ";
    first = "";
  }
  if (!a.passing) return all;
  const std::vector<std::string> passing = wording::passing_lines(*m.batch, h, *a.passing);
  for (std::size_t i = 1; i < passing.size(); ++i)  // the first one is the headline's
    all += text::sentence(passing[i]) + " ";
  return all;
}

void write_readings(document::Document& d, const ReportData& m, const BottleHistory& a,
                    bool before) {
  const History& h = a.history;
  const std::vector<std::size_t> own = points_of(m, a, before);
  std::vector<std::size_t> shown;
  std::ranges::set_intersection(h.shown, own, std::back_inserter(shown));
  if (shown.empty()) return;
  const auto samples = m.batch->samples(a.bottle);
  const auto read = static_cast<std::size_t>(std::ranges::count_if(
      samples, [&](const batch::Sample* s) { return stands_before(m, a, s->bottle()) == before; }));
  const std::string of = m.accounts.size() == 1 ? "" : before ? "The batch: " : title_of(a) + ": ";
  d.add(document::CaptionedTable{
      of + text::sentence(fmt::format(
               "what was read, and what follows from it{}{}",
               &a == &m.accounts[0] ? fmt::format("; {}", wording::column_level) : "",
               read == shown.size() ? ""
                                    : fmt::format("; of {} readings the last of each day", read))),
      wording::point_rows(h, shown, m.full)});
}

// What several bottles begin with, from the one that has most of it; not if the batch has an
// account of its own.
void write_before(document::Document& d, const ReportData& m) {
  const auto count = [&](const BottleHistory& a) { return points_of(m, a, true).size(); };
  const bool has_account =
      std::ranges::any_of(m.accounts, [](const auto& a) { return a.bottle.empty(); });
  const auto most = std::ranges::max_element(m.accounts, {}, count);
  if (has_account || count(*most) == 0) return;
  d.section("The batch, before its bottles were filled");
  d.add(document::Paragraph{originals(m, *most, true)});
  write_readings(d, m, *most, true);
}

void write_account(document::Document& d, const ReportData& m, const BottleHistory& a) {
  const History& h = a.history;
  d.section(title_of(a));
  d.add(document::Paragraph{story(m, a)});
  d.add(document::Bullets{wording::odd_notes(h)});
  const std::string of = m.accounts.size() == 1 ? "" : title_of(a) + ": ";
  d.add(document::Picture{document::svg_of(gravity_chart(m, a)),
                          text::sentence(of + "gravity as corrected, 20/20; bars hold about 95 %"),
                          true});
  if (const auto chart = strength_chart(m, a); !chart.points.empty())
    d.add(
        document::Picture{document::svg_of(chart), text::sentence(of + "alcohol by volume"), true});
  write_readings(d, m, a, false);
}

// Those whose last strength has an uncertainty to be taken apart.
std::vector<const BottleHistory*> uncertain(const ReportData& m) {
  std::vector<const BottleHistory*> all;
  for (const BottleHistory& a : m.accounts)
    if (const Point* last = a.last_strength();
        last != nullptr && last->result().at(wording::strength_key).value.u > 0)
      all.push_back(&a);
  return all;
}

// "reading of reading 10" is "reading of the last reading": of each bottle it is another one.
std::string part_name(const wording::BudgetPart& p, const BottleHistory& a) {
  if (p.of != a.last_strength()->sample.name()) return p.name;
  return p.name.substr(0, p.name.size() - p.of.size()) + "the last reading";
}

// A row for each part, a column for each account.
std::vector<std::vector<std::string>> budget_rows(const ReportData& m,
                                                  const std::vector<const BottleHistory*>& all) {
  const bool one = all.size() == 1;
  std::vector<std::vector<std::string>> rows{{"what", "where it comes from"}};
  std::vector<std::string> rest{"further ones", ""};
  for (const BottleHistory* a : all) {
    const std::size_t column = rows.front().size();
    rows.front().push_back((one ? "part" : title_of(*a)) + std::string{", % vol"});
    const auto table =
        wording::budget_parts(a->last_strength()->result(), wording::strength_key, m.full);
    for (const wording::BudgetPart& p : table.parts) {
      const std::string name = part_name(p, *a);
      auto row = std::ranges::find_if(rows.begin() + 1, rows.end(), [&](const auto& r) {
        return r[0] == name && r[1] == p.provenance;
      });
      if (row == rows.end()) row = rows.insert(row, {name, p.provenance});
      row->resize(column);
      row->push_back(fmt::format("{} ({:.0f} %)", p.text, 100 * p.fraction));
    }
    rest.push_back(table.rest);
  }
  if (!one) rows.push_back(std::move(rest));
  for (auto& row : rows) row.resize(rows.front().size());
  return rows;
}

// What is the same for all is said once.
std::vector<std::string> measures_of(const ReportData& m,
                                     const std::vector<const BottleHistory*>& all) {
  std::vector<std::pair<std::string, std::vector<std::string>>> said;
  for (const BottleHistory* a : all)
    for (std::string& text :
         wording::measure_sentences(a->last_strength()->result(), wording::strength_key, m.full)) {
      auto same = std::ranges::find(said, text, [](const auto& s) { return s.first; });
      if (same == said.end())
        same = said.emplace(same, std::move(text), std::vector<std::string>{});
      same->second.push_back(title_of(*a));
    }
  std::vector<std::string> sentences;
  sentences.reserve(said.size());
  for (const auto& [text, of] : said)
    sentences.push_back(of.size() == all.size() ? text
                                                : fmt::format("{}: {}", fmt::join(of, ", "), text));
  return sentences;
}

void write_budget(document::Document& d, const ReportData& m) {
  const std::vector<const BottleHistory*> all = uncertain(m);
  if (all.empty()) return;
  const bool figures = std::ranges::all_of(all, [](const BottleHistory* a) {
    return a->last_strength()->drink->state == measurement::Fermentation::measured;
  });
  d.section("Where the uncertainty comes from");
  const std::string rest = all.size() > 1 ? ""
                                          : wording::budget_parts(all[0]->last_strength()->result(),
                                                                  wording::strength_key, m.full)
                                                .rest;
  d.add(document::CaptionedTable{
      fmt::format("Budget of the alcohol{}: each part as the ± that it would make alone, and "
                  "its share{}{}.",
                  figures ? "" : ", or of its bound", rest.empty() ? "" : "; ", rest),
      budget_rows(m, all)});
  d.add(document::Subheading{"What each measure alone would gain"});
  d.add(document::Bullets{measures_of(m, all)});
}

void write_comparison(document::Document& d, const ReportData& m) {
  const std::vector<wording::ComparedReading> bottles = wording::bottles_of(*m.batch);
  if (m.accounts.size() < 2 || bottles.size() < 2) return;
  const std::vector<wording::ComparedPair> pairs =
      wording::pairs_of(bottles, std::array{m.batch}, std::nullopt);
  d.section("The bottles compared");
  if (const auto matrix = wording::comparison_matrix(bottles, pairs); !matrix.empty())
    d.add(document::CaptionedTable{"Each bottle against each other one", matrix});
  d.add(document::Bullets{wording::comparison_lines(pairs, std::nullopt)});
  d.add(document::Bullets{wording::notes_on_time(pairs)});
}

// Of all points, each once, in order of their numbers.
std::set<notebook::Id> instruments_of(const ReportData& m) {
  std::set<notebook::Id> all;
  for (const BottleHistory& a : m.accounts)
    for (const Point& p : a.history.points)
      for (const notebook::ReadingRecord& r : p.sample.readings) {
        all.insert(r.instrument);
        if (r.thermometer) all.insert(*r.thermometer);
      }
  return all;
}

void write_instruments(document::Document& d, const ReportData& m) {
  d.section("Instruments");
  const Moment at = m.accounts.back().history.points.back().sample.at();
  for (const notebook::Id id : instruments_of(m)) {
    const notebook::InstrumentRecord& r = m.batch->shelf().instrument(id);
    d.add(document::Subheading{r.name()});
    d.add(document::Paragraph{wording::instrument_text(r) + "."});
    const auto calibration = m.book->in_force(id, at);
    if (!calibration) {
      d.add(document::Bullets{notebook::correction_in_force(*m.book, r, at).remarks});
      continue;
    }
    const wording::FitSummary f =
        wording::fit_summary(*m.book, r, notebook::checks_of(*m.book, *calibration));
    d.add(document::Paragraph{
        fmt::format("A user's check, not an accredited calibration; in force from {}{}.",
                    calibration->in_force_from.date(),
                    calibration->due ? ", due again on " + calibration->due->date() : "")});
    d.add(document::Bullets{wording::fit_lines(f)});
    d.add(document::Picture{document::svg_of(residual_chart(f)),
                            "Checks less fit, with the expanded uncertainty of each check.", true});
  }
}

std::string why_not(const notebook::ReadingRecord& r) {
  return r.amended_by ? fmt::format("amended by reading {}", *r.amended_by)
                      : "excluded: " + r.excluded();
}

// What does not count, and why: nothing is lost.
void write_left_out(document::Document& d, const ReportData& m) {
  std::vector<std::string> all;
  for (const notebook::ReadingRecord& r : m.batch->readings())
    if (!r.counts())
      all.push_back(fmt::format("reading {} of {}, {}: {}", r.id, wording::when_text(r.made_at),
                                r.typed, why_not(r)));
  if (all.empty()) return;
  d.section("Readings that do not count");
  d.add(document::Bullets{all});
}

constexpr const char* basis_of_gravity =
    "gravity: what the instrument showed, corrected by its calibration and for the meniscus, the "
    "glass and the temperature of the liquid; density of water after Tanaka and others (2001), of "
    "sugar solutions after ICUMSA SPS-4, of ethanol after OIML R 22, of their mixture after "
    "Tabarié";
constexpr const char* basis_of_uncertainty =
    "uncertainty: law of propagation (JCGM 100) over all inputs; what readings share with each "
    "other is counted as shared";
constexpr const char* basis_of_outlook =
    "outlook: gravity does not rise by itself, and falls no lower than a drink without extract, by "
    "Balling's balance; a drawn curve is for the eye";

void write_basis(document::Document& d, const ReportData& m) {
  std::vector<std::string> all;  // what ferments is said at the top
  const auto add = [&](const std::vector<std::string>& notes) {
    for (const std::string& note : notes)
      if (std::find(all.begin(), all.end(), note) == all.end()) all.push_back(note);
  };
  for (const BottleHistory& a : m.accounts) add(wording::notes_of(a.history.points));
  for (const BottleHistory& a : m.accounts)
    for (const batch::Point& p : a.history.points)
      if (p.computed()) add(wording::sentences(p.result().method_notes));
  if (!all.empty()) d.section("What was assumed");
  d.add(document::Bullets{all});
  d.section("How each number was computed");
  all = {
      basis_of_gravity,
      "alcohol: Balling's balance, from the original liquid to the one that was read",
      basis_of_uncertainty,
      "a day's fall, state and comparison: tests at 95 % on differences, without what both share",
      basis_of_outlook,
      "limits: JCGM 106; below or above only with the stated probability"};
  d.add(document::Bullets{all});
}

}  // namespace

void write_full(document::Document& d, const ReportData& m) {
  write_headline(d, m, true);
  d.add(document::Paragraph{
      fmt::format("Strengths hold {}.", wording::basis_text(m.batch->record().culture))});
  write_cautions(d);
  write_before(d, m);
  for (const BottleHistory& a : m.accounts) write_account(d, m, a);
  d.add(document::Bullets{m.silent});
  write_comparison(d, m);
  write_budget(d, m);
  write_instruments(d, m);
  write_left_out(d, m);
  write_basis(d, m);
}

}  // namespace areo::paper
