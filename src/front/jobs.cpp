// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/front/jobs.hpp"

#include <array>

#include "areo/measurement/convert.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/measurement/temperature_table.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/wording/notes.hpp"

namespace areo {
namespace detail {
namespace {

// A conversion of an exact value, made one of a value that rests on inputs of its own: through the
// first input of the conversion, which is that value, by central difference as everywhere.
Evidence through(const Evidence& from, const measurement::Result& conversion,
                 const EvidenceOf& evidence, std::size_t quantity) {
  const measurement::Quantity& q = conversion.quantities[quantity];
  Evidence to = evidence(q.key);
  const double u = from.value.u;
  if (!(u > 0)) return to;
  std::vector<double> x = conversion.inputs.estimates();
  const auto at = [&](double value) {
    x[0] = value;
    return conversion.model(uncertainty::Point{x})[quantity];
  };
  const double share = (at(from.value.estimate + u) - at(from.value.estimate - u)) / 2;
  const std::array terms{Term{from, share / u}, Term{to, 1}};
  return sum(q.value.estimate, terms);
}

}  // namespace

std::string symbol_of(const physics::Scale& scale) { return physics::scale_unit(scale); }

std::vector<Evidence> converted(const Evidence& from, const physics::Scale& of,
                                std::span<const physics::Scale> to) {
  const measurement::Result result = measurement::convert(of, from.value.estimate, 0, to);
  const EvidenceOf evidence{result, Identity{}};
  std::vector<Evidence> all;
  for (std::size_t k = 0; k < to.size(); ++k) all.push_back(through(from, result, evidence, k));
  return all;
}

CorrectedNumbers corrected(const HydrometerReading& reading) {
  const measurement::HydrometerSample& sample = reading.sample();
  measurement::Result result = measurement::correct(sample.instrument, sample.reading, {});
  const EvidenceOf evidence{result, reading.identity()};
  return {evidence(physics::scale_key(sample.instrument.hydrometer.scale)), evidence("correction"),
          evidence("density_at_t_kg_m3"), wording::all_notes(result)};
}

Evidence temperature_correction(const measurement::Calibrated& stem, double mark, Temperature t,
                                StrengthByVolume alcohol) {
  const auto result = measurement::temperature_correction(stem, mark, t, alcohol);
  return EvidenceOf{result, Identity{}}("correction");
}

}  // namespace detail

Uncertain<StrengthByMass> by_mass(const Uncertain<StrengthByVolume>& strength) {
  const auto result = measurement::convert_strength(strength.value(), 0);
  const detail::EvidenceOf evidence{result, Identity{}};
  constexpr std::size_t mass = 1;
  return Uncertain<StrengthByMass>{detail::through(strength.evidence(), result, evidence, mass)};
}

Uncertain<StrengthByVolume> by_volume(const Uncertain<StrengthByMass>& strength) {
  const auto result = measurement::convert_strength(strength.value(), 0);
  const detail::EvidenceOf evidence{result, Identity{}};
  constexpr std::size_t volume = 0;
  return Uncertain<StrengthByVolume>{
      detail::through(strength.evidence(), result, evidence, volume)};
}

Refracted refract(const RefractometerReading& reading, const ExtractKind& kind) {
  const measurement::Result result = measurement::refract(reading.sample(), kind, {});
  const detail::EvidenceOf evidence{result, reading.identity()};
  return {Uncertain<Plato>{evidence("extract_percent")}, Uncertain<Gravity>{evidence("sg_20_20")},
          Uncertain<Density20>{evidence(physics::scale_key(physics::density_20))},
          wording::all_notes(result)};
}

Uncertain<DifferenceOf<Brix>> temperature_correction(const Refractometer<Brix>& prism, Brix mark,
                                                     Temperature t, const ExtractKind& kind) {
  const auto result =
      measurement::temperature_correction(prism.calibrated(), mark.value(), t, kind);
  return Uncertain<DifferenceOf<Brix>>{detail::EvidenceOf{result, Identity{}}("correction")};
}

}  // namespace areo
