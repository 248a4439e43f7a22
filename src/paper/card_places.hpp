// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The places of a scale that a card tells of.
#include <string>
#include <vector>

#include "areo/notebook/record.hpp"
#include "areo/physics/scale.hpp"

namespace areo::paper {

/// The places that are read most, bottom to top.
[[nodiscard]] std::vector<double> usual_places(const physics::Scale& scale);
/// Those of them that are on the instrument's scale, as they would be typed; of a short scale five
/// of its own.
[[nodiscard]] std::string places_on(const notebook::Graduation& scale, std::vector<double> places);

}  // namespace areo::paper
