// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What to add to a reading at each temperature, as a grid: for a table and for a card.
#include "areo/measurement/refract.hpp"
#include "areo/measurement/temperature_table.hpp"
#include "areo/notebook/record.hpp"
#include "table_axis.hpp"

namespace areo::paper {

/// Temperatures down the side, readings across the top; without title and words. A cell is empty
/// where there is no such liquid.
/// @param most_decimals  of what is to be added
/// @throws Error{domain} for a mark off the instrument's scale
[[nodiscard]] Grid temperature_grid(const measurement::Calibrated& instrument,
                                    const TemperatureAxis& side, const MarkAxis& top,
                                    StrengthByVolume alcohol, int most_decimals);
/// The same for a refractometer without temperature compensation.
/// @param top  in Brix
/// @throws Error{domain} additionally for temperatures outside 10 °C .. 30 °C
[[nodiscard]] Grid temperature_grid(const measurement::CalibratedRefractometer& instrument,
                                    const TemperatureAxis& side, const Axis& top,
                                    const measurement::ExtractKind& kind, int most_decimals);

/// "5", "5%vol"; none if empty.
[[nodiscard]] StrengthByVolume strength_from_text(const std::string& text);

/// Marks from one end of a scale to the other, so many parts, each on a division: "0.990,1.012".
[[nodiscard]] std::string marks_of(const notebook::Graduation& scale, int parts);

/// Those that a sugar liquid can show: a scale may be longer.
[[nodiscard]] std::string possible_marks(const std::string& marks, const physics::Scale& scale);

}  // namespace areo::paper
