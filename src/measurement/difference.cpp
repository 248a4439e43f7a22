#include "areo/measurement/difference.hpp"

#include <algorithm>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::measurement {
namespace {

bool same(const uncertainty::Input& a, const uncertainty::Input& b) {
  return a.value == b.value && a.u == b.u && a.name == b.name && a.unit == b.unit;
}

const std::vector<double>& shares_of(const Result& r, std::string_view key) {
  if (!r.inputs.correlations().empty())
    throw Error{Errc::domain, "results with correlated inputs cannot be compared"};
  const Quantity& q = r.at(key);
  return r.shares[static_cast<std::size_t>(&q - r.quantities.data())];
}

}  // namespace

uncertainty::Value difference(const Result& a, const Result& b, std::string_view key) {
  const std::vector<double>& in_a = shares_of(a, key);
  const std::vector<double>& in_b = shares_of(b, key);
  uncertainty::Inputs inputs;
  std::vector<double> shares;
  const auto take = [&](const uncertainty::Input& input, double share) {
    inputs.add(input);
    shares.push_back(share);
  };
  const auto all_a = a.inputs.all();
  std::vector<bool> taken(all_a.size());
  for (std::size_t j = 0; j < b.inputs.all().size(); ++j) {
    const uncertainty::Input& input = b.inputs.all()[j];
    std::size_t i = 0;
    while (i < all_a.size() && (taken[i] || !same(all_a[i], input))) ++i;
    if (i < all_a.size()) taken[i] = true;
    take(input, in_b[j] - (i < all_a.size() ? in_a[i] : 0));
  }
  for (std::size_t i = 0; i < all_a.size(); ++i)
    if (!taken[i]) take(all_a[i], -in_a[i]);
  return combined(b.at(key).value.estimate - a.at(key).value.estimate, shares, inputs);
}

}  // namespace areo::measurement
