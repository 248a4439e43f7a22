// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/measurement/result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "areo/core/error.hpp"

namespace areo::measurement {

const Quantity& Result::at(std::string_view key) const {
  const auto found = std::find_if(quantities.begin(), quantities.end(),
                                  [&](const Quantity& q) { return q.key == key; });
  if (found == quantities.end())
    throw Error{Errc::domain, fmt::format("the result has no quantity '{}'", key)};
  return *found;
}

Result evaluate(uncertainty::Inputs inputs, const uncertainty::Model& model,
                std::vector<Label> labels) {
  uncertainty::Propagation p = propagate(inputs, model);
  if (p.values.size() != labels.size())
    throw Error{Errc::domain, "a model has as many outputs as labels"};
  Result result;
  for (std::size_t k = 0; k < labels.size(); ++k)
    result.quantities.push_back({std::move(labels[k].key), std::move(labels[k].name),
                                 std::move(labels[k].unit), p.values[k]});
  result.inputs = std::move(inputs);
  result.model = model;
  result.shares = std::move(p.shares);
  return result;
}

Result evaluate(const instruments::Readings& readings, const uncertainty::Model& model,
                std::vector<Label> labels) {
  Result result = evaluate(readings.inputs, model, std::move(labels));
  result.instruments = readings.uses();
  return result;
}

}  // namespace areo::measurement
