// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "areo/analysis/budget.hpp"
#include "areo/analysis/improvements.hpp"
#include "areo/wording/budget.hpp"
#include "areo/wording/notes.hpp"
#include "areo/wording/strength.hpp"
#include "text/json_dump.hpp"

namespace areo::wording {
namespace {

using analysis::Action;
using uncertainty::Distribution;
using uncertainty::Origin;

const char* word(Origin o) {
  switch (o) {
    case Origin::other: return "other";
    case Origin::typed: return "typed";
    case Origin::reading: return "reading";
    case Origin::temperature: return "temperature";
    case Origin::cooling: return "cooling";
    case Origin::thermometer: return "thermometer";
    case Origin::calibration: return "calibration";
    case Origin::glass: return "glass";
    case Origin::meniscus: return "meniscus";
    case Origin::surface: return "surface";
    case Origin::stem: return "stem";
    case Origin::compensation: return "compensation";
    case Origin::mass: return "mass";
    case Origin::composition: return "composition";
    case Origin::refraction: return "refraction";
    case Origin::method: return "method";
    case Origin::formula: return "formula";
  }
  return "";
}

const char* word(Action a) {
  switch (a) {
    case Action::digit: return "digit";
    case Action::repeat: return "repeat";
    case Action::temperature: return "temperature";
    case Action::check: return "check";
    case Action::extract: return "extract";
    case Action::finer_scale: return "finer_scale";
  }
  return "";
}

text::Json contribution_json(const analysis::Contribution& c) {
  const double nu = c.input.degrees_of_freedom;
  return {{"name", c.input.name},
          {"origin", word(c.input.origin)},
          {"provenance", c.input.provenance},
          {"distribution", distribution_word(c.input.shape)},
          {"evaluation", c.input.type == uncertainty::Evaluation::type_a ? "A" : "B"},
          {"degrees_of_freedom", std::isfinite(nu) ? text::Json(nu) : text::Json()},
          {"input_value", c.input.value},
          {"input_standard_uncertainty", c.input.u},
          {"input_unit", c.input.unit},
          {"share", c.share},
          {"variance_fraction", c.fraction}};
}

text::Json measure_json(const analysis::Measure& m, const uncertainty::Value& now) {
  return {{"action", word(m.action)},
          {"description", m.words},
          {"changes", m.changes},
          {"effort", analysis::effort(m.action)},
          {"expanded_uncertainty", m.after.expanded()},
          {"gain", worth_taking(now, m.after)}};
}

text::Json plan_json(const analysis::Plan& plan, double target, const uncertainty::Value& now) {
  text::Json steps = text::Json::array();
  for (const auto& m : plan.steps) steps.push_back(measure_json(m, now));
  return {{"target", target},
          {"reached", plan.reached},
          {"effort", plan.effort},
          {"expanded_uncertainty", plan.after.expanded()},
          {"steps", steps}};
}

}  // namespace

const char* distribution_word(Distribution d) {
  switch (d) {
    case Distribution::normal: return "normal";
    case Distribution::rectangular: return "rectangular";
    case Distribution::triangular: return "triangular";
    case Distribution::arcsine: return "arcsine";
    case Distribution::student_t: return "student_t";
    case Distribution::curvilinear_trapezoid: return "curvilinear_trapezoid";
    case Distribution::sample: return "sample";
  }
  return "";
}

std::string budget_json(const measurement::Result& result, std::string_view key,
                        std::optional<double> target, const std::string& state) {
  const measurement::Quantity& q = result.at(key);
  text::Json j = text::Json::object();
  if (!state.empty()) j["state"] = state;
  j["budget_of"] = q.key;
  j[q.key] = text::quantity_json(q.value, q.unit);
  j["contributions"] = text::Json::array();
  for (const auto& c : analysis::budget(result, key))
    j["contributions"].push_back(contribution_json(c));
  j["measures"] = text::Json::array();
  for (const auto& m : analysis::measures(result, key))
    j["measures"].push_back(measure_json(m, q.value));
  const analysis::BestAchievable floor = analysis::best_achievable(result, key);
  j["floor"] = {{"expanded_uncertainty", floor.after.expanded()},
                {"limit", floor.limit},
                {"needs_laboratory", floor.needs_laboratory}};
  if (target) j["plan"] = plan_json(analysis::cheapest(result, key, *target), *target, q.value);
  j["notes"] = all_notes(result);
  return text::dump(j);
}

std::string no_budget_json(const measurement::AlcoholResult& a) {
  return text::dump({{"state", word(a.state)},
                     {"contributions", text::Json::array()},
                     {"measures", text::Json::array()},
                     {"notes", all_notes(a.result)}});
}

}  // namespace areo::wording
