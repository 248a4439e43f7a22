// Simulated ferments: the true drink is known, the readings get errors drawn from what areo states
// about its inputs, and the stated interval has to hold the truth as often as it claims.
#include <gtest/gtest.h>

#include <cmath>

#include "areo/ferment/balling.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/measurement/refract.hpp"
#include "areo/physics/mixture.hpp"
#include "world.hpp"

namespace areo::property {
namespace {

using measurement::ExtractKind;
using measurement::Fermentation;
using physics::Liquid;

instruments::Correction calibrated(double middle, double u_offset, double u_slope) {
  return {.r0 = middle,
          .u_offset = u_offset,
          .u_slope = u_slope,
          .checked_lo = -1e9,
          .checked_hi = 1e9,
          .checks = 3,
          .provenance = "simulated"};
}

// One refractometer with the error it has, unknown to its owner.
class Prism {
 public:
  explicit Prism(World& world)
      : world_{&world}, offset_{world.normal(u_offset)}, slope_{world.normal(u_slope)} {
    instrument.refractometer.name = "prism";
    instrument.correction = calibrated(middle, u_offset, u_slope);
  }
  measurement::RefractometerSample reads(RefractiveIndex n, double true_c) {
    const double mark = physics::brix_shown_from_index(n).value();
    const double eye = world_->triangular(instrument.refractometer.division / 2);
    // corrected = shown + eye + offset + slope (shown - middle) has to be the mark.
    const double shown = (mark - eye - offset_ + slope_ * middle) / (1 + slope_);
    return {instrument, {shown, 0, world_->reads(true_c)}};
  }
  measurement::CalibratedRefractometer instrument;

 private:
  static constexpr double middle = 10, u_offset = 0.07, u_slope = 0.003;
  World* world_;
  double offset_, slope_;
};

// One hydrometer likewise.
class Stem {
 public:
  explicit Stem(World& world)
      : world_{&world},
        offset_{world.normal(u_offset)},
        slope_{world.normal(u_slope)},
        glass_{instrument.hydrometer.glass_expansion_per_c +
               world.rectangular(instruments::glass_expansion_half_width_per_c)} {
    instrument.hydrometer.name = "stem";
    instrument.hydrometer.lo = 0.980;
    instrument.hydrometer.hi = 1.130;
    instrument.correction = calibrated(middle, u_offset, u_slope);
  }
  measurement::HydrometerSample reads(Density rho, double true_c) {
    const instruments::Hydrometer& h = instrument.hydrometer;
    const double mark = instruments::ideal_indication(h, rho, celsius_point(true_c), glass_);
    const double eye = world_->triangular(h.division / 2);
    const double surface = world_->rectangular(0.0004);
    // corrected = shown + eye + surface + offset + slope (shown + eye - middle).
    const double shown = (mark - surface - offset_ + slope_ * middle) / (1 + slope_) - eye;
    return {instrument, {shown, 0, world_->reads(true_c), instruments::Meniscus::level}};
  }
  measurement::Calibrated instrument;

 private:
  static constexpr double middle = 1.03, u_offset = 0.0003, u_slope = 0.004;
  World* world_;
  double offset_, slope_, glass_;
};

ExtractKind mixed() { return {"mixed sugars", physics::unknown_extract_optics, "simulated"}; }
physics::ExtractOptics true_optics(World& world) {
  const auto& stated = physics::unknown_extract_optics;
  return {stated.relative_rise + world.normal(stated.uncertainty), 0};
}

// A ferment of 5 to 25 Brix that stands at 1 to 15 % vol, as far as its sugar goes.
struct Ferment {
  ExtractFraction original;
  Liquid balance;
};
Ferment draw_ferment(World& world) {
  for (;;) {
    const ExtractFraction original{world.uniform(0.05, 0.25)};
    const double all = ferment::ethanol_from_extracts(original, ExtractFraction{0}).value();
    const Liquid drink =
        ferment::fermented(original, EthanolFraction{world.uniform(0.008, std::min(all, 0.122))});
    const double strength = ferment::strength_by_volume(drink).value();
    if (strength >= 1 && strength <= 15) return {original, drink};
  }
}

bool holds(const measurement::AlcoholResult& a, const Liquid& truth) {
  const uncertainty::Value& v = a.result.at("alcohol_percent_vol").value;
  return std::abs(v.estimate - ferment::strength_by_volume(truth).value()) <= v.expanded();
}

// The truth of case (b): the balance is off by its method uncertainty, at the same index.
Liquid off_balance(World& world, const Liquid& balance, const physics::ExtractOptics& optics) {
  const Temperature t = celsius_point(20);
  const EthanolFraction ethanol{balance.ethanol.value() *
                                (1 + world.normal(measurement::method_uncertainty))};
  return {physics::extract_from_index(physics::refractive_index(balance, t, optics), t, optics,
                                      ethanol),
          ethanol};
}

RefractiveIndex seen(World& world, const Liquid& liquid, double t_c,
                     const physics::ExtractOptics& optics) {
  const Temperature t = celsius_point(t_c);
  return RefractiveIndex{physics::refractive_index(liquid, t, optics).value() +
                         world.normal(physics::refractive_index_model_uncertainty(liquid, t))};
}

TEST(Coverage, RefractometerWithOriginalGravity) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  int held = 0;
  for (int i = 0; i < cases; ++i) {
    const Ferment f = draw_ferment(world);
    const auto optics = true_optics(world);
    const Liquid truth = off_balance(world, f.balance, optics);
    Prism prism{world};
    Stem stem{world};
    const double then_c = world.uniform(15, 25), now_c = world.uniform(15, 25);
    const bool by_stem = i % 2 == 0;
    const measurement::OriginalSample original =
        by_stem ? measurement::OriginalSample{stem.reads(
                      physics::density({f.original}, celsius_point(then_c)), then_c)}
                : prism.reads(seen(world, {f.original}, then_c, optics), then_c);
    const auto present = prism.reads(seen(world, f.balance, now_c, optics), now_c);
    const auto a = measurement::refract_fermenting(present, original, mixed());
    held += a.state != Fermentation::above && holds(a, truth) ? 1 : 0;
  }
  RecordProperty("held", held);
  EXPECT_GE(held, least * cases);
  EXPECT_LE(held, most * cases);
}

TEST(Coverage, RefractometerWithHydrometer) {
  Draws draws;
  SCOPED_TRACE(draws.trace());
  World world{draws};
  int held = 0;
  for (int i = 0; i < cases; ++i) {
    const Liquid truth = draw_ferment(world).balance;
    const auto optics = true_optics(world);
    Prism prism{world};
    Stem stem{world};
    const double n_c = world.uniform(15, 25), rho_c = world.uniform(15, 25);
    const Density rho = physics::density(truth, celsius_point(rho_c)) +
                        kg_per_m3(world.normal(physics::density_model_uncertainty(truth)));
    const auto a = measurement::refract_with_hydrometer(
        prism.reads(seen(world, truth, n_c, optics), n_c), stem.reads(rho, rho_c), mixed());
    held += holds(a, truth) ? 1 : 0;
  }
  RecordProperty("held", held);
  EXPECT_GE(held, least * cases);
  EXPECT_LE(held, most * cases);
}

}  // namespace
}  // namespace areo::property
