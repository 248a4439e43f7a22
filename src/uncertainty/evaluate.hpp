// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The measurement model at one point, refused if it gives no numbers.
#include <initializer_list>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "areo/uncertainty/propagate.hpp"

namespace areo::uncertainty {

/// @throws Error{domain} if an output is not finite; what the model throws
[[nodiscard]] std::vector<double> evaluate(const Model& model, std::span<const double> x);

/// The same with some inputs, given by number, at other values; nothing if the model does not reach
/// there, as at the edge of its range (water at 0 °C ± 0.3 °C). Leaves x as it was.
[[nodiscard]] std::optional<std::vector<double>> evaluate_moved(
    const Model& model, std::vector<double>& x,
    std::initializer_list<std::pair<std::size_t, double>> moves);

}  // namespace areo::uncertainty
