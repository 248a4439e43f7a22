// The whole story of a batch as a page.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "areo/notebook/recompute.hpp"
#include "areo/report/budget.hpp"
#include "areo/report/text.hpp"
#include "batch_text.hpp"
#include "compare_words.hpp"
#include "instrument_text.hpp"
#include "report_charts.hpp"
#include "strength.hpp"

namespace areo::cli {
namespace {

using batch::Point;
using trend::History;

// What happened, in order of time.
std::string story(const Material& m, const Account& a) {
  const History& h = a.history;
  std::string all;
  for (const Point& p : h.points)
    if (p.computed() && p.sample.first().stage == notebook::Stage::original)
      all += fmt::format("On {} the original gravity was {} ({}). ", when_text(p.sample.at()),
                         report::value_text(p.gravity().value, "", m.full),
                         sample_text(*m.batch, p.sample));
  for (const notebook::AdditionRecord& r : m.batch->additions())
    if (concerns(r, a))
      all += fmt::format("Added on {}: {}. ", when_text(r.made_at), addition_text(*m.book, r));
  if (const auto& whole = h.state.whole)
    all += fmt::format("From {} to {} it fell by {} in {}. ", when_text(h.zero),
                       when_text(h.points.back().sample.at()),
                       report::value_text(whole->value, "", m.full),
                       duration_text(std::llround(whole->days * 86400)));
  all += fmt::format("Its state: {}. ", state_text(h, m.expected));
  const char* first = "outlook: ";
  for (const std::string& text : outlook_lines(h, m.full)) {
    all += report::sentence(first + text) + " ";
    first = "";
  }
  if (a.passing)
    for (const std::string& text : passing_lines(*m.batch, h, *a.passing))
      all += report::sentence(text) + " ";
  return all;
}

void write_account(report::Page& page, Pictures& pictures, const Material& m, const Account& a) {
  const History& h = a.history;
  page.section(title_of(a));
  page.paragraph(story(m, a));
  page.list(odd_notes(h));
  pictures.add(report::script_of(gravity_chart(m, a), report::PictureFormat::svg),
               fmt::format("Gravity against date: {} readings with error bars{}", h.readings,
                           h.course ? ", and a curve through them" : ""),
               "Gravity as corrected, 20/20, with its expanded uncertainty (about 95 %).");
  if (const auto chart = strength_chart(m, a); !chart.points.empty())
    pictures.add(report::script_of(chart, report::PictureFormat::svg),
                 fmt::format("Alcohol against date: {} strengths with error bars{}",
                             chart.points.front().points.size(),
                             m.limit ? ", and the limit as a dashed line" : ""),
                 "Alcohol by volume with its expanded uncertainty (about 95 %).");
  page.table(h.readings == h.shown.size()
                 ? "What was read, and what follows from it; ± for about 95 %."
                 : fmt::format("What was read, and what follows from it; ± for about 95 %. Of {} "
                               "readings the last of each day.",
                               h.readings),
             point_rows(h, m.full));
}

void write_budget(report::Page& page, Pictures& pictures, const Material& m, const Account& a) {
  const Point* last = a.last_strength();
  if (last == nullptr) return;
  const measurement::Result& r = last->result();
  if (!(r.at(strength_key).value.u > 0)) return;
  page.section("Where the uncertainty comes from" +
               (m.accounts.size() > 1 ? ": " + title_of(a) : ""));
  const bool figure = last->drink->state == measurement::Fermentation::measured;
  page.paragraph(fmt::format(
      "{}: {}. Each part as the ± that it would make alone{}.", when_text(last->sample.at()),
      figure ? "alcohol " + report::value_text(r.at(strength_key).value, "% vol", m.full)
             : strength_alone_text(*last, m.full),
      figure ? "" : ", of the bound"));
  pictures.add(report::script_of(budget_bars(r, strength_key), report::PictureFormat::svg),
               "Bars of the parts of the uncertainty, largest first; the table has the numbers.",
               "The parts of the uncertainty, largest first.");
  std::vector<std::vector<std::string>> rows{{"part", "share", "what", "where it comes from"}};
  const report::BudgetParts table = report::budget_parts(r, strength_key, m.full);
  for (const report::BudgetPart& p : table.parts)
    rows.push_back({p.text, fmt::format("{:.0f} %", 100 * p.fraction), p.name, p.provenance});
  page.table("Budget of the alcohol, % vol; " + table.rest, rows);
  page.subsection("What each measure alone would gain");
  page.list(report::measure_sentences(r, strength_key, m.full));
}

void write_comparison(report::Page& page, const Material& m) {
  const std::vector<Contender> bottles = bottles_of(*m.batch);
  if (m.accounts.size() < 2 || bottles.size() < 2) return;
  const std::vector<ComparedPair> pairs = pairs_of(bottles, std::nullopt);
  page.section("The bottles compared");
  if (const auto matrix = comparison_matrix(bottles, pairs); !matrix.empty())
    page.table("Each bottle against each other one", matrix);
  page.list(comparison_lines(pairs, std::nullopt));
  page.list(notes_on_time(pairs));
}

// Of all points, each once, in order of their numbers.
std::set<notebook::Id> instruments_of(const Material& m) {
  std::set<notebook::Id> all;
  for (const Account& a : m.accounts)
    for (const Point& p : a.history.points)
      for (const notebook::ReadingRecord& r : p.sample.readings) {
        all.insert(r.instrument);
        if (r.thermometer) all.insert(*r.thermometer);
      }
  return all;
}

void write_instruments(report::Page& page, Pictures& pictures, const Material& m) {
  page.section("Instruments");
  const Moment at = m.accounts.back().history.points.back().sample.at();
  for (const notebook::Id id : instruments_of(m)) {
    const notebook::InstrumentRecord& r = m.batch->shelf().instrument(id);
    page.subsection(r.name());
    page.paragraph(instrument_text(r) + ".");
    const auto calibration = m.book->in_force(id, at);
    if (!calibration) {
      page.list(notebook::correction_in_force(*m.book, r, at).remarks);
      continue;
    }
    const Fitted f = fitted(*m.book, r, notebook::checks_of(*m.book, *calibration));
    page.paragraph(
        fmt::format("A user's check, not an accredited calibration; in force from {}{}.",
                    calibration->in_force_from.date(),
                    calibration->due ? ", due again on " + calibration->due->date() : ""));
    page.list(fit_lines(f));
    pictures.add(
        report::script_of(residual_chart(f), report::PictureFormat::svg),
        fmt::format("What the fit leaves of each of {} checks, with error bars", f.checks.size()),
        "Checks less fit, with the expanded uncertainty of each check.");
  }
}

std::string why_not(const notebook::ReadingRecord& r) {
  return r.amended_by ? fmt::format("amended by reading {}", *r.amended_by)
                      : "excluded: " + r.excluded();
}

// What does not count, and why: nothing is lost.
void write_left_out(report::Page& page, const Material& m) {
  std::vector<std::string> all;
  for (const notebook::ReadingRecord& r : m.batch->readings())
    if (!r.counts())
      all.push_back(
          fmt::format("reading {} of {}, {}: {}", r.id, when_text(r.made_at), r.typed, why_not(r)));
  if (all.empty()) return;
  page.section("Readings that do not count");
  page.list(all);
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

void write_basis(report::Page& page, const Material& m) {
  page.section("What was assumed");
  std::vector<std::string> all{basis_text(m.batch->record().culture)};
  for (const Account& a : m.accounts)
    for (const std::string& note : notes_of(a.history.points))
      if (std::find(all.begin(), all.end(), note) == all.end()) all.push_back(note);
  page.list(all);
  page.section("How each number was computed");
  all = {
      basis_of_gravity,
      "alcohol: Balling's balance, from the original liquid to the one that was read",
      basis_of_uncertainty,
      "a day's fall, state and comparison: tests at 95 % on differences, without what both share",
      basis_of_outlook,
      "limits: JCGM 106; below or above only with the stated probability"};
  page.list(all);
}

}  // namespace

std::string write_full(report::Page& page, const Material& m) {
  Pictures pictures{page};
  write_headline(page, m, true);
  write_cautions(page);
  for (const Account& a : m.accounts) write_account(page, pictures, m, a);
  page.list(m.silent);
  write_comparison(page, m);
  for (const Account& a : m.accounts) write_budget(page, pictures, m, a);
  write_instruments(page, pictures, m);
  write_left_out(page, m);
  write_basis(page, m);
  return pictures.missing();
}

}  // namespace areo::cli
