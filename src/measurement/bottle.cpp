// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/bottle.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/measurement/ferments.hpp"
#include "areo/measurement/original.hpp"
#include "areo/physics/carbon_dioxide.hpp"
#include "bottle_inputs.hpp"

namespace areo::measurement {
namespace {

using physics::ClosedBottle;
using physics::Liquid;
using uncertainty::InputRef;
using uncertainty::Inputs;
using uncertainty::Origin;
using uncertainty::Point;

constexpr double pa_per_bar = 1e5;

void require(const BottlePlan& plan) {
  const auto amount = [](const std::optional<double>& v) {
    return !v || (*v > 0 && std::isfinite(*v));
  };
  areo::require(physics::solubility_temperature_range, plan.storage_c);
  instruments::require_temperature(physics::solubility_temperature_range, plan.closing);
  if (!(plan.headspace > 0 && plan.headspace <= physics::most_headspace))
    throw Error{Errc::domain, "a headspace is above nothing, to half of the bottle",
                "a bottle needs some: the drink expands as it warms; 4 % is usual"};
  if (!amount(plan.carbonation) || !amount(plan.volume_l))
    throw Error{Errc::domain, "a wanted carbonation and a volume are above zero"};
}

void append_labels(std::vector<Label>& labels, const std::string& of, const std::string& name) {
  labels.push_back({"co2_" + of + "_g_l", "CO2, " + name, "g/L"});
  labels.push_back({"co2_" + of + "_volumes", "the same in volumes, " + name, "volumes"});
  labels.push_back({"gauge_pressure_" + of + "_bar", "pressure, " + name, "bar"});
}

// What is the same with and without priming.
uncertainty::Model model_of(const BottleInputs& in, bool expected) {
  return [in, expected](const Point& x) {
    const Drinks d = in.drinks(x);
    const double dissolved = in.dissolved(x, d);
    const double all = extract_g_l(d.now);
    std::vector<double> out{all, dissolved};
    in.append(out, x, d.now, dissolved);
    in.append(out, x, d.all, dissolved + in.yield(x) * all);
    if (!expected) return out;
    const double sugar = extract_g_l(d.from) - extract_g_l(d.expected);
    out.push_back(sugar);
    in.append(out, x, d.expected, dissolved + in.yield(x) * sugar);
    return out;
  };
}

std::vector<Label> labels_of(bool expected) {
  std::vector<Label> labels{{"sugar_all_g_l", "sugar that could still ferment", "g/L"},
                            {"co2_dissolved_g_l", "CO2 dissolved before it is closed", "g/L"}};
  append_labels(labels, "now", "nothing more ferments");
  append_labels(labels, "all", "everything ferments");
  if (!expected) return labels;
  labels.push_back({"sugar_expected_g_l", "sugar down to the expected gravity", "g/L"});
  append_labels(labels, "expected", "down to the expected gravity");
  return labels;
}

// The sugar for a wanted carbonation, with the sugar that is counted on beside it.
class Carbonation {
 public:
  Carbonation(BottleInputs in, double wanted_g_l, bool expected)
      : in_{std::move(in)}, wanted_g_l_{wanted_g_l}, expected_{expected} {}

  struct Need {
    double beyond_left_g_l;  ///< carbon dioxide that the sugar which is left does not make
    double sugar_g_l;        ///< to be added
    double gauge_bar;
  };
  [[nodiscard]] Need need(const Point& x) const {
    const Drinks d = in_.drinks(x);
    const Liquid& end = expected_ ? d.expected : d.all;
    const ClosedBottle bottle = in_.closed(x, end);
    // Dissolved is what is in the drink alone, as if there were no headspace.
    const Pressure p = physics::carbon_dioxide_pressure(
        {bottle.t, bottle.solubility_g_l_bar, 0, bottle.beyond_ideal_per_bar}, wanted_g_l_);
    const double left = expected_ ? to_expected(d) : extract_g_l(d.now);
    const double beyond = physics::carbon_dioxide_held(bottle, p) - in_.yield(x) * left;
    return {beyond, (beyond - in_.dissolved(x, d)) / in_.yield(x), in_.gauge_bar(x, bottle, p)};
  }
  /// If all extract ferments beside so much sugar, and if that down to the expected gravity does.
  void append_primed(std::vector<double>& out, const Point& x, double sugar_g_l) const {
    const Drinks d = in_.drinks(x);
    const auto append = [&](const Liquid& end, double left_g_l) {
      in_.append(out, x, end, in_.dissolved(x, d) + in_.yield(x) * (left_g_l + sugar_g_l));
    };
    append(d.all, extract_g_l(d.now));
    if (expected_) append(d.expected, to_expected(d));
  }
  void append_primed_labels(std::vector<Label>& labels) const {
    append_labels(labels, "primed", "everything and the priming sugar ferments");
    if (expected_)
      append_labels(labels, "expected_primed",
                    "down to the expected gravity, and the priming sugar ferments");
  }

 private:
  static double to_expected(const Drinks& d) {
    return extract_g_l(d.from) - extract_g_l(d.expected);
  }

  BottleInputs in_;
  double wanted_g_l_;
  bool expected_;
};

struct Judged {
  Priming priming;
  double most_g_l;  ///< upper end of the sugar to be added
};
Judged judged(const Inputs& inputs, const Carbonation& carbonation) {
  const auto p = uncertainty::propagate(inputs, [&](const Point& x) {
    const auto n = carbonation.need(x);
    return std::vector{n.beyond_left_g_l, n.sugar_g_l, n.gauge_bar};
  });
  const double most_bar = p.values[2].estimate + p.values[2].expanded();
  if (!(most_bar <= physics::solubility_pressure_range.hi))
    throw Error{Errc::domain,
                fmt::format("so much carbonation makes up to {:.0f} bar, and the solubility was "
                            "measured to {:.0f} bar",
                            most_bar, physics::solubility_pressure_range.hi),
                "want less of it; sparkling wine has some 6 bar at 20 °C"};
  const bool left_may_do = p.values[0].estimate - p.values[0].expanded() < 0;
  const uncertainty::Value& sugar = p.values[1];
  return {left_may_do || sugar.estimate <= 0 ? Priming::enough : Priming::figure,
          sugar.estimate + sugar.expanded()};
}

// The model with what is to be said about priming behind its outputs.
uncertainty::Model with_priming(uncertainty::Model model, const Carbonation& carbonation,
                                double weighed_g_l, std::vector<Label>& labels,
                                const std::optional<InputRef>& volume) {
  labels.push_back({"priming_sugar_g_l", "table sugar for the carbonation", "g/L"});
  labels.push_back({"gauge_pressure_carbonated_bar", "pressure, as carbonated", "bar"});
  carbonation.append_primed_labels(labels);
  if (volume) labels.push_back({"priming_sugar_g", "table sugar for the volume", "g"});
  return [=, model = std::move(model)](const Point& x) {
    std::vector<double> out = model(x);
    const auto need = carbonation.need(x);
    out.push_back(need.sugar_g_l);
    out.push_back(need.gauge_bar);
    carbonation.append_primed(out, x, weighed_g_l);
    if (volume) out.push_back(need.sugar_g_l * x[*volume]);
    return out;
  };
}

}  // namespace

BottleResult bottle(const AlcoholResult& drink, const BottlePlan& plan) {
  require(plan);
  if (drink.state == Fermentation::above || drink.state == Fermentation::contradiction)
    throw Error{
        Errc::inconsistent,
        "the last reading and the original gravity contradict each other, so what is left of the "
        "sugar is unknown",
        "degas the sample, let it settle to a known temperature and read again"};
  if (plan.expected_sg)
    require_possible_end(*plan.expected_sg, drink.result.at("sg_20_20_present").value,
                         drink.result.at("original_extract_percent").value);
  const bool expected = plan.expected_sg.has_value();
  Inputs inputs = drink.result.inputs;
  const BottleInputs in{inputs, drink.result, plan};
  uncertainty::Model model = model_of(in, expected);
  std::vector<Label> labels = labels_of(expected);
  BottleResult outcome;
  if (plan.carbonation) {
    const Carbonation carbonation{in, *plan.carbonation, expected};
    const Judged j = judged(inputs, carbonation);
    outcome.priming = j.priming == Priming::figure && !plan.at_rest ? Priming::not_yet : j.priming;
    std::optional<InputRef> volume;
    if (plan.volume_l && outcome.priming == Priming::figure)
      volume = inputs.add(
          from(Origin::mass, uncertainty::rectangular("volume of drink", "L", *plan.volume_l,
                                                      kitchen_volume_half_width * *plan.volume_l,
                                                      "a kitchen volume, ± 5 %: engineering "
                                                      "judgement")));
    if (outcome.priming == Priming::figure)
      model = with_priming(std::move(model), carbonation, j.most_g_l, labels, volume);
  }
  outcome.result = evaluate(std::move(inputs), model, std::move(labels));
  outcome.result.instruments = drink.result.instruments;
  outcome.result.notes = drink.result.notes;
  return outcome;
}

uncertainty::Interval range_of(const Quantity& q) {
  const double expanded = q.value.expanded();
  return {std::max(q.value.estimate - expanded, 0.0), std::max(q.value.estimate + expanded, 0.0)};
}

uncertainty::Interval range_of(const Quantity& q, const Quantity& now) {
  const uncertainty::Interval of_case = range_of(q), least = range_of(now);
  return {std::max(of_case.lo, least.lo), std::max(of_case.hi, least.hi)};
}

RatingVerdict against_rating(const uncertainty::Interval& pressure, Pressure rating) {
  const double bar = rating.value() / pa_per_bar;
  if (!(bar > 0) || !std::isfinite(bar))
    throw Error{Errc::domain, "the rating of a bottle is above zero"};
  if (!(pressure.hi < bar)) return RatingVerdict::above;
  return beyond_measurements(pressure) ? RatingVerdict::cannot_tell : RatingVerdict::below;
}

bool beyond_measurements(const uncertainty::Interval& pressure) {
  return !(pressure.hi <= physics::solubility_pressure_range.hi);
}

}  // namespace areo::measurement
