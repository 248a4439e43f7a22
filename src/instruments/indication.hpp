// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What the eye reads on a scale, as an input of a model: the same for every instrument with marks.
#include <optional>
#include <string>

#include "areo/core/identity.hpp"
#include "areo/instruments/repeated.hpp"
#include "areo/uncertainty/input.hpp"

namespace areo::instruments {

struct IndicationRead {
  double indication;
  double half_width;  ///< as stated; 0 = half a division
  double division;
  uncertainty::Origin origin;
  std::optional<Repeated> repeated{};  ///< then `indication` is its mean
  std::optional<Identity> identity{};  ///< of the reading
};
/// @param of  what was read, for the name of the input ("the original gravity")
[[nodiscard]] uncertainty::InputRef add_indication(uncertainty::Inputs& inputs,
                                                   const std::string& of, const IndicationRead& r);

}  // namespace areo::instruments
