// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/analysis/rounding.hpp"

#include <cmath>
#include <span>
#include <variant>
#include <vector>

#include "areo/analysis/difference.hpp"

namespace areo::analysis {
namespace {

// A reading of a stem, by the number of its input.
struct Rounded {
  std::size_t input;
  double half_width;
};

std::vector<Rounded> rounded_of(const measurement::Result& r) {
  std::vector<Rounded> all;
  for (const instruments::InstrumentUse& use : r.instruments) {
    const auto* h = std::get_if<instruments::Hydrometer>(&use.instrument);
    if (h == nullptr) continue;
    for (const auto& mark : use.marks) {
      const uncertainty::Input& eye = r.inputs.all()[mark.reading.index];
      // Where a width was stated the step is that one.
      if (eye.step == h->division / 2 && eye.u > 0)
        all.push_back({mark.reading.index, h->division / 2});
    }
  }
  return all;
}

uncertainty::Input input_of(const measurement::Result& r, const Rounded& rounded) {
  const uncertainty::Input& eye = r.inputs.all()[rounded.input];
  uncertainty::Input input = uncertainty::rectangular(
      "rounding of " + eye.name, eye.unit, 0, rounded.half_width, "noted in whole divisions");
  input.what = "rounding of " + eye.what;
  input.of = eye.of;
  return from(uncertainty::Origin::reading, std::move(input));
}

}  // namespace

double rounding(const measurement::Result& r, std::string_view key) {
  const std::span<const double> shares = analysis::shares_of(r, key);
  double square = 0;
  for (const Rounded& rounded : rounded_of(r)) {
    const double share = shares[rounded.input] / r.inputs.all()[rounded.input].u;
    const double u = share * input_of(r, rounded).u;
    square += u * u;
  }
  return std::sqrt(square);
}

measurement::Result with_rounding(measurement::Result r) {
  for (const Rounded& rounded : rounded_of(r)) {
    const uncertainty::Input input = input_of(r, rounded);
    const double ratio = input.u / r.inputs.all()[rounded.input].u;
    for (std::vector<double>& shares : r.shares) shares.push_back(shares[rounded.input] * ratio);
    (void)r.inputs.add(input);
  }
  return r;
}

}  // namespace areo::analysis
