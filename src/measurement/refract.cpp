// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/refract.hpp"

#include <algorithm>
#include <numeric>
#include <optional>

#include "areo/core/error.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/physics/density_and_index.hpp"
#include "areo/physics/mixture.hpp"
#include "drink.hpp"
#include "index_model.hpp"
#include "original.hpp"
#include "readings.hpp"

namespace areo::measurement {
namespace {

using instruments::RefractionInputs;
using physics::Liquid;

using uncertainty::Point;

constexpr const char* the_sample = "the sample";

Point at_estimates(const std::vector<double>& values) { return Point{values}; }

// --- fermenting ---

// The drink on Balling's line; nothing if the present index is above the original.
// @param a_little_above  counts as a little less alcohol than none
std::optional<Liquid> drink_behind(ExtractFraction original, RefractiveIndex n, ModelTemperature t,
                                   const ExtractKind& kind, bool a_little_above) {
  const double most = physics::refractive_index({original}, t, kind.optics).value();
  if (!a_little_above && n.value() > most) return std::nullopt;
  // The index of a drink with the least ethanol that the balance is continued to.
  const Liquid least =
      ferment::fermented(original, EthanolFraction{physics::index_ethanol_range.lo});
  if (n.value() > physics::refractive_index(least, t, kind.optics).value()) return std::nullopt;
  return ferment::fermented_to_index(original, n, t, kind.optics);
}

// The present reading shows more than the original: only the two extracts can be said.
AlcoholResult above(const Readings& readings, const IndexModel& index, const SugarFormula& formula,
                    const OriginalInputs& original, const RefractionInputs& now) {
  AlcoholResult a;
  a.state = Fermentation::above;
  a.result = evaluate(readings,
                      [=](const Point& x) {
                        return std::vector{
                            formula.mark(x, physics::sg_20_20, original.at(x, &index, formula)),
                            formula.mark(x, physics::sg_20_20, index.extract(x, now))};
                      },
                      {{"sg_20_20_original", "original gravity", ""},
                       {"sg_20_20_present", "present gravity if unfermented", ""}});
  return a;
}

// --- two readings ---

// Sum of the squared shares of the inputs first .. last - 1 in the variance of quantity k.
double variance_of(const Result& result, std::size_t k, std::size_t first, std::size_t last) {
  const auto& s = result.shares[k];
  return std::accumulate(s.begin() + static_cast<std::ptrdiff_t>(first),
                         s.begin() + static_cast<std::ptrdiff_t>(last), 0.0,
                         [](double sum, double share) { return sum + share * share; });
}

note::Limits limits_of(const Result& result, std::size_t after_refractometer,
                       std::size_t after_hydrometer) {
  const double refractometer = variance_of(result, 0, 0, after_refractometer);
  const double hydrometer = variance_of(result, 0, after_refractometer, after_hydrometer);
  const double models = variance_of(result, 0, after_hydrometer, result.inputs.all().size());
  const double all = refractometer + hydrometer + models;
  return {refractometer / all, hydrometer / all, models / all};
}

}  // namespace

CalibratedRefractometer CalibratedRefractometer::never_checked(
    const instruments::Refractometer& r) {
  return {r, instruments::never_checked(r.division, r.lo, r.hi)};
}

Result refract(const RefractometerSample& sample, const ExtractKind& kind,
               std::span<const physics::Scale> to) {
  Readings readings;
  const auto reading = readings.add(sample.instrument, sample.reading, the_sample);
  const std::vector<double> middle = readings.inputs.estimates();
  const Point x0 = at_estimates(middle);
  const ExtractFraction about = extract_at(reading, x0, kind);
  const IndexModel index{readings.inputs, kind, {about}, reading.temperature(x0)};
  const SugarFormula formula{readings.inputs, about};
  const bool brix = sample.instrument.refractometer.scale == instruments::RefractometerScale::brix;
  std::vector<Label> labels{{"extract_percent", "extract", "% mass"}};
  if (brix) labels.push_back({"correction", "correction", "Brix"});
  labels.push_back(label_of(physics::density_20));
  labels.push_back(label_of(physics::sg_20_20));
  for (const physics::Scale& s : to) labels.push_back(label_of(s));
  Result result = evaluate(
      readings,
      [=, scales = std::vector(to.begin(), to.end())](const Point& x) {
        const ExtractFraction extract = index.extract(x, reading);
        std::vector<double> out{plato(extract).value()};
        if (brix) out.push_back(plato(extract).value() - sample.reading.indication);
        out.push_back(formula.mark(x, physics::density_20, extract));
        out.push_back(formula.mark(x, physics::sg_20_20, extract));
        for (const physics::Scale& s : scales) out.push_back(formula.mark(x, s, extract));
        return out;
      },
      std::move(labels));
  add_notes(result.notes, sample, the_sample);
  add_remarks(result.notes, kind.remarks);
  return result;
}

AlcoholResult refract_fermenting(const RefractometerSample& present, const OriginalSample& original,
                                 const ExtractKind& kind, ferment::Culture culture) {
  return alcohol_of(present, Original{.readings = {original}, .kind = kind}, culture, the_sample);
}

AlcoholResult alcohol_of(const RefractometerSample& present, const Original& original,
                         ferment::Culture culture, const std::string& of) {
  const ExtractKind& kind = original.kind;
  Readings readings;
  const OriginalInputs start{readings, original};
  const auto now = readings.add(present.instrument, present.reading, of);
  const std::vector<double> middle = readings.inputs.estimates();
  const Point x0 = at_estimates(middle);
  if (!(start.estimate().value() > 0))
    throw Error{Errc::inconsistent,
                "the original reading is not above that of water: there was nothing to ferment",
                "check the reading, its temperature and the instrument's calibration"};
  const ModelTemperature t = now.temperature(x0);
  // Two instruments never agree to the last digit: only what lies above beyond its uncertainty is.
  const bool two_instruments =
      !original.additions.empty() ||
      std::any_of(original.readings.begin(), original.readings.end(), [](const auto& sample) {
        return std::holds_alternative<HydrometerSample>(sample);
      });
  const auto about_drink = drink_behind(start.estimate(), now.index(x0), t, kind, two_instruments);
  const Liquid about = about_drink.value_or(Liquid{start.estimate()});
  const IndexModel index{readings.inputs, kind, about, t};
  const SugarFormula formula{readings.inputs, start.estimate(), start.warmest()};
  AlcoholResult a;
  if (!about_drink) {
    a = above(readings, index, formula, start, now);
  } else {
    const DrinkMethod method{readings.inputs, culture};
    const DrinkDensity density{readings.inputs, physics::ethanol_model_uncertainty(about)};
    a.result = evaluate(
        readings,
        [=](const Point& x) {
          const ExtractFraction oe = start.at(x, &index, formula);
          const Liquid drink =
              method.drink(x, oe, index.index(x, now), now.temperature(x), index.optics(x));
          return drink_outputs(x, formula, oe, drink, density.excess(x));
        },
        drink_labels());
    judge_real_extract(a.result);
    judge_strength(a.result);
    a.state = state_of(a.result, culture);
    const uncertainty::Value& strength = a.result.at("alcohol_percent_vol").value;
    if (strength.estimate < -strength.expanded()) a = above(readings, index, formula, start, now);
  }
  add_notes(a.result.notes, original);
  add_notes(a.result.notes, present, of);
  add_remarks(a.result.notes, kind.remarks);
  add_clean_yeast(a, culture,
                  [&] { return alcohol_of(present, original, ferment::Culture::yeast, of); });
  return a;
}

AlcoholResult refract_with_hydrometer(const RefractometerSample& refraction,
                                      const HydrometerSample& density, const ExtractKind& kind) {
  Readings readings;
  const auto prism = readings.add(refraction.instrument, refraction.reading, "the refraction");
  const std::size_t after_refractometer = readings.inputs.all().size();
  const auto stem = readings.add(density.instrument, density.reading, "the gravity");
  const std::size_t after_hydrometer = readings.inputs.all().size();
  const std::vector<double> middle = readings.inputs.estimates();
  const Point x0 = at_estimates(middle);
  require_drink_temperature(density.reading.temperature);
  const Liquid about = physics::liquid_from_density_and_index(
      [&](EthanolFraction a) { return stem.density(x0, a); }, stem.temperature(x0), prism.index(x0),
      prism.temperature(x0), kind.optics);
  const IndexModel index{readings.inputs, kind, about, prism.temperature(x0)};
  const DrinkDensity density_formula{readings.inputs, physics::density_model_uncertainty(about)};
  const DrinkMethod method{readings.inputs};
  const SugarFormula formula{readings.inputs, ferment::original_extract(about)};
  AlcoholResult a;
  a.result = evaluate(
      readings,
      [=](const Point& x) {
        const Density excess = density_formula.excess(x);
        const Liquid drink = physics::liquid_from_density_and_index(
            [&](EthanolFraction p) { return stem.density(x, p) - excess; }, stem.temperature(x),
            index.index(x, prism), prism.temperature(x), index.optics(x));
        return drink_outputs(x, formula, method.original(x, drink), drink, excess);
      },
      drink_labels());
  judge_strength(a.result);
  const uncertainty::Value& strength = a.result.at("alcohol_percent_vol").value;
  if (strength.estimate < -strength.expanded())
    a.state = Fermentation::contradiction;
  else if (strength.estimate <= strength.expanded())
    a.state = Fermentation::no_change;
  add_notes(a.result.notes, density.instrument, density.reading, "the gravity");
  add_notes(a.result.notes, refraction, "the refraction");
  add_remarks(a.result.notes, kind.remarks);
  a.result.notes.emplace_back(limits_of(a.result, after_refractometer, after_hydrometer));
  return a;
}

}  // namespace areo::measurement
