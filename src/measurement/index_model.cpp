// SPDX-License-Identifier: GPL-3.0-or-later
#include "index_model.hpp"

#include "areo/physics/refraction.hpp"

namespace areo::measurement {

using uncertainty::Inputs;
using uncertainty::Origin;
using uncertainty::Point;

IndexModel::IndexModel(Inputs& inputs, const ExtractKind& kind, const physics::Liquid& about,
                       ModelTemperature t)
    : rise_{inputs.add(from(Origin::refraction,
                            uncertainty::normal("refraction of the extract (" + kind.name + ")",
                                                "relative to sucrose", kind.optics.relative_rise,
                                                kind.optics.uncertainty, kind.provenance)))},
      formula_{inputs.add(
          from(Origin::formula,
               uncertainty::normal("refractive index formula", "", 0,
                                   physics::refractive_index_model_uncertainty(about, t),
                                   "agreement with published tables; extract and alcohol "
                                   "together rest on the model")))} {}

RefractiveIndex IndexModel::index(const Point& x, RefractiveIndex read) const {
  return RefractiveIndex{read.value() - x[formula_]};
}

ExtractFraction IndexModel::extract(const Point& x,
                                    const instruments::RefractionInputs& reading) const {
  return physics::extract_from_index(index(x, reading), reading.temperature(x), optics(x));
}

ExtractFraction extract_at(const instruments::RefractionInputs& reading, const Point& x,
                           const ExtractKind& kind) {
  return physics::extract_from_index(reading.index(x), reading.temperature(x), kind.optics);
}

}  // namespace areo::measurement
