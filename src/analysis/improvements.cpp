// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/analysis/improvements.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <variant>

#include "areo/core/error.hpp"
#include "what_if.hpp"

namespace areo::analysis {
namespace {

using calibration::RecommendedCheck;
using instruments::InstrumentUse;
using uncertainty::Origin;

const std::string& name_of(const InstrumentUse& use) {
  return std::visit([](const auto& i) -> const std::string& { return i.name; }, use.instrument);
}

double division_of(const InstrumentUse& use) {
  return std::visit([](const auto& i) { return i.division; }, use.instrument);
}

std::string check_words(const std::string& name, const RecommendedCheck& plan) {
  return plan.water ? name + " checked in water and two weighed sugar solutions"
                    : name + " checked in three weighed sugar solutions";
}

std::string recipes(const RecommendedCheck& plan) {
  std::string text;
  for (const calibration::WeighedSolution& s : plan.solutions)
    text += fmt::format("{}{:.0f} g of sugar in {:.0f} g of water", text.empty() ? "" : ", ",
                        s.solute_g, s.water_g);
  return text;
}

Measure described(const Forecast& outlook, const measurement::Result& result, const Step& step) {
  const std::vector<Step> only{step};
  Measure m{step.action, "", "", outlook.after(only)};
  switch (step.action) {
    case Action::digit:
      m.words = "one more digit typed";
      m.changes = "what was typed is known to a tenth";
      break;
    case Action::repeat:
      m.words = "3 repeat readings";
      m.changes = "the eye's part by √3, but not below the step it is noted in over √12";
      break;
    case Action::temperature:
      m.words = "temperature to 0.2 °C";
      m.changes = "temperatures within ± 0.2 °C";
      break;
    case Action::extract:
      m.words = "what is dissolved named";
      m.changes = "its refraction is known as well as that of malt extract";
      break;
    case Action::check: {
      const RecommendedCheck& plan = outlook.check(step.instrument);
      m.words = check_words(name_of(result.instruments[step.instrument]), plan);
      m.changes = "a correction from " + std::string{plan.water ? "water, " : ""} + recipes(plan);
      break;
    }
    case Action::finer_scale: {
      const InstrumentUse& use = result.instruments[step.instrument];
      m.words = fmt::format("{} with divisions of {:g}", name_of(use), division_of(use) / 2);
      m.changes = use.correction.correction.checks > 0
                      ? "the ± of its readings is halved"
                      : "the ± of its readings, and of its error within one division, is halved";
      break;
    }
  }
  return m;
}

double effort_of(const std::vector<Step>& steps) {
  return std::accumulate(steps.begin(), steps.end(), 0.0,
                         [](double sum, const Step& s) { return sum + effort(s.action); });
}

// The steps that the bits of `set` stand for.
std::vector<Step> chosen(const std::vector<Step>& steps, std::size_t set) {
  std::vector<Step> taken;
  for (std::size_t i = 0; i < steps.size(); ++i)
    if ((set >> i & 1U) != 0) taken.push_back(steps[i]);
  return taken;
}

}  // namespace

double effort(Action action) {
  switch (action) {
    case Action::digit:
    case Action::repeat: return 1;
    case Action::temperature:
    case Action::check:
    case Action::extract: return 2;
    case Action::finer_scale: return 5;
  }
  return 0;
}

std::vector<Measure> measures(const measurement::Result& result, std::string_view key) {
  const Forecast outlook{result, key};
  std::vector<Measure> all;
  for (const Step& step : outlook.steps()) all.push_back(described(outlook, result, step));
  return all;
}

BestAchievable best_achievable(const measurement::Result& result, std::string_view key) {
  const Forecast outlook{result, key};
  const Shares s = outlook.shares(outlook.steps());
  BestAchievable floor{outlook.after(outlook.steps()), ""};
  double largest = -1;
  for (std::size_t i = 0; i < s.of_inputs.size(); ++i)
    if (std::abs(s.of_inputs[i]) > largest) {
      const uncertainty::Input& input = result.inputs.all()[i];
      largest = std::abs(s.of_inputs[i]);
      floor.limit = input.name;
      floor.needs_laboratory = input.origin == Origin::method;
    }
  for (std::size_t i = 0; i < s.of_checks.size(); ++i)
    if (s.of_checks[i] > largest) {
      largest = s.of_checks[i];
      floor.limit = "the check of " + name_of(result.instruments[i]);
      floor.needs_laboratory = false;
    }
  return floor;
}

Plan cheapest(const measurement::Result& result, std::string_view key, double target) {
  const Forecast outlook{result, key};
  if (!(target > 0) || !std::isfinite(target))
    throw Error{Errc::domain,
                fmt::format("a target is an expanded uncertainty above zero; got {}", target)};
  std::vector<Step> best;
  Plan plan;
  for (std::size_t set = 0; set < std::size_t{1} << outlook.steps().size(); ++set) {
    const std::vector<Step> taken = chosen(outlook.steps(), set);
    const uncertainty::Value after = outlook.after(taken);
    if (!(after.expanded() <= target)) continue;
    const double effort = effort_of(taken);
    if (plan.reached && (effort > plan.effort ||
                         (effort == plan.effort && after.expanded() >= plan.after.expanded())))
      continue;
    best = taken;
    plan.reached = true;
    plan.effort = effort;
    plan.after = after;
  }
  if (!plan.reached) plan.after = outlook.after(outlook.steps());
  for (const Step& step : best) plan.steps.push_back(described(outlook, result, step));
  return plan;
}

}  // namespace areo::analysis
