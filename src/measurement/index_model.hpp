// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The models behind a refractive index: what the extract refracts, and how well the formula is
// known for a liquid like this one.
#include "areo/measurement/refract.hpp"
#include "areo/physics/mixture.hpp"

namespace areo::measurement {

class IndexModel {
 public:
  IndexModel(uncertainty::Inputs& inputs, const ExtractKind& kind, const physics::Liquid& about,
             ModelTemperature t);

  [[nodiscard]] physics::ExtractOptics optics(const uncertainty::Point& x) const {
    return {x[rise_], 0};
  }
  /// The index as the formula would give it for the sample.
  [[nodiscard]] RefractiveIndex index(const uncertainty::Point& x, RefractiveIndex read) const;
  [[nodiscard]] RefractiveIndex index(const uncertainty::Point& x,
                                      const instruments::RefractionInputs& reading) const {
    return index(x, reading.index(x));
  }
  [[nodiscard]] ExtractFraction extract(const uncertainty::Point& x,
                                        const instruments::RefractionInputs& reading) const;

 private:
  uncertainty::InputRef rise_, formula_;
};

/// The unfermented liquid that a reading stands for, without the uncertainty of the models.
[[nodiscard]] ExtractFraction extract_at(const instruments::RefractionInputs& reading,
                                         const uncertainty::Point& x, const ExtractKind& kind);

}  // namespace areo::measurement
