// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A new hydrometer in a world where the truth is known: it has an offset and a slope that nobody
// knows, is checked in water and in two weighed solutions, and follows a ferment.
#include "areo/calibration/fit.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/water.hpp"
#include "float.hpp"
#include "world.hpp"

namespace areo::property {

// A hydrometer as it was made: each end of its scale within a division off, on a balance of 1 g.
class NewStem {
 public:
  /// @param division  of its scale, SG
  explicit NewStem(World& world, double division = 0.002)
      : hydrometer{.name = "stem", .lo = 0.970, .hi = 1.130, .division = division},
        world_{&world},
        float_{world, hydrometer},
        off_lo_{world.rectangular(hydrometer.division)},
        off_hi_{world.rectangular(hydrometer.division)},
        linearity_solute_{world.rectangular(1)},
        linearity_water_{world.rectangular(1)} {}

  instruments::HydrometerReading reads(const physics::Liquid& liquid, double true_c) {
    return reads(physics::density(liquid, celsius_point(true_c)), true_c,
                 100 * liquid.ethanol.value());
  }
  instruments::HydrometerReading reads(Density rho, double true_c, double ethanol_mass_percent) {
    return shown(float_.mark_in_drink(hydrometer, rho, true_c, ethanol_mass_percent), true_c);
  }
  instruments::HydrometerReading reads_clean(Density rho, double true_c) {
    return shown(float_.mark_in_clean(hydrometer, rho, true_c), true_c);
  }
  // A weighed solution as it really is: masses, purity and moisture within what is stated of them.
  [[nodiscard]] Density weighed(const calibration::WeighedSolution& s, double true_c) {
    const auto off = [&](double g, double part) {
      return g + world_->triangular(s.balance_division_g) + part * s.balance_division_g;
    };
    calibration::WeighedSolution truth = s;
    truth.solute_g = off(s.solute_g, linearity_solute_);
    truth.water_g = off(s.water_g, linearity_water_);
    truth.purity_lo = truth.purity_hi = world_->uniform(s.purity_lo, s.purity_hi);
    truth.moisture_lo = truth.moisture_hi = world_->uniform(s.moisture_lo, s.moisture_hi);
    uncertainty::Inputs inputs;
    const calibration::SolutionInputs liquid{inputs, truth};
    const std::vector<double> x = inputs.estimates();
    return liquid.density(uncertainty::Point{x}, celsius_point(true_c));
  }
  /// What the scale is off by where it shows this, in the liquid it was made for.
  [[nodiscard]] double off_at(double mark) const {
    const double part = (mark - hydrometer.lo) / (hydrometer.hi - hydrometer.lo);
    return off_lo_ + part * (off_hi_ - off_lo_);
  }
  /// As areo states an instrument that nobody checked: an offset within a division, and on its own
  /// a slope of which the standard uncertainty is that of two ends within a division each.
  void make_as_stated(World& world) {
    const double offset = world.rectangular(hydrometer.division);
    const double run = world.rectangular(std::numbers::sqrt2 * hydrometer.division);
    off_lo_ = offset - run / 2;
    off_hi_ = offset + run / 2;
  }
  /// A scale that runs by so many divisions from end to end, each of them still within one.
  void make_steep(World& world, double divisions) {
    const double d = hydrometer.division;
    const double middle = world.rectangular(d * (1 - std::abs(divisions) / 2));
    off_lo_ = middle - divisions * d / 2;
    off_hi_ = middle + divisions * d / 2;
  }
  instruments::Hydrometer hydrometer;
  double times_eye = 1;  ///< what the eye errs by, as many times as areo states

 private:
  instruments::HydrometerReading shown(double mark, double true_c) {
    const double eye = times_eye * world_->triangular(hydrometer.division / 2);
    return {mark - off_at(mark) - eye, 0, world_->reads(true_c), instruments::Meniscus::level};
  }

  World* world_;
  Float float_;
  double off_lo_, off_hi_, linearity_solute_, linearity_water_;
};

inline instruments::Correction checked(World& world, NewStem& stem) {
  calibration::HydrometerChecks checks{stem.hydrometer};
  const double t = world.uniform(17, 24);
  checks.add_in_water(stem.reads_clean(physics::water_density(celsius_point(t)), t));
  for (const calibration::WeighedSolution& s :
       {calibration::sugar_solution(50, 450), calibration::sugar_solution(97, 403)})
    checks.add_in_solution(stem.reads_clean(stem.weighed(s, t), t), s);
  const auto fit = calibration::fit_correction(checks.evaluate(), stem.hydrometer.division,
                                               stem.hydrometer.scale_length());
  return fit.correction;
}

// What ferments of one sort have in common: the spread of their yields, and the part of the extract
// that is gone.
struct Sort {
  const char* name = "any";
  double least_attenuation = 0.3, most_attenuation = 0.98;
  double mean_yield = ferment::balling_yield.extract_per_ethanol;
  double yield_sd = ferment::yield_uncertainty;
};

// A clean yeast ferment, read at its beginning and later.
struct Ferment {
  Ferment(World& world, NewStem& stem, const Sort& sort = {}) {
    const ExtractFraction original{world.uniform(0.06, 0.20)};
    const ferment::Yield yield{sort.mean_yield + world.normal(sort.yield_sd)};
    const double all = ferment::ethanol_from_extracts(original, ExtractFraction{0}, yield).value();
    const double part = world.uniform(sort.least_attenuation, sort.most_attenuation);
    const physics::Liquid drink = ferment::fermented(original, EthanolFraction{all * part}, yield);
    const double then_c = world.uniform(15, 26), now_c = world.uniform(15, 26);
    first = stem.reads(physics::Liquid{original}, then_c);
    now = stem.reads(drink, now_c);
    strength = ferment::strength_by_volume(drink).value();
  }
  instruments::HydrometerReading first, now;
  double strength = 0;  ///< the true one, % vol
};

}  // namespace areo::property
