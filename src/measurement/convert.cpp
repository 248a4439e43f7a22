// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/convert.hpp"

#include <algorithm>
#include <optional>

#include "areo/core/error.hpp"
#include "areo/ferment/drink.hpp"
#include "areo/physics/ethanol.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/refraction.hpp"
#include "areo/physics/scale_name.hpp"
#include "drink.hpp"

namespace areo::measurement {
namespace {

using physics::Liquid;
using physics::Scale;
using physics::ScaleKind;
using uncertainty::Inputs;
using uncertainty::Origin;
using uncertainty::Point;

bool shows_composition(const Scale& s) {
  return s.kind == ScaleKind::plato || s.kind == ScaleKind::brix ||
         s.kind == ScaleKind::sugar_concentration;
}

// Scales that divide by the density of water.
bool shows_ratio(const Scale& s) { return !shows_composition(s) && s.kind != ScaleKind::density; }

// [sps4] against the hydrometer corrections of [nbsc440] to 40 °C: rms 0.05 kg/m³ where the sugar's
// share is about 180 kg/m³, over some 15 °C.
constexpr double expansion_relative_per_c = 2e-5;
constexpr double water_relative = 1e-6;

// [oimlr22] against [osborne1913]: 0.03 kg/m³, as a mass fraction where d rho / d p is about
// -180 kg/m³ (dilute) .. -250 kg/m³.
constexpr double ethanol_formula_kg_m3 = 0.03;
constexpr double ethanol_formula_percent = 0.015;

Result strength_result(const char* typed_unit, double value, double half_width,
                       double (*mass_percent)(double)) {
  Inputs inputs;
  const auto typed = inputs.add(
      from(Origin::typed, uncertainty::rectangular("strength as typed", typed_unit, value,
                                                   half_width, "half of the last digit")));
  const auto formula =
      inputs.add(from(Origin::formula, uncertainty::normal("ethanol density formula", "% mass", 0,
                                                           ethanol_formula_percent,
                                                           "[oimlr22] against [osborne1913]")));
  const auto model = [=](const Point& x) {
    // The formula links mass and volume: its error belongs to whichever was not typed.
    const double mass = mass_percent(x[typed]);
    const bool volume_typed = std::string_view{typed_unit} == "% vol";
    const EthanolFraction p{mass / 100};
    const double volume = physics::strength_by_volume(p).value();
    return std::vector{volume + (volume_typed ? 0 : x[formula]),
                       mass + (volume_typed ? x[formula] : 0),
                       volume * physics::pure_ethanol_density().value() / 100};
  };
  return evaluate(inputs, model,
                  {{"alcohol_percent_vol", "alcohol by volume", "% vol"},
                   {"alcohol_percent_mass", "alcohol by mass", "% mass"},
                   {"alcohol_g_l", "alcohol", "g/L"}});
}

}  // namespace

SugarFormula::SugarFormula(Inputs& inputs, ExtractFraction about, Temperature warmest)
    : error_{inputs.add(
          from(Origin::formula, uncertainty::normal("sucrose density formula", "relative", 0,
                                                    physics::sucrose_formula_uncertainty(about),
                                                    "agreement of [sps4] with printed tables")))},
      drift_{inputs.add(
          from(Origin::formula,
               uncertainty::normal(
                   "thermal expansion of the sugar solution", "1/°C", 0, expansion_relative_per_c,
                   "[sps4] against the hydrometer corrections of [nbsc440], 10 °C to 40 °C")))},
      water_{inputs.add(
          from(Origin::formula,
               uncertainty::normal("water density formula", "relative", 0, water_relative,
                                   "stated for [tanaka2001], from memory")))} {
  if (physics::degrees_hot(warmest.celsius()) > 0)
    hot_ = inputs.add(
        from(Origin::formula,
             uncertainty::normal("density of a hot liquid", "kg/m³/°C", 0,
                                 physics::hot_uncertainty_kg_m3_per_c,
                                 "per °C above 40 °C: [sps4] against [nbsc440] to 60 °C, and "
                                 "engineering judgement")));
}

double SugarFormula::relative_error(const Point& x, ModelTemperature t) const {
  return x[error_] + x[drift_] * (t.point() - physics::sg_20_20.reference()).value();
}

double SugarFormula::hot_error(const Point& x, ModelTemperature t) const {
  return hot_ ? x[*hot_] * physics::degrees_hot(t.celsius()) : 0;
}

ExtractFraction SugarFormula::extract(const Point& x, Density rho, ModelTemperature t) const {
  const Density water = physics::density(Liquid{}, t);
  const Density sugar = rho - water - kg_per_m3(hot_error(x, t));
  return physics::extract_from_density(water + sugar / (1 + relative_error(x, t)), t);
}

Liquid SugarFormula::liquid(const Point& x, const Scale& scale, double mark) const {
  if (shows_composition(scale)) return physics::liquid_from_mark(scale, mark);
  const double water = shows_ratio(scale) ? 1 + x[water_] : 1;
  return {extract(x, water * physics::density_from_mark(scale, mark), scale.reference())};
}

double SugarFormula::mark(const Point& x, const Scale& scale, ExtractFraction extract) const {
  if (shows_composition(scale)) return physics::mark_from_liquid(scale, {extract});
  const Temperature t = scale.reference();
  const Density water = physics::density(Liquid{}, t);
  const Density rho = water +
                      (physics::density({extract}, t) - water) * (1 + relative_error(x, t)) +
                      kg_per_m3(hot_error(x, t));
  return physics::mark_from_density(scale, shows_ratio(scale) ? rho / (1 + x[water_]) : rho);
}

Label label_of(const Scale& scale) {
  return {physics::scale_key(scale), physics::scale_name(scale), physics::scale_unit(scale)};
}

Label apparent_label_of(const Scale& scale) {
  Label label = label_of(scale);
  if (shows_composition(scale)) label.name = "apparent extract, " + label.name;
  return label;
}

// The drink's index ends at 75 %; that of sugar and water alone goes as far as its formula.
constexpr Range sugar_index_range{"extract mass fraction with an index", "",
                                  physics::index_extract_range.lo, physics::sucrose_index_range.hi,
                                  "icumsa1974"};

namespace {

constexpr double solver_rounding = 1e-9;  // at the mark of water

// The index at 20 °C of a liquid without alcohol, with what its formula leaves open.
class SugarIndex {
 public:
  static Label label() { return {"refractive_index_20", "index n20", ""}; }
  explicit SugarIndex(Inputs& inputs)
      // Of sugar and water at 20 °C it is the same whatever their shares.
      : index_{inputs.add(uncertainty::from(
            Origin::formula,
            uncertainty::normal("index formula", "", 0,
                                physics::refractive_index_model_uncertainty({}, celsius_point(20)),
                                "[icumsa1974] on the water of [iapws-r9-97]")))} {}
  [[nodiscard]] double of(const Point& x, ExtractFraction extract) const {
    return physics::index_from_brix_shown(brix(extract)).value() + x[index_];
  }

 private:
  uncertainty::InputRef index_;
};

class Potential {
 public:
  static Label label() { return {"potential_alcohol_percent_vol", "potential alcohol", "% vol"}; }
  explicit Potential(Inputs& inputs) : method_{inputs} {}
  [[nodiscard]] double of(const Point& x, ExtractFraction extract) const {
    return ferment::strength_by_volume(method_.dry(x, extract)).value();
  }
  // Whether all of it can ferment, by the formulas there are.
  static bool too_strong(ExtractFraction about) {
    return ferment::ethanol_from_extracts(about, ExtractFraction{0}) > physics::strongest_covered;
  }
  static bool exists(ExtractFraction about) {
    return about.value() >= -solver_rounding && !too_strong(about);
  }

 private:
  DrinkMethod method_;
};

bool wanted(std::span<const Beside> beside, Beside what) {
  return std::find(beside.begin(), beside.end(), what) != beside.end();
}

}  // namespace

std::string key_of(Beside what) {
  return what == Beside::refractive_index ? SugarIndex::label().key : Potential::label().key;
}

Result convert(const Scale& from, double mark, double half_width, std::span<const Scale> to) {
  return convert(from, mark, half_width, to, {});
}

Result convert(const Scale& from, double mark, double half_width, std::span<const Scale> to,
               std::span<const Beside> beside) {
  const Liquid about = physics::liquid_from_mark(from, mark);
  Inputs inputs;
  const auto typed = inputs.add(uncertainty::from(
      Origin::typed,
      uncertainty::rectangular("value as typed", physics::scale_unit(from), mark, half_width,
                               "half of the last digit that was typed")));
  Temperature warmest = from.reference();
  for (const Scale& s : to) warmest = std::max(warmest, s.reference());
  const SugarFormula formula{inputs, about.extract, warmest};
  std::vector<Label> labels;
  for (const Scale& s : to) labels.push_back(label_of(s));
  std::optional<SugarIndex> index;
  if (wanted(beside, Beside::refractive_index) &&
      sugar_index_range.contains(about.extract.value())) {
    index.emplace(inputs);
    labels.push_back(SugarIndex::label());
  }
  std::optional<Potential> potential;
  if (wanted(beside, Beside::potential_alcohol) && Potential::exists(about.extract)) {
    potential.emplace(inputs);
    labels.push_back(Potential::label());
  }
  Result result = evaluate(
      inputs,
      [=, scales = std::vector(to.begin(), to.end())](const Point& x) {
        const Liquid liquid = formula.liquid(x, from, x[typed]);
        std::vector<double> values;
        values.reserve(scales.size() + 2);
        // The same scale back again must be the same number, not one through a solver.
        for (const Scale& s : scales)
          values.push_back(s == from ? x[typed] : formula.mark(x, s, liquid.extract));
        if (index) values.push_back(index->of(x, liquid.extract));
        if (potential) values.push_back(potential->of(x, liquid.extract));
        return values;
      },
      std::move(labels));
  if (about.extract.value() < -solver_rounding) result.notes.emplace_back(note::BelowSugarScales{});
  if (potential) result.method_notes.emplace_back(note::PotentialAlcohol{});
  return result;
}

Result refractive_index_20(const Scale& from, double mark) {
  const Liquid about = physics::liquid_from_mark(from, mark);
  require(sugar_index_range, about.extract.value());
  Inputs inputs;
  const SugarFormula formula{inputs, about.extract};
  const SugarIndex index{inputs};
  return evaluate(inputs,
                  [=](const Point& x) {
                    return std::vector{index.of(x, formula.liquid(x, from, mark).extract)};
                  },
                  {SugarIndex::label()});
}

Result potential_alcohol(const Scale& from, double mark) {
  const Liquid about = physics::liquid_from_mark(from, mark);
  if (!(about.extract.value() >= -solver_rounding))
    throw Error{Errc::domain, "a liquid lighter than water has no sugar to ferment",
                "for a drink that has fermented: areo alcohol"};
  if (Potential::too_strong(about.extract)) throw physics::too_strong();
  Inputs inputs;
  const SugarFormula formula{inputs, about.extract};
  const Potential potential{inputs};
  return evaluate(inputs,
                  [=](const Point& x) {
                    return std::vector{potential.of(x, formula.liquid(x, from, mark).extract)};
                  },
                  {Potential::label()});
}

Result convert_strength(StrengthByVolume s, double half_width) {
  return strength_result("% vol", s.value(), half_width, [](double q) {
    return 100 * physics::ethanol_fraction(StrengthByVolume{q}).value();
  });
}

Result convert_strength(StrengthByMass s, double half_width) {
  return strength_result("% mass", s.value(), half_width, [](double percent) { return percent; });
}

Result ethanol_mixture(StrengthByVolume q, Temperature reference) {
  const EthanolFraction p = physics::ethanol_fraction(q, reference);
  Inputs inputs;
  const auto formula =
      inputs.add(from(Origin::formula, uncertainty::normal("ethanol density formula", "kg/m³", 0,
                                                           ethanol_formula_kg_m3,
                                                           "[oimlr22] against [osborne1913]")));
  const Scale in_air{ScaleKind::apparent_gravity, reference.celsius(), reference.celsius()};
  return evaluate(
      inputs,
      [=](const Point& x) {
        const double pure = physics::ethanol_density(EthanolFraction{1}, reference).value();
        // One water, as for every drink.
        const double rho =
            physics::density({ExtractFraction{0}, EthanolFraction{0}}, reference).value() +
            physics::detail::ethanol_increment(reference.celsius()).at(p.value()) + x[formula];
        // The strength stands; its mass follows from the density.
        return std::vector{q.value() * pure / rho, q.value() * pure / 100, rho,
                           physics::mark_from_density(in_air, kg_per_m3(rho))};
      },
      {{"alcohol_percent_mass", "alcohol by mass", "% mass"},
       {"alcohol_g_l", "alcohol", "g/L"},
       {"density_kg_m3", "density", "kg/m³"},
       {"sg_in_air", "SG in air", ""}});
}

}  // namespace areo::measurement
