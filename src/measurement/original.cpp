// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/original.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "areo/calibration/solution.hpp"
#include "areo/core/error.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/physics/mixture.hpp"
#include "original.hpp"

namespace areo::measurement {
namespace {

using Substance = Addition::Substance;
using uncertainty::InputRef;
using uncertainty::Inputs;
using uncertainty::Origin;
using uncertainty::Point;

// kg/m³ is g/L.
double grams_per_litre(ExtractFraction extract) {
  return physics::density({extract}, celsius_point(20)).value();
}

InputRef add_volume(Inputs& inputs, const std::string& name, double litres) {
  return inputs.add(from(
      Origin::mass, uncertainty::rectangular(name, "L", litres, kitchen_volume_half_width * litres,
                                             "a kitchen volume, ± 5 %: engineering judgement")));
}

// The amount of an addition, in grams, given what a litre of it weighs.
using Mass = std::function<double(const Point&, double grams_per_litre)>;
Mass add_amount(Inputs& inputs, const Addition& a) {
  if (a.mass_g.has_value() == a.volume_l.has_value())
    throw Error{Errc::domain, fmt::format("{} has either a mass or a volume", a.name)};
  if (!(a.mass_g.value_or(1) > 0) || !(a.volume_l.value_or(1) > 0))
    throw Error{Errc::domain, fmt::format("the amount of {} is above zero", a.name)};
  if (a.volume_l) {
    const InputRef v = add_volume(inputs, "volume of " + a.name, *a.volume_l);
    return [v](const Point& x, double g_per_l) { return x[v] * g_per_l; };
  }
  const InputRef m = inputs.add(
      from(Origin::mass, uncertainty::triangular("mass of " + a.name, "g", *a.mass_g,
                                                 a.mass_half_width_g, "the balance, or as typed")));
  return [m](const Point& x, double) { return x[m]; };
}

// What a dry addition counts as extract, per gram.
InputRef add_share(Inputs& inputs, const Addition& a) {
  if (a.substance == Substance::sugar)
    return inputs.add(calibration::sucrose_in_white_sugar(a.name));
  if (a.substance == Substance::salt)
    return inputs.add(
        from(Origin::composition,
             uncertainty::rectangular("sugar as dense as " + a.name, "g/g", salt_as_sugar,
                                      salt_as_sugar_half_width, "densities of dilute solutions")));
  return inputs.add(
      from(Origin::composition,
           uncertainty::between("sugar as dense as " + a.name, "g/g", acid_as_sugar_lo,
                                acid_as_sugar_hi, "acetic to citric acid [crc102]")));
}

// A litre of crystals or powder is no amount that anybody weighed.
PartAt add_dry(Inputs& inputs, const Addition& a) {
  if (a.volume_l)
    throw Error{Errc::inconsistent, fmt::format("{} is weighed, not measured by volume", a.name),
                "give its mass"};
  const Mass mass = add_amount(inputs, a);
  const InputRef share = add_share(inputs, a);
  return [=](const Point& x, const IndexModel*, const SugarFormula*) {
    const double m = mass(x, 0);
    return Part{m, m * x[share]};
  };
}

PartAt add_water(Inputs& inputs, const Addition& a) {
  const Mass mass = add_amount(inputs, a);
  const double water = grams_per_litre(ExtractFraction{0});
  return [=](const Point& x, const IndexModel*, const SugarFormula*) {
    return Part{mass(x, water), 0};
  };
}

PartAt add_juice(Inputs& inputs, const Addition& a) {
  const Mass mass = add_amount(inputs, a);
  const InputRef extract = inputs.add(
      from(Origin::composition,
           uncertainty::rectangular("extract of " + a.name, "g/g", a.extract.value(),
                                    a.extract_half_width, "half of the last digit typed")));
  return [=](const Point& x, const IndexModel*, const SugarFormula*) {
    const double m = mass(x, grams_per_litre(ExtractFraction{x[extract]}));
    return Part{m, m * x[extract]};
  };
}

void require_readings(const Original& original) {
  if (original.readings.empty() && !original.weighed)
    throw Error{Errc::inconsistent, "no original gravity, so no figure for the alcohol",
                "read the original gravity before it ferments"};
}

}  // namespace

OriginalInputs::OriginalInputs(Readings& readings, const Original& original, const std::string& of)
    : kind_{original.kind} {
  require_readings(original);
  for (std::size_t i = 0; i < original.readings.size(); ++i) {
    const std::string name =
        original.readings.size() == 1 ? of : fmt::format("{}, sample {}", of, i + 1);
    if (const auto* h = std::get_if<HydrometerSample>(&original.readings[i])) {
      densities_.push_back(readings.add(h->instrument, h->reading, name));
      warmest_ = std::max(warmest_, instruments::estimated(h->reading.temperature));
      const std::vector<double> middle = readings.inputs.estimates();
      require_sugar_liquid(h->instrument, h->reading, densities_.back(), Point{middle});
    } else {
      const auto& r = std::get<RefractometerSample>(original.readings[i]);
      refractions_.push_back(readings.add(r.instrument, r.reading, name));
      refracted_ = true;
    }
  }
  if (original.readings.empty()) add(readings, *original.weighed);
  if (original.volume_l && !original.additions.empty())
    volume_ = add_volume(readings.inputs, "volume for " + of, *original.volume_l);
  for (const Addition& a : original.additions) add(readings, a, original);
  const std::vector<double> middle = readings.inputs.estimates();
  estimate_ = balanced(Point{middle}, nullptr, nullptr);
}

void OriginalInputs::add(Readings& readings, const WeighedSugar& w) {
  if (!(w.sugar_g > 0) || !(w.volume_l > 0))
    throw Error{Errc::domain, fmt::format("weighed sugar and its volume are above zero; got {} g "
                                          "and {} L",
                                          w.sugar_g, w.volume_l)};
  const bool water = w.volume == WeighedSugar::Volume::of_water;
  Inputs& inputs = readings.inputs;
  weighed_ = {
      w.volume,
      inputs.add(
          from(Origin::mass, uncertainty::triangular("mass of the weighed sugar", "g", w.sugar_g,
                                                     w.half_width_g, "the balance, or as typed"))),
      add_volume(inputs,
                 water ? "volume of the water that it went into" : "volume that it was made up to",
                 w.volume_l),
      inputs.add(calibration::sucrose_in_white_sugar("the weighed sugar"))};
}

void OriginalInputs::add(Readings& readings, const Addition& a, const Original& original) {
  if (!a.into_l && !original.volume_l)
    throw Error{Errc::inconsistent, fmt::format("{} went into an unknown volume", a.name),
                "state the volume of the batch, or what the addition went into"};
  Step step;
  if (a.into_l) step.into_l = add_volume(readings.inputs, "volume that took " + a.name, *a.into_l);
  step.part = part_of(readings, a);
  steps_.push_back(std::move(step));
}

PartAt OriginalInputs::part_of(Readings& readings, const Addition& a) {
  switch (a.substance) {
    case Substance::sugar:
    case Substance::salt:
    case Substance::acid: return add_dry(readings.inputs, a);
    case Substance::water: return add_water(readings.inputs, a);
    case Substance::juice: return add_juice(readings.inputs, a);
    case Substance::drink: return add_drink(readings, a);
  }
  throw Error{Errc::domain, "there is no such addition"};
}

// Carbon dioxide and yeast that left the other drink were in its original liquid too. Its volume is
// that of its original within 1.5 % at any stage; of its mass up to 1.0665 A is missing.
PartAt OriginalInputs::add_drink(Readings& readings, const Addition& a) {
  if (!a.drink) throw Error{Errc::domain, fmt::format("{} comes from no drink", a.name)};
  const Mass mass = add_amount(readings.inputs, a);
  const auto drink =
      std::make_shared<const OriginalInputs>(readings, *a.drink, "the original of " + a.name);
  refracted_ = refracted_ || drink->refracted();
  warmest_ = std::max(warmest_, drink->warmest());
  std::optional<InputRef> lost;
  if (a.mass_g) {
    const double most =
        ferment::balling_yield.mass_lost_per_ethanol() *
        ferment::ethanol_from_extracts(drink->estimate(), ExtractFraction{0}).value();
    lost = readings.inputs.add(
        from(Origin::composition,
             uncertainty::between("mass that left " + a.name + " as it fermented", "relative", 0,
                                  std::max(most, 0.0), "between nothing and all that can")));
  }
  return [=](const Point& x, const IndexModel* index, const SugarFormula* formula) {
    const ExtractFraction oe = drink->balanced(x, index, formula);
    const double m = mass(x, grams_per_litre(oe)) * (lost ? 1 + x[*lost] : 1);
    return Part{m, m * oe.value()};
  };
}

ExtractFraction OriginalInputs::weighed(const Point& x, const SugarFormula* formula) const {
  const double sucrose_g = x[weighed_->sugar_g] * x[weighed_->sucrose];
  if (weighed_->volume == WeighedSugar::Volume::of_water)
    return ExtractFraction{
        sucrose_g /
        (x[weighed_->sugar_g] + x[weighed_->volume_l] * grams_per_litre(ExtractFraction{0}))};
  const double concentration = sucrose_g / x[weighed_->volume_l];
  const physics::Liquid liquid =
      formula != nullptr ? formula->liquid(x, physics::sugar_g_l_20, concentration)
                         : physics::liquid_from_mark(physics::sugar_g_l_20, concentration);
  return liquid.extract;
}

ExtractFraction OriginalInputs::read(const Point& x, const IndexModel* index,
                                     const SugarFormula* formula) const {
  if (weighed_) return weighed(x, formula);
  double sum = 0;
  for (const auto& r : densities_)
    sum += (formula != nullptr ? formula->extract(x, r.density(x), r.temperature(x))
                               : extract_at(r, x))
               .value();
  for (const auto& r : refractions_)
    sum += (index != nullptr ? index->extract(x, r) : extract_at(r, x, kind_)).value();
  return ExtractFraction{sum / static_cast<double>(densities_.size() + refractions_.size())};
}

ExtractFraction OriginalInputs::balanced(const Point& x, const IndexModel* index,
                                         const SugarFormula* formula) const {
  ExtractFraction oe = read(x, index, formula);
  if (steps_.empty()) return oe;
  double mass = volume_ ? x[*volume_] * grams_per_litre(oe) : 0;
  for (const Step& step : steps_) {
    if (step.into_l) mass = x[*step.into_l] * grams_per_litre(oe);
    const Part part = step.part(x, index, formula);
    const double extract = oe.value() * mass + part.extract_g;
    mass += part.mass_g;
    oe = ExtractFraction{extract / mass};
  }
  return oe;
}

ExtractFraction OriginalInputs::at(const Point& x, const IndexModel* index,
                                   const SugarFormula& formula) const {
  return balanced(x, index, &formula);
}

void add_notes(std::vector<Note>& notes, const Original& original) {
  if (original.readings.empty() && original.weighed)
    notes.emplace_back(note::WeighedOriginal{*original.weighed});
  for (const OriginalSample& sample : original.readings) {
    if (const auto* h = std::get_if<HydrometerSample>(&sample))
      add_notes(notes, h->instrument, h->reading, the_original);
    else
      add_notes(notes, std::get<RefractometerSample>(sample), the_original);
    if (std::holds_alternative<RefractometerSample>(sample))
      add_remarks(notes, original.kind.remarks);
  }
  const auto not_sugar = [](const Addition& a) {
    return a.substance == Substance::salt || a.substance == Substance::acid;
  };
  if (std::any_of(original.additions.begin(), original.additions.end(), not_sugar))
    notes.emplace_back(note::SaltOrAcid{});
}

AlcoholResult alcohol(const OriginalSample& present, const Original& original,
                      ferment::Culture culture, const std::string& of) {
  return std::visit([&](const auto& sample) { return alcohol_of(sample, original, culture, of); },
                    present);
}

double seen_gravity(const OriginalSample& sample) {
  Readings readings;
  const OriginalInputs seen{readings, {.readings = {sample}}};
  return physics::mark_from_liquid(physics::sg_20_20, {seen.estimate()});
}

Result original_gravity(const Original& original, const std::string& of) {
  Readings readings;
  const OriginalInputs start{readings, original, of};
  const SugarFormula formula{readings.inputs, start.estimate(), start.warmest()};
  std::optional<IndexModel> index;
  if (start.refracted())
    index.emplace(readings.inputs, original.kind, physics::Liquid{start.estimate()},
                  celsius_point(20));
  Result result =
      evaluate(readings,
               [=](const Point& x) {
                 const ExtractFraction oe = start.at(x, index ? &*index : nullptr, formula);
                 return std::vector{formula.mark(x, physics::sg_20_20, oe), plato(oe).value()};
               },
               {{"sg_20_20_original", "original gravity", ""},
                {"original_extract_percent", "original extract", "% mass"}});
  add_notes(result.notes, original);
  return result;
}

}  // namespace areo::measurement
