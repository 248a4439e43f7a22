// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The table of a card, for each kind of instrument.
#include "areo/paper/card.hpp"

namespace areo::paper {

/// What to add: by temperature and reading, or by reading alone where the temperature of the liquid
/// changes nothing. With its caption, and what its uncertainty is of.
/// @param kind  of extract; for a refractometer
/// @throws Error{inconsistent} for a refractometer with an index scale
[[nodiscard]] Grid card_grid(const CardSubject& subject, const CardSides& sides,
                             const measurement::ExtractKind& kind);
/// What a card says in large words: of a refractometer at 20 °C for its kind of extract, as the
/// table has it; else by its calibration.
/// @param readings  as readings_of()
[[nodiscard]] std::vector<CardOffset> card_offsets(const CardSubject& subject,
                                                   const measurement::ExtractKind& kind,
                                                   const std::vector<double>& readings);
/// The readings that it has entries for, ascending.
[[nodiscard]] std::vector<double> readings_of(const Grid& grid);

}  // namespace areo::paper
