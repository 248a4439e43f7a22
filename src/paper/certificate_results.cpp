// SPDX-License-Identifier: GPL-3.0-or-later
// The results of a certificate: checks, correction, verdict, drift.
#include <fmt/format.h>

#include <algorithm>

#include "areo/core/told_apart.hpp"
#include "areo/document/chart.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/drift.hpp"
#include "areo/wording/instrument.hpp"
#include "certificate_parts.hpp"
#include "fit_chart.hpp"

namespace areo::paper {
namespace {

using calibration::Conformity;
using calibration::CorrectionBudget;

using Rows = std::vector<std::vector<std::string>>;

constexpr const char* coverage =
    "U is the expanded uncertainty, k = 1.96 times the standard uncertainty: about 95 % of a "
    "normal "
    "distribution.";

document::Section results(const Certified& c) {
  const Figures f{c};
  Rows rows{{"check", "in", "showed, " + f.unit(), "should have shown, " + f.unit(),
             "add to the reading, " + f.unit(), "U of it, " + f.unit(),
             "off the fit, " + f.unit()}};
  for (std::size_t i = 0; i < c.summary.checks.size(); ++i) {
    const calibration::Check& k = c.summary.evaluated.checks[i];
    const double u = k.correction.expanded();
    rows.push_back({fmt::format("{}", c.summary.checks[i].id), k.label, f.shown(k.indication),
                    f.number(k.expected.estimate, u), f.with_sign(k.correction.estimate, u),
                    f.number(u, u), f.with_sign(c.summary.fit.residuals[i], u)});
  }
  document::Section s{
      "5 Results of the checks",
      {document::Paragraph{
           "A correction is added, with its sign, to what the instrument shows: + means "
           "that it shows too little."},
       document::CaptionedTable{coverage, std::move(rows)}}};
  s.blocks.emplace_back(document::Picture{
      document::svg_of(residual_chart(c.summary)),
      "Checks less fit, with the expanded uncertainty of each check; the last column of "
      "the table above has the numbers."});
  s.blocks.emplace_back(
      document::Paragraph{"Test of the fit: " + wording::agreement_text(c.summary) + "."});
  if (!c.summary.fit.consistent)
    s.blocks.emplace_back(document::Paragraph{
        "By today's models the checks contradict each other beyond their uncertainties; "
        "what follows from them is no better than that."});
  return s;
}

document::Section correction(const Certified& c) {
  const Figures f{c};
  const char* straight =
      wording::checked_at_one_place(c.summary.fit.correction)
          ? "It was checked at one place of the scale. How it runs along the scale "
            "is assumed: within what is usual."
          : "That the correction runs as a straight line between the checks is "
            "assumed; no check shows it.";
  Rows rows{{"shown, " + f.unit(), "add to the reading, " + f.unit(), "U of it, " + f.unit(),
             "there the scale is"}};
  for (const CorrectionBudget& p : c.corrections) {
    const double u = p.correction.expanded();
    const bool outside = c.summary.fit.correction.beyond(p.indication) != 0;
    rows.push_back(
        {f.shown(p.indication), f.with_sign(p.correction.estimate, u), f.number(u, u),
         outside ? "NOT checked: U grows with the distance" : "within the checked range"});
  }
  return {
      "6 The correction in force",
      {document::Paragraph{wording::instruction_text(c.summary) + "."},
       document::Paragraph{fmt::format("It rests on {}; {}.", c.summary.fit.correction.provenance,
                                       c.summary.fit.reason)},
       document::Paragraph{straight},
       document::CaptionedTable{"U is for about 95 %, k = 1.96; between these marks in proportion.",
                                std::move(rows)}}};
}

const char* in_words(Conformity v) {
  switch (v) {
    case Conformity::within: return "WITHIN";
    case Conformity::outside: return "OUTSIDE";
    case Conformity::cannot_tell: return "these checks CANNOT TELL";
  }
  return "";
}

constexpr const char* judged_at_ends =
    "what: the error of the instrument as it reads, without its correction, at the ends of the "
    "checked range. That it runs as a straight line between the checks, and so is no larger there, "
    "is assumed; no check shows it";
constexpr const char* judged_at_one_place =
    "what: the error of the instrument as it reads, without its correction, at the one place of "
    "the "
    "scale where it was checked; nothing is said of any other";
constexpr const char* decision_rule =
    "decision rule, after [ilac-g8]: a guard band as wide as U on both sides of each limit of "
    "error. "
    "Within if the size of the error plus U does not exceed the maximum permissible error at "
    "either "
    "end; outside if the size less U exceeds it at one; else the checks cannot tell";
constexpr const char* risk =
    "risk that such a verdict is wrong: at each limit of error 2.5 % at most";
constexpr const char* corrected =
    "used with its correction the instrument serves whatever the verdict; the uncertainty of the "
    "correction then counts";

document::Section conformity(const Certified& c) {
  const Figures f{c};
  const instruments::Correction& k = c.summary.fit.correction;
  if (c.conformity.empty())
    return {"8 Conformity",
            {document::Paragraph{"No statement: the checks contradict each other."}}};
  Rows rows{{"shown, " + f.unit(), "error, " + f.unit(), "U, " + f.unit(),
             "size less U, " + f.unit(), "size plus U, " + f.unit(), "verdict there"}};
  for (const calibration::ConformityPoint& p : c.conformity) {
    // The verdict has to follow from the numbers as printed.
    const int place = text::last_place(p.expanded);
    const int more = std::max(telling_place(p.least, c.summary.tolerance, place),
                              telling_place(p.most, c.summary.tolerance, place)) -
                     place;
    rows.push_back({f.shown(p.indication), f.with_sign(p.error, p.expanded, more),
                    f.number(p.expanded, p.expanded, more), f.number(p.least, p.expanded, more),
                    f.number(p.most, p.expanded, more), in_words(p.verdict)});
  }
  return {"8 Conformity",
          {document::Paragraph{fmt::format("Checked {}, maximum permissible error {:.3g}{}: {}.",
                                           wording::checked_text(c.instrument, k),
                                           c.summary.tolerance, f.behind(),
                                           in_words(calibration::judge(k, c.summary.tolerance)))},
           document::Bullets{
               {wording::checked_at_one_place(k) ? judged_at_one_place : judged_at_ends,
                fmt::format("against what: the maximum permissible error of section 2, {:.3g}{} "
                            "(limits of error on both sides of zero) [jcgm200]",
                            c.summary.tolerance, f.behind()),
                decision_rule, risk, corrected}},
           document::CaptionedTable{"What the verdict rests on", std::move(rows)}}};
}

document::Section drift_section(const Certified& c) {
  const std::string heading = "9 Since the calibration before";
  if (!c.before)
    return {heading, {document::Paragraph{"There is no calibration before this one."}}};
  const Figures f{c};
  const calibration::Drift& d = c.before->drift;
  document::Section s{heading,
                      {document::Paragraph{text::sentence(
                          wording::drift_lines(c.instrument, c.before->calibration, d).front())}}};
  if (!d.points.empty()) {
    Rows rows{{"shown, " + f.unit(), "correction before, " + f.unit(), "U, " + f.unit(),
               "correction now, " + f.unit(), "U, " + f.unit(), "change, " + f.unit(),
               "U of the change, " + f.unit(), "En"}};
    for (const calibration::DriftPoint& p : d.points) {
      std::vector<std::string> cells{f.shown(p.indication)};
      for (const instruments::Correction* k :
           {&c.before->summary.fit.correction, &c.summary.fit.correction}) {
        const double u = uncertainty::Value{0, k->uncertainty_at(p.indication)}.expanded();
        cells.push_back(f.with_sign(k->at(p.indication), u));
        cells.push_back(f.number(u, u));
      }
      const int more = wording::telling_digits(p.difference, p.expanded);
      cells.push_back(f.with_sign(p.difference, p.expanded, more));
      cells.push_back(f.number(p.expanded, p.expanded, more));
      cells.push_back(wording::en_text(p.en));
      rows.push_back(std::move(cells));
    }
    s.blocks.emplace_back(document::CaptionedTable{
        "What both calibrations share cancels in the change, so its U is less than that of two "
        "independent corrections; En is the change over its U.",
        std::move(rows)});
  }
  s.blocks.emplace_back(document::Paragraph{
      "The notebook knows of no adjustment or repair in between; where there was one, "
      "these are the "
      "results before and after it."});
  return s;
}

}  // namespace

std::vector<document::Section> certificate_results(const Certified& c) {
  return {results(c), correction(c), certificate_budget(c), conformity(c), drift_section(c)};
}

std::vector<std::string> certificate_notes(const Certified& c) {
  std::vector<std::string> all;
  if (c.calibration.due)
    all.push_back(fmt::format("The owner's own decision: to be checked again by {}{}.",
                              c.calibration.due->date(),
                              c.issue.on > *c.calibration.due ? "; that day is past" : ""));
  if (c.after)
    all.push_back(fmt::format("Calibration {} took its place on {}.", c.after->id,
                              c.after->in_force_from.date()));
  if (c.retired)
    all.push_back(
        fmt::format("The instrument has been out of use since {}.", c.retired->at.date()));
  for (const std::string& remark : c.summary.remarks) all.push_back(text::sentence(remark));
  return all;
}

document::Section certificate_remarks(const Certified& c) {
  std::vector<std::string> all{
      "The results are those of this one instrument as it was on the days of the checks; of no "
      "other, and of no later day.",
      "Readings, masses, temperatures and dates are what the owner typed; areo computed the rest. "
      "Nobody else has looked at either.",
      "It may be copied as a whole; a part of it says less than it seems to.",
      "No interval to the next calibration is recommended."};
  for (std::string& note : certificate_notes(c)) all.push_back(std::move(note));
  return {"10 How far it goes", {document::Bullets{std::move(all)}}};
}

}  // namespace areo::paper
