#pragma once
// A new hydrometer in a world where the truth is known: it has an offset and a slope that nobody
// knows, is checked in water and in two weighed solutions, and follows a ferment.
#include "areo/calibration/fit.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/water.hpp"
#include "world.hpp"

namespace areo::property {

// A hydrometer as it was made: within a division off, and as much different from end to end.
class NewStem {
 public:
  /// @param division  of its scale, SG
  explicit NewStem(World& world, double division = 0.002)
      : hydrometer{.name = "stem", .lo = 0.970, .hi = 1.130, .division = division},
        world_{&world},
        offset_{world.rectangular(hydrometer.division)},
        slope_{world.rectangular(hydrometer.division) / (hydrometer.hi - hydrometer.lo)},
        glass_{hydrometer.glass_expansion_per_c +
               world.rectangular(instruments::glass_expansion_half_width_per_c)} {}

  instruments::HydrometerReading reads(Density rho, double true_c) {
    const double mark =
        instruments::ideal_indication(hydrometer, rho, celsius_point(true_c), glass_);
    const double eye = world_->triangular(hydrometer.division / 2);
    const double surface = world_->rectangular(0.0004);
    const double off = offset_ + slope_ * (mark - middle);
    return {mark - off - eye - surface, 0, world_->reads(true_c), instruments::Meniscus::level};
  }
  instruments::Hydrometer hydrometer;

 private:
  static constexpr double middle = 1.05;
  World* world_;
  double offset_, slope_, glass_;
};

// A weighed solution as it really is: masses, purity and moisture within what is stated of them.
inline Density weighed(World& world, const calibration::WeighedSolution& s, double true_c) {
  const auto off = [&](double g) { return g + world.triangular(s.balance_division_g); };
  calibration::WeighedSolution truth = s;
  truth.solute_g = off(s.solute_g);
  truth.water_g = off(s.water_g);
  truth.purity_lo = truth.purity_hi = world.uniform(s.purity_lo, s.purity_hi);
  truth.moisture_lo = truth.moisture_hi = world.uniform(s.moisture_lo, s.moisture_hi);
  uncertainty::Inputs inputs;
  const calibration::SolutionInputs liquid{inputs, truth};
  const std::vector<double> x = inputs.estimates();
  return liquid.density(uncertainty::Point{x}, celsius_point(true_c));
}

inline instruments::Correction checked(World& world, NewStem& stem) {
  calibration::HydrometerChecks checks{stem.hydrometer};
  const double t = world.uniform(17, 24);
  checks.add_in_water(stem.reads(physics::water_density(celsius_point(t)), t));
  for (const calibration::WeighedSolution& s :
       {calibration::sugar_solution(50, 450), calibration::sugar_solution(97, 403)})
    checks.add_in_solution(stem.reads(weighed(world, s, t), t), s);
  const auto fit = calibration::fit_correction(checks.evaluate(), stem.hydrometer.division,
                                               stem.hydrometer.lo, stem.hydrometer.hi);
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
    first = stem.reads(physics::density({original}, celsius_point(then_c)), then_c);
    now = stem.reads(physics::density(drink, celsius_point(now_c)), now_c);
    strength = ferment::strength_by_volume(drink).value();
  }
  instruments::HydrometerReading first, now;
  double strength = 0;  ///< the true one, % vol
};

}  // namespace areo::property
