// SPDX-License-Identifier: GPL-3.0-or-later
// A certificate for programs; the schema is in docs/reference/json.md.
#include <cmath>

#include "areo/core/version.hpp"
#include "areo/wording/budget.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/instrument.hpp"
#include "certificate_parts.hpp"
#include "text/json_dump.hpp"
#include "wording/record_value.hpp"

namespace areo::paper {
namespace {

using text::Json;
using text::number_json;
using text::text_json;

template <class All, class Object>
Json list(const All& all, const Object& object) {
  Json j = Json::array();
  for (std::size_t i = 0; i < all.size(); ++i) j.push_back(object(i));
  return j;
}

Json moment(const std::optional<Moment>& m) { return m ? Json(m->text()) : Json{}; }

Json check(const Certified& c, std::size_t i) {
  const notebook::CheckRecord& r = c.summary.checks[i];
  const calibration::Check& k = c.summary.evaluated.checks[i];
  Json j{{"check", r.id},
         {"method", notebook::word(r.method)},
         {"made_at", r.made_at.text()},
         {"label", k.label},
         {"indication", number_json(k.indication)},
         {"expected", number_json(k.expected.estimate)},
         {"correction", number_json(k.correction.estimate)},
         {"standard_uncertainty", number_json(k.correction.u)},
         {"expanded_uncertainty", number_json(k.correction.expanded())},
         {"residual", number_json(c.summary.fit.residuals[i])},
         {"temperature_c", number_json(r.temperature_c)},
         {"thermometer", nullptr},
         {"water", nullptr},
         {"balance", text_json(r.balance)},
         {"balance_division_g", nullptr},
         {"apart", nullptr},
         {"note", r.note}};
  if (!c.read_with[i].empty()) j["thermometer"] = c.read_with[i].front();
  if (in_liquid(r)) j["water"] = text_json(water_word(r.water));
  if (r.solution) j["balance_division_g"] = number_json(r.solution->balance_division_g);
  if (r.method == notebook::CheckMethod::certificate) j["apart"] = r.apart;
  return j;
}

Json correction(const Certified& c, const calibration::CorrectionBudget& p) {
  return {{"indication", number_json(p.indication)},
          {"correction", number_json(p.correction.estimate)},
          {"standard_uncertainty", number_json(p.correction.u)},
          {"expanded_uncertainty", number_json(p.correction.expanded())},
          {"checked", c.summary.fit.correction.beyond(p.indication) == 0}};
}

Json budget(const calibration::CorrectionBudget& b) {
  return {{"indication", number_json(b.indication)},
          {"standard_uncertainty", number_json(b.correction.u)},
          {"expanded_uncertainty", number_json(b.correction.expanded())},
          {"slope_share", number_json(b.slope)},
          {"beyond_share", number_json(b.beyond)}};
}

Json inputs(const Certified& c) {
  const calibration::CheckSet& set = c.summary.evaluated;
  Json all = Json::array();
  for (std::size_t k = 0; k < set.inputs.all().size(); ++k) {
    const auto concerned = calibration::checks_with(set, k);
    if (concerned.empty()) continue;
    const uncertainty::Input& input = set.inputs.all()[k];
    all.push_back(
        {{"name", input.name},
         {"provenance", input.provenance},
         {"distribution", wording::distribution_word(input.shape)},
         {"evaluation", input.type == uncertainty::Evaluation::type_a ? "A" : "B"},
         {"input_value", number_json(input.value)},
         {"input_standard_uncertainty", number_json(input.u)},
         {"input_unit", input.unit},
         {"shares",
          list(c.budgets, [&](std::size_t i) { return number_json(c.budgets[i].shares[k]); })},
         {"of_checks", list(concerned, [&](std::size_t i) {
            return Json{{"check", c.summary.checks[concerned[i]].id},
                        {"share", number_json(set.shares[concerned[i]][k])}};
          })}});
  }
  return all;
}

Json conformity_point(const calibration::ConformityPoint& p) {
  return {{"indication", number_json(p.indication)},
          {"error", number_json(p.error)},
          {"expanded_uncertainty", number_json(p.expanded)},
          {"least", number_json(p.least)},
          {"most", number_json(p.most)},
          {"verdict", wording::conformity_word(p.verdict)}};
}

Json conformity(const Certified& c) {
  if (c.conformity.empty()) return nullptr;
  return wording::conformity_word(
      calibration::judge(c.summary.fit.correction, c.summary.tolerance));
}

const char* status_word(Clause::Status status) {
  switch (status) {
    case Clause::Status::stated: return "stated";
    case Clause::Status::in_part: return "in_part";
    case Clause::Status::by_hand: return "by_hand";
    case Clause::Status::does_not_apply: return "does_not_apply";
  }
  return "";
}

Json clause(const Clause& k) {
  return {{"item", k.item},
          {"asks", k.asks},
          {"status", status_word(k.status)},
          {"where_or_why", k.where_or_why}};
}

// What it is of, and who says so.
Json head(const Certified& c) {
  const notebook::InstrumentRecord& r = c.instrument;
  Json j{{"certificate", c.number},
         {"accredited", false},
         {"issued_on", c.issue.on.date()},
         {"made_by", text_json(c.issue.by)},
         {"place", text_json(c.issue.place)},
         {"made_for", text_json(c.issue.customer)},
         {"instrument", r.name()},
         {"kind", r.kind()},
         {"description", wording::instrument_text(r)},
         {"calibration", c.calibration.id},
         {"in_force_from", c.calibration.in_force_from.text()},
         {"in_force_until", moment(c.after ? std::optional{c.after->in_force_from} : std::nullopt)},
         {"due", moment(c.calibration.due)},
         {"maker", text_json(r.maker)},
         {"serial", text_json(r.serial)},
         {"condition", text_json(r.note)}};
  if (const auto* h = r.hydrometer()) {
    j["made_for_mn_m"] = number_json(h->made_for_mn_m);
    j["stem_diameter_mm"] = number_json(h->stem_diameter_mm);
    j["mass_g"] = number_json(h->mass_g);
  }
  return j;
}

void add_fit(Json& j, const Certified& c) {
  const calibration::CorrectionFit& fit = c.summary.fit;
  const instruments::Correction& k = fit.correction;
  j.update({{"unit", wording::unit_of(c.instrument)},
            {"instruction", wording::instruction_text(c.summary)},
            {"r0", number_json(k.r0)},
            {"offset", number_json(k.offset)},
            {"offset_standard_uncertainty", number_json(k.u_offset)},
            {"slope", number_json(k.slope)},
            {"slope_standard_uncertainty", number_json(k.u_slope)},
            {"beyond_standard_uncertainty", number_json(k.u_slope_beyond)},
            {"surface_standard_uncertainty", number_json(std::abs(k.u_surface))},
            {"slope_used", fit.slope_used},
            {"checked_from", number_json(k.checked_lo)},
            {"checked_to", number_json(k.checked_hi)},
            {"chi_squared", number_json(fit.line.chi_squared)},
            {"degrees_of_freedom", fit.line.degrees_of_freedom},
            {"consistent", fit.consistent}});
}

}  // namespace

std::string certificate_json(const Certified& c, const std::string& file) {
  Json j = head(c);
  add_fit(j, c);
  j["checks"] = list(c.summary.checks, [&](std::size_t i) { return check(c, i); });
  j["corrections"] =
      list(c.corrections, [&](std::size_t i) { return correction(c, c.corrections[i]); });
  j["budgets"] = list(c.budgets, [&](std::size_t i) { return budget(c.budgets[i]); });
  j["inputs"] = inputs(c);
  j["conformity"] = conformity(c);
  j["tolerance"] = number_json(c.summary.tolerance);
  j["conformity_points"] =
      list(c.conformity, [&](std::size_t i) { return conformity_point(c.conformity[i]); });
  j["drift"] = c.before ? wording::drift_value(c.before->calibration, c.before->drift) : Json{};
  const std::vector<Clause> clauses = certificate_clauses(c);
  j["clauses"] = list(clauses, [&](std::size_t i) { return clause(clauses[i]); });
  j["notes"] = certificate_notes(c);
  j["areo"] = version;
  j["tables"] = tables_digest;
  j["file"] = text_json(file);
  return text::dump(j);
}

}  // namespace areo::paper
