// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/analysis/difference.hpp"

#include <algorithm>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::analysis {
namespace {

// An error that an instrument or a formula makes in every ferment.
bool is_of_instruments(const uncertainty::Input& input) {
  using uncertainty::Origin;
  const Origin origin = input.origin;
  // The surface of a liquid is no property of an instrument; the one that a scale was made for is.
  if (origin == Origin::surface) return input.thing.has_value();
  return origin == Origin::thermometer || origin == Origin::calibration ||
         origin == Origin::glass || origin == Origin::meniscus || origin == Origin::stem ||
         origin == Origin::compensation || origin == Origin::formula;
}

bool same(const uncertainty::Input& a, const uncertainty::Input& b, Common common) {
  if (common == Common::instruments && !is_of_instruments(a)) return false;
  return a.value == b.value && a.u == b.u && a.thing == b.thing && a.name == b.name &&
         a.unit == b.unit && a.provenance == b.provenance;
}

// For each input of b its place among the inputs of a; past the end if it is of b alone.
std::vector<std::size_t> places(const measurement::Result& a, const measurement::Result& b,
                                Common common) {
  const auto all_a = a.inputs.all();
  std::vector<bool> taken(all_a.size());
  std::vector<std::size_t> found;
  for (const uncertainty::Input& input : b.inputs.all()) {
    std::size_t i = 0;
    while (i < all_a.size() && (taken[i] || !same(all_a[i], input, common))) ++i;
    if (i < all_a.size()) taken[i] = true;
    found.push_back(i);
  }
  return found;
}

}  // namespace

std::span<const double> shares_of(const measurement::Result& r, std::string_view key) {
  if (!r.inputs.correlations().empty())
    throw Error{Errc::domain, "results with correlated inputs cannot be compared"};
  const measurement::Quantity& q = r.at(key);
  return r.shares[static_cast<std::size_t>(&q - r.quantities.data())];
}

uncertainty::Value difference(const measurement::Result& a, const measurement::Result& b,
                              std::string_view key, Common common) {
  const std::span<const double> in_a = shares_of(a, key);
  const std::span<const double> in_b = shares_of(b, key);
  uncertainty::Inputs inputs;
  std::vector<double> shares;
  const auto take = [&](const uncertainty::Input& input, double share) {
    inputs.add(input);
    shares.push_back(share);
  };
  const auto all_a = a.inputs.all();
  std::vector<bool> shared(all_a.size());
  const std::vector<std::size_t> place = places(a, b, common);
  for (std::size_t j = 0; j < place.size(); ++j) {
    const std::size_t i = place[j];
    if (i < all_a.size()) shared[i] = true;
    take(b.inputs.all()[j], in_b[j] - (i < all_a.size() ? in_a[i] : 0));
  }
  for (std::size_t i = 0; i < all_a.size(); ++i)
    if (!shared[i]) take(all_a[i], -in_a[i]);
  return combined(b.at(key).value.estimate - a.at(key).value.estimate, shares, inputs);
}

bool has_risen(const uncertainty::Value& change) { return change.estimate > change.expanded(); }

double covariance(const measurement::Result& a, std::string_view key_of_a,
                  const measurement::Result& b, std::string_view key_of_b) {
  const std::span<const double> in_a = shares_of(a, key_of_a);
  const std::span<const double> in_b = shares_of(b, key_of_b);
  const std::vector<std::size_t> place = places(a, b, Common::ferment);
  double sum = 0;
  for (std::size_t j = 0; j < place.size(); ++j)
    if (place[j] < in_a.size()) sum += in_a[place[j]] * in_b[j];
  return sum;
}

}  // namespace areo::analysis
