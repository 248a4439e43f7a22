// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Does somebody read nothing but whole divisions of a stem? Each reading was rounded to them then,
// which no scatter shows, as rounded readings repeat.
#include <span>
#include <vector>

#include "areo/batch/batch.hpp"
#include "areo/trend/series.hpp"

namespace areo::trend {

/// What was noted of one sample.
struct Noted {
  double divisions = 0;   ///< of its stem
  bool on_a_mark = true;  ///< as all its readings, without a width of their own

  Noted() = default;
  /// @param indication, division  of one reading, same unit
  Noted(double indication, double division);
};
/// Of a refractometer nothing is on a mark: its steps are no stem's.
[[nodiscard]] Noted noted_of(const batch::Sample& sample, notebook::InstrumentHistory& shelf);
/// Of all samples of a batch, in order of time.
[[nodiscard]] std::vector<Noted> noted_of(batch::Batch& batch);

/// Nothing lies between the marks. Or little does: what repeats counts once, and of four or more
/// that lie on marks there are three for each one that does not. Of somebody who reads halves, half
/// of them do not.
/// @param noted  in order of time
[[nodiscard]] bool in_whole_divisions(std::span<const Noted> noted);

/// Counts the rounding of a series of four points or more that was read so: as an error of its own
/// in each, and as what may hide a fall (Series::division).
/// @param noted     of each point
/// @param rounding  standard uncertainty of each, SG: a division over √12
void count_rounding(Series& series, std::span<const Noted> noted, std::span<const double> rounding);

}  // namespace areo::trend
