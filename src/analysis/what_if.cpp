// SPDX-License-Identifier: GPL-3.0-or-later
#include "what_if.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

#include "areo/analysis/budget.hpp"
#include "areo/physics/refraction.hpp"

namespace areo::analysis {
namespace {

using calibration::RecommendedCheck;
using instruments::Correction;
using instruments::InstrumentUse;
using uncertainty::Input;
using uncertainty::Origin;

constexpr double readings_taken = 3;
constexpr double good_half_width_c = 0.2;
constexpr double next_digit = 0.1;

bool has(std::span<const Step> steps, const Step& step) {
  return std::find(steps.begin(), steps.end(), step) != steps.end();
}

// What lowers a standard uncertainty to a target, and leaves a lower one.
double down_to(double target, double u) { return u > target ? target / u : 1; }

std::optional<RecommendedCheck> check_of(const InstrumentUse& use, double division_factor) {
  return std::visit(
      [&](auto instrument) {
        instrument.division *= division_factor;
        return calibration::recommended_check(instrument);
      },
      use.instrument);
}

}  // namespace

Forecast::Forecast(const measurement::Result& result, std::string_view key)
    : result_{result}, quantity_{uncertain_quantity(result, key)} {
  const auto inputs = result.inputs.all();
  const auto open = [&](Origin origin) {
    return std::any_of(inputs.begin(), inputs.end(),
                       [&](const Input& i) { return i.origin == origin && i.u > 0; });
  };
  for (const InstrumentUse& use : result.instruments) {
    const bool read = std::any_of(use.marks.begin(), use.marks.end(), [&](const auto& m) {
      return inputs[m.reading.index].origin == Origin::reading;
    });
    instruments_.push_back(read ? Checkable{true, check_of(use, 1), check_of(use, 0.5)}
                                : Checkable{});
  }
  if (open(Origin::typed)) steps_.push_back({Action::digit});
  if (open(Origin::reading)) steps_.push_back({Action::repeat});
  if (open(Origin::temperature)) steps_.push_back({Action::temperature});
  for (std::size_t i = 0; i < instruments_.size(); ++i)
    if (instruments_[i].now) steps_.push_back({Action::check, i});
  if (open(Origin::refraction)) steps_.push_back({Action::extract});
  for (std::size_t i = 0; i < instruments_.size(); ++i)
    if (instruments_[i].read) steps_.push_back({Action::finer_scale, i});
}

double Forecast::factor(const Input& input, std::span<const Step> taken) const {
  if (input.origin == Origin::typed && has(taken, {Action::digit})) return next_digit;
  // Three readings do not look behind the step in which each was noted [gum] F.2.2.1.
  if (input.origin == Origin::reading && has(taken, {Action::repeat}))
    return down_to(std::max(input.u / std::sqrt(readings_taken), input.step / std::sqrt(12.0)),
                   input.u);
  if (input.origin == Origin::temperature && has(taken, {Action::temperature}))
    return down_to(good_half_width_c / std::sqrt(3.0), input.u);
  if (input.origin == Origin::refraction && has(taken, {Action::extract}))
    return down_to(physics::malt_extract_optics.uncertainty, input.u);
  return 1;
}

void Forecast::take_finer_scale(Shares& s, std::size_t instrument) const {
  constexpr double half = 0.5;
  const InstrumentUse& use = result_.instruments[instrument];
  for (const auto& mark : use.marks)
    if (result_.inputs.all()[mark.reading.index].origin == Origin::reading)
      s.of_inputs[mark.reading.index] *= half;
  if (use.correction.correction.checks > 0) return;
  for (const auto input :
       {use.correction.offset, use.correction.slope, use.correction.beyond, use.correction.drift})
    s.of_inputs[input.index] *= half;
}

// The marks' sensitivities are those of their readings, which also move along the correction's
// slope. A slope about another middle is the same slope and another offset.
Forecast::Sensitivity Forecast::sensitivity(const Correction& c, const InstrumentUse& use) const {
  double offset = 0;
  double slope = 0;
  double beyond = 0;
  for (const auto& mark : use.marks) {
    const double u = result_.inputs.all()[mark.reading.index].u;
    const double change =
        result_.shares[quantity_][mark.reading.index] / u / (1 + use.correction.correction.slope);
    offset += change;
    slope += change * (mark.indication - c.r0);
    beyond += change * c.beyond(mark.indication);
  }
  return {offset, std::hypot(offset * c.u_offset, slope * c.u_slope, beyond * c.u_slope_beyond)};
}

void Forecast::take_check(Shares& s, std::size_t instrument, const RecommendedCheck& plan) const {
  const InstrumentUse& use = result_.instruments[instrument];
  double& offset = s.of_inputs[use.correction.offset.index];
  double& slope = s.of_inputs[use.correction.slope.index];
  double& beyond = s.of_inputs[use.correction.beyond.index];
  double& drift = s.of_inputs[use.correction.drift.index];
  // What the scale was made for cancels between check and reading as far as both knew of it.
  double none = 0;
  double& made_for = use.made_for ? s.of_inputs[use.made_for->index] : none;
  const auto [per_offset, share] = sensitivity(plan.correction, use);
  const double then = use.made_for ? made_for + per_offset * (plan.correction.u_surface -
                                                              use.correction.correction.u_surface)
                                   : 0;
  if (std::hypot(share, then) >= std::hypot(std::hypot(offset, slope, beyond), drift, made_for))
    return;  // the correction in force is better
  offset = slope = beyond = drift = 0;
  made_for = then;
  s.of_checks[instrument] = share;
}

Shares Forecast::shares(std::span<const Step> taken) const {
  Shares s{result_.shares[quantity_], std::vector<double>(instruments_.size(), 0.0)};
  for (std::size_t i = 0; i < s.of_inputs.size(); ++i)
    s.of_inputs[i] *= factor(result_.inputs.all()[i], taken);
  for (std::size_t i = 0; i < instruments_.size(); ++i) {
    const bool finer = has(taken, {Action::finer_scale, i});
    if (finer) take_finer_scale(s, i);
    const auto& plan = finer ? instruments_[i].with_half_the_division : instruments_[i].now;
    if (plan && has(taken, {Action::check, i})) take_check(s, i, *plan);
  }
  return s;
}

uncertainty::Value Forecast::after(std::span<const Step> taken) const {
  const Shares s = shares(taken);
  return uncertainty::combined(result_.quantities[quantity_].value.estimate, s.of_inputs,
                               result_.inputs, s.of_checks);
}

}  // namespace areo::analysis
