// SPDX-License-Identifier: GPL-3.0-or-later
// From the notebook to what a certificate tells of.
#include "areo/paper/certificate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "areo/core/digest.hpp"
#include "areo/core/error.hpp"
#include "areo/core/version.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/drift.hpp"
#include "areo/wording/instrument.hpp"
#include "certificate_parts.hpp"
#include "text/json_dump.hpp"

namespace areo::paper {
namespace {

using notebook::CalibrationRecord;
using notebook::CheckRecord;
using notebook::InstrumentRecord;

std::optional<Predecessor> predecessor(const notebook::Notebook& book,
                                       const InstrumentRecord& instrument,
                                       const CalibrationRecord& calibration) {
  std::optional<CalibrationRecord> before;
  for (const CalibrationRecord& r : book.calibrations(instrument.id)) {
    if (r.id == calibration.id) break;
    before = r;
  }
  if (!before) return std::nullopt;
  return Predecessor{*before, wording::fit_summary(book, instrument, checks_of(book, *before)),
                     drift(book, instrument, *before, calibration)};
}

std::optional<CalibrationRecord> successor(const notebook::Notebook& book,
                                           const CalibrationRecord& calibration) {
  const auto all = book.calibrations(calibration.instrument);
  const auto self =
      std::find_if(all.begin(), all.end(), [&](const auto& r) { return r.id == calibration.id; });
  if (self == all.end() || self + 1 == all.end()) return std::nullopt;
  return *(self + 1);
}

ThermometerTrace witness(const notebook::Notebook& book, const InstrumentRecord& thermometer,
                         Moment at) {
  const auto own = book.in_force(thermometer.id, at);
  if (!own)
    return {thermometer.name(),
            "no calibration of it was in force: its error taken as within one division"};
  std::set<std::string> ways;
  for (const CheckRecord& c : checks_of(book, *own)) ways.insert(std::string{word(c.method)});
  return {thermometer.name(),
          fmt::format("its own calibration {} (a user's check: {}), in force from {}", own->id,
                      fmt::join(ways, ", "), own->in_force_from.date())};
}

void add_thermometers(Certified& c, const notebook::Notebook& book) {
  for (const CheckRecord& r : c.summary.checks) {
    c.read_with.emplace_back();
    if (!r.thermometer) continue;
    const InstrumentRecord t = book.instrument(*r.thermometer);
    c.read_with.back().push_back(t.name());
    ThermometerTrace w = witness(book, t, r.made_at);
    if (std::none_of(c.thermometers.begin(), c.thermometers.end(),
                     [&](const ThermometerTrace& known) {
                       return known.name == w.name && known.rests_on == w.rests_on;
                     }))
      c.thermometers.push_back(std::move(w));
  }
}

// Checks that could have been used, and were not: those between the first one used and the day the
// correction came into force.
std::vector<CheckRecord> left_out(const notebook::Notebook& book, const Certified& c) {
  std::vector<CheckRecord> out;
  for (const CheckRecord& r : book.checks(c.instrument.id)) {
    const bool used = std::any_of(c.summary.checks.begin(), c.summary.checks.end(),
                                  [&](const CheckRecord& u) { return u.id == r.id; });
    if (!used && r.made_at >= c.summary.checks.front().made_at &&
        r.made_at <= c.calibration.in_force_from)
      out.push_back(r);
  }
  return out;
}

// Everything that a certificate rests on and says, but for the day of its issue: as typed where it
// was typed, as printed where it was computed, so that the last bits of a processor do not count.
std::string content(const Certified& c) {
  const Figures figures{c, false};
  std::string all;
  const auto add = [&](const std::string& text) {
    all += fmt::format("{}:{}\n", text.size(), text);
  };
  const InstrumentRecord& r = c.instrument;
  const notebook::Graduation g = r.graduation();
  for (const std::string& text :
       {r.name(), std::string{r.kind()}, wording::instrument_text(r), r.note, r.maker, r.serial,
        fmt::format("{} {} {} {}", g.lo, g.hi, g.division, g.maximum_permissible_error)})
    add(text);
  if (const auto* h = r.hydrometer()) {
    add(fmt::format("{} {} {} {}", physics::scale_key(h->scale), h->glass_expansion_per_c,
                    h->meniscus_height.value_or(-1), h->tolerance.has_value()));
    add(fmt::format("{} {} {}", h->made_for_mn_m.value_or(-1), h->stem_diameter_mm.value_or(-1),
                    h->mass_g.value_or(-1)));
  }
  add(fmt::format("{} {} {}", c.calibration.id, c.calibration.in_force_from.text(),
                  text::dump(text::moment_json(c.calibration.due))));
  add(c.calibration.note);
  for (std::size_t i = 0; i < c.summary.checks.size(); ++i) {
    const CheckRecord& k = c.summary.checks[i];
    const calibration::Check& e = c.summary.evaluated.checks[i];
    add(fmt::format("{} {} {}", k.id, word(k.method), k.made_at.text()));
    for (const std::string& text : {k.reading_typed, k.temperature_typed, k.note, e.label})
      add(text);
    add(fmt::format("{} {} {} {}", k.reading, k.reading_half_width, k.temperature_c.value_or(-999),
                    k.temperature_half_width_c));
    add(fmt::format("{} {} {}", k.correction.value_or(0), k.expanded.value_or(0),
                    k.coverage_factor.value_or(0)));
    add(fmt::format("{:.3f} {:.3f}", k.pressure_pa.value_or(0),
                    k.pressure_half_width_pa.value_or(0)));
    if (k.solution)
      add(fmt::format("{} {} {}", k.solution->solute_g, k.solution->water_g,
                      k.solution->balance_division_g));
    add(k.balance);
    add(water_word(k.water));
    add(k.apart ? "apart" : "together");
    add(k.meniscus == instruments::Meniscus::top ? "top" : "level");
    for (const std::string& name : c.read_with[i]) add(name);
    const double u = e.correction.expanded();
    add(figures.number(e.correction.estimate, u) + " " + figures.number(u, u));
  }
  for (const ThermometerTrace& w : c.thermometers) add(w.name + ": " + w.rests_on);
  for (const auto& p : c.corrections) {
    const double u = p.correction.expanded();
    add(figures.number(p.correction.estimate, u) + " " + figures.number(u, u));
  }
  add(wording::agreement_text(c.summary));
  if (c.before)
    for (const std::string& text : wording::drift_lines(r, c.before->calibration, c.before->drift))
      add(text);
  if (c.after) add(fmt::format("{} {}", c.after->id, c.after->in_force_from.text()));
  if (c.retired) add(c.retired->at.text() + " " + c.retired->reason);
  for (const CheckRecord& k : c.left_out) add(fmt::format("left out {}", k.id));
  for (const std::string& text : {c.issue.by, c.issue.place, c.issue.customer}) add(text);
  return all;
}

std::string number_of(const Certified& c) {
  constexpr std::size_t longest_name = 32;
  return fmt::format("areo-{}-cal-{}-{}",
                     text::shortened(text::printable(c.instrument.name()), longest_name),
                     c.calibration.id, short_digest(content(c)));
}

}  // namespace

const char* water_word(const std::optional<calibration::Water>& water) {
  if (water == calibration::Water::pure) return "pure";
  return water == calibration::Water::tap ? "tap" : "";
}

bool in_liquid(const notebook::CheckRecord& r) { return notebook::in_liquid(r.method); }

Figures::Figures(const Certified& c, bool full)
    : instrument_{&c.instrument},
      unit_{wording::unit_of(c.instrument)},
      further_{full ? text::further_digits : 0} {
  if (!unit_.empty()) return;
  unit_ = c.instrument.hydrometer() != nullptr ? "SG" : "index";
}

std::string Figures::number(double value, double expanded, int more) const {
  return text::fixed(value, text::last_place(expanded) + more + further_);
}

std::string Figures::with_sign(double value, double expanded, int more) const {
  const std::string text = number(value, expanded, more);
  return text.starts_with('-') ? text : "+" + text;
}

std::string Figures::shown(double indication) const {
  return text::indication_text(indication, instrument_->graduation().division);
}

std::string Figures::place(double indication) const {
  return text::fixed(indication, text::supported_decimals(10 * instrument_->graduation().division));
}

std::string Figures::behind() const {
  const std::string unit = wording::unit_of(*instrument_);
  return unit.empty() ? "" : " " + unit;
}

Certified certified(const notebook::Notebook& book, const InstrumentRecord& instrument,
                    const CalibrationRecord& calibration, const Issue& issue) {
  Certified c;
  c.issue = issue;
  c.instrument = instrument;
  c.calibration = calibration;
  c.summary = wording::fit_summary(book, instrument, checks_of(book, calibration));
  const auto budget_at = [&](double mark) {
    return calibration::correction_budget(c.summary.evaluated, c.summary.fit, mark);
  };
  const instruments::Correction& correction = c.summary.fit.correction;
  const notebook::Graduation g = instrument.graduation();
  for (const double mark : calibration::correction_marks(correction, g.lo, g.hi))
    c.corrections.push_back(budget_at(mark));
  if (correction.checked_hi - correction.checked_lo >=
      calibration::one_place_divisions * g.division)
    for (const double mark : {correction.checked_lo, correction.r0, correction.checked_hi})
      c.budgets.push_back(budget_at(mark));
  else
    c.budgets.push_back(budget_at(correction.r0));
  if (c.summary.fit.consistent)
    c.conformity = calibration::conformity_points(correction, c.summary.tolerance);
  c.before = predecessor(book, instrument, calibration);
  c.after = successor(book, calibration);
  c.retired = book.retired(instrument.id);
  add_thermometers(c, book);
  c.left_out = left_out(book, c);
  c.number = number_of(c);
  if (issue.on < c.summary.checks.back().made_at)
    throw Error{Errc::inconsistent,
                fmt::format("issued on {}, before its last check of {}", issue.on.date(),
                            c.summary.checks.back().made_at.date()),
                "a certificate is made after the checks"};
  return c;
}

document::Document certificate_document(const Certified& c) {
  const Figures figures{c};
  const instruments::Correction& correction = c.summary.fit.correction;
  document::Document d;
  d.title = "Certificate of a user's own calibration: " + c.instrument.name();
  d.number = c.number;
  d.caution = "a user's own check; not an accredited certificate.";
  document::Headline headline{{wording::instruction_text(c.summary)}, {}};
  const auto at_middle = correction.uncertainty_at(correction.r0);
  headline.below.push_back(
      fmt::format("correction at {}{}: {}", figures.place(correction.r0), figures.behind(),
                  text::value_text({correction.at(correction.r0), at_middle},
                                   wording::unit_of(c.instrument), c.issue.full)));
  headline.below.push_back(fmt::format(
      "checked {} in {}", wording::checked_text(c.instrument, correction), correction.provenance));
  headline.below.push_back(c.summary.fit.consistent ? wording::verdict_text(c.summary)
                                                    : wording::agreement_text(c.summary));
  d.add(std::move(headline));
  const auto add = [&d](std::vector<document::Section> part) {
    for (document::Section& s : part) d.sections.push_back(std::move(s));
  };
  add(certificate_object(c));
  add(certificate_method(c));
  const std::size_t basis = d.sections.size() - 1;  // the method ends with what it rests on
  add(certificate_results(c));
  d.sections.push_back(certificate_remarks(c));
  document::CaptionedTable clauses{
      "What the standard asks of a certificate, in our own words [iso17025]. Its numbers help to "
      "find things; they claim nothing.",
      {{"item", "asks for", "here"}}};
  for (const Clause& k : certificate_clauses(c))
    clauses.rows.push_back({k.item, k.asks, fmt::format("{}: {}", word(k.status), k.where_or_why)});
  d.sections.push_back({"11 ISO/IEC 17025:2017, clause 7.8, item by item", {std::move(clauses)}});
  d.footer.push_back(
      fmt::format("Computed by areo {} (tables {}) from the readings in a notebook; models and "
                  "their sources in "
                  "sections 3 and 4; uncertainty by the law of propagation [gum].",
                  version, tables_digest));
  d.sections[basis].blocks.emplace_back(sources_of(d));
  d.end = "end of certificate " + c.number;
  return d;
}

}  // namespace areo::paper
