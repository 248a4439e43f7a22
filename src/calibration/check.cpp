// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/calibration/check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/physics/boiling.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/refraction.hpp"
#include "areo/physics/water.hpp"

namespace areo::calibration {
namespace {

using instruments::HydrometerReading;
using instruments::RefractometerReading;
using uncertainty::Point;

// The instrument's own correction is what the check looks for, so it enters as exactly zero.
const instruments::Correction& no_correction() {
  static const instruments::Correction none{.provenance = "the check itself"};
  return none;
}

std::string label_of(const WeighedSolution& s) {
  return fmt::format("{} {:g} g + {:g} g water", s.solute == Solute::sucrose ? "sugar" : "salt",
                     s.solute_g, s.water_g);
}

// A solution whose solute and balance it may share with others.
SolutionInputs entered(uncertainty::Inputs& inputs, const WeighedSolution& solution,
                       std::vector<SoluteInputs>& solutes, std::vector<BalanceInputs>& balances) {
  const auto known = std::find_if(solutes.begin(), solutes.end(),
                                  [&](const SoluteInputs& s) { return s.is_of(solution); });
  const auto balance = std::find_if(balances.begin(), balances.end(), [&](const BalanceInputs& b) {
    return b.division_g == solution.balance_division_g;
  });
  const SolutionInputs s{inputs, solution,
                         known != solutes.end() ? std::optional{*known} : std::nullopt,
                         balance != balances.end() ? std::optional{*balance} : std::nullopt};
  if (known == solutes.end()) solutes.push_back(s.solute());
  if (balance == balances.end()) balances.push_back(s.balance());
  return s;
}

}  // namespace

void Checks::add(std::string label, double indication, std::function<Outcome(const Point&)> model) {
  pending_.push_back({std::move(label), indication, std::move(model)});
}

void Checks::add_certificate_point(double nominal, double correction, double expanded, double k,
                                   std::string certificate) {
  if (!(expanded > 0) || !(k >= 1) || !std::isfinite(nominal) || !std::isfinite(correction))
    throw Error{
        Errc::domain,
        "a certificate's point needs finite numbers, an expanded uncertainty above zero and "
        "a coverage factor of at least 1",
        "copy them from the certificate, in the unit of the scale"};
  constexpr double most_divisions = 10;
  if (std::abs(correction) > most_divisions * division_)
    throw Error{
        Errc::domain,
        fmt::format("a correction of {} is more than ten divisions of {}", correction, division_),
        "check the digits and the sign; an instrument that is so far off is for the bin"};
  const auto stated = readings_.inputs.add(
      from(uncertainty::Origin::calibration,
           uncertainty::normal("correction of the certificate", uncertainty::unit_of_scale,
                               correction, expanded / k, "as stated by the certificate")));
  if (!certificate.empty()) certified_.push_back({std::move(certificate), stated});
  add("certificate", nominal, [nominal, stated](const Point& x) {
    return Outcome{x[stated], nominal + x[stated]};
  });
}

std::optional<uncertainty::InputRef> Checks::solids(Water water) {
  if (water == Water::pure) return std::nullopt;
  constexpr const char* hardness = "0 to 0.6 g/L, soft to hard: judgement";
  const bool tap = water == Water::tap;
  auto& known = tap ? tap_ : unknown_water_;
  // Pure water nobody doubts; tap water may be anything up to the most. Of an unknown one the best
  // estimate stays that of pure water, and its doubt is the distance of tap water from that.
  if (!known)
    known = readings_.inputs.add(
        from(uncertainty::Origin::composition,
             tap ? uncertainty::between("solids of the tap water", "of the most", 0, 1, hardness)
                 : uncertainty::rectangular("solids of a water that nobody named", "of the most", 0,
                                            1, hardness)));
  return known;
}

CheckSet Checks::evaluate() const {
  const std::size_t n = pending_.size();
  // All corrections, then all expected values.
  const auto result = propagate(readings_.inputs, [&](const Point& x) {
    std::vector<double> all(2 * n);
    for (std::size_t i = 0; i < n; ++i) {
      const Outcome o = pending_[i].model(x);
      all[i] = o.correction;
      all[n + i] = o.expected;
    }
    return all;
  });
  CheckSet set{{}, numeric::Covariance{n}};
  set.inputs = readings_.inputs;
  for (std::size_t i = 0; i < certified_.size(); ++i)
    for (std::size_t j = 0; j < i; ++j)
      if (certified_[i].certificate == certified_[j].certificate)
        set.inputs.correlate(certified_[i].stated, certified_[j].stated, 1);
  if (!set.inputs.correlations().empty()) set.apart = numeric::Covariance{n};
  const auto apart = covariance(readings_.inputs, result);
  const auto all = covariance(set.inputs, result);
  for (std::size_t i = 0; i < n; ++i) {
    set.checks.push_back(
        {pending_[i].label, pending_[i].indication, result.values[n + i], result.values[i]});
    for (std::size_t j = i; j < n; ++j) {
      set.covariance.set(i, j, all(i, j));
      if (set.apart.size() > 0) set.apart.set(i, j, apart(i, j));
    }
  }
  set.made_for = made_for_;
  set.shares.assign(result.shares.begin(), result.shares.begin() + static_cast<std::ptrdiff_t>(n));
  return set;
}

void HydrometerChecks::add_reading(const HydrometerReading& reading, std::string label, Water water,
                                   DensityModel density) {
  // What is known of formulas, and of a liquid that cools while it is read, is no check beyond.
  instruments::require_temperature(physics::water_range, reading.temperature);
  const auto r = readings_.add(hydrometer_, no_correction(), reading, "the check: " + label,
                               instruments::LiquidSurface::clean);
  made_for_ = r.made_for_input();
  const auto dissolved_part = solids(water);
  add(std::move(label), reading.indication,
      [r, dissolved_part, density = std::move(density)](const Point& x) {
        const double dissolved = dissolved_part ? x[*dissolved_part] * most_tap_solids_kg_m3 : 0;
        const Density truth = density(x, r.temperature(x)) + kg_per_m3(dissolved);
        return Outcome{r.shortfall(x, truth), r.expected(x, truth)};
      });
}

void HydrometerChecks::add_in_water(const HydrometerReading& reading, Water water) {
  add_reading(reading, "water", water,
              [](const Point&, ModelTemperature t) { return physics::density({}, t); });
}

void HydrometerChecks::add_in_solution(const HydrometerReading& reading,
                                       const WeighedSolution& solution, Water water) {
  const SolutionInputs s = entered(readings_.inputs, solution, solutes_, balances_);
  add_reading(reading, label_of(solution), water,
              [s](const Point& x, ModelTemperature t) { return s.density(x, t); });
}

void RefractometerChecks::add_reading(const RefractometerReading& reading, std::string label,
                                      Water water, std::function<double(const Point&)> fraction) {
  const auto r = readings_.add(refractometer_, no_correction(), reading, "the check: " + label);
  const auto model = readings_.inputs.add(from(
      uncertainty::Origin::formula,
      uncertainty::normal("refractive index formula: " + label, uncertainty::unit_of_formula, 0, 1,
                          "agreement of [icumsa1974] and [itct1936] with their tables")));
  const auto dissolved_part = solids(water);
  add(std::move(label), reading.indication,
      [r, model, dissolved_part, fraction = std::move(fraction)](const Point& x) {
        const double dissolved = dissolved_part ? x[*dissolved_part] * most_tap_solids_extract : 0;
        const physics::Liquid truth{ExtractFraction{fraction(x) + dissolved}};
        const double formula =
            x[model] * physics::refractive_index_model_uncertainty(truth, r.temperature(x));
        return Outcome{r.shortfall(x, truth, formula), r.expected(x, truth, formula)};
      });
}

void RefractometerChecks::add_in_water(const RefractometerReading& reading, Water water) {
  add_reading(reading, "water", water, [](const Point&) { return 0.0; });
}

void RefractometerChecks::add_in_solution(const RefractometerReading& reading,
                                          const WeighedSolution& solution, Water water) {
  if (solution.solute != Solute::sucrose)
    throw Error{Errc::inconsistent, "a salt solution does not check a refractometer",
                "weigh in sugar: areo solution sugar"};
  const SolutionInputs s = entered(readings_.inputs, solution, solutes_, balances_);
  add_reading(reading, label_of(solution), water, [s](const Point& x) { return s.fraction(x); });
}

void ThermometerChecks::add_fixed_point(double indication_c, double half_width_c, std::string label,
                                        uncertainty::Input condition, double (*expected_c)(double),
                                        std::optional<uncertainty::Input> beside_c) {
  instruments::require_on_scale(thermometer_, indication_c);
  const auto shown = readings_.inputs.add(
      from(uncertainty::Origin::reading,
           uncertainty::rectangular("reading of the thermometer", "°C", indication_c, half_width_c,
                                    "resolution as read"),
           2 * half_width_c));
  const auto at = readings_.inputs.add(std::move(condition));
  const auto beside =
      beside_c ? std::optional{readings_.inputs.add(std::move(*beside_c))} : std::nullopt;
  add(std::move(label), indication_c, [shown, at, beside, expected_c](const Point& x) {
    const double expected = expected_c(x[at]) + (beside ? x[*beside] : 0);
    return Outcome{expected - x[shown], expected};
  });
}

void ThermometerChecks::add_in_ice(double indication_c, double half_width_c) {
  constexpr double ice_half_width_c = 0.1;
  add_fixed_point(indication_c, half_width_c, "melting ice",
                  uncertainty::rectangular("temperature of the ice", "°C", 0, ice_half_width_c,
                                           "crushed ice and water from a kitchen: judgement"),
                  [](double ice_c) { return ice_c; });
}

void ThermometerChecks::add_in_boiling_water(double indication_c, double half_width_c,
                                             Pressure pressure, double known_to_pa) {
  static constexpr Range station{
      "pressure at the place", "kPa", 50, 110, "isa", "check the unit: 982 hPa are 98.2 kPa"};
  require(station, pressure.value() / 1000);
  add_fixed_point(
      indication_c, half_width_c, fmt::format("boiling water, {:.2f} kPa", pressure.value() / 1000),
      uncertainty::rectangular("pressure at the place", "Pa", pressure.value(), known_to_pa,
                               "as stated; weather moves it by ± 2 kPa"),
      [](double p) { return physics::boiling_point(pascals(p)).celsius(); },
      uncertainty::rectangular("superheat of the water and emergent stem", "°C", 0,
                               boiling_half_width_c, "judgement"));
}

}  // namespace areo::calibration
