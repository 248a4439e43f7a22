#pragma once
// From rows of the notebook to corrections: always computed anew from what was read.
#include <span>

#include "areo/calibration/check.hpp"
#include "areo/calibration/fit.hpp"
#include "areo/notebook/store.hpp"

namespace areo::notebook {

/// What a check says by today's models.
[[nodiscard]] calibration::Check evaluate(const InstrumentRecord& instrument,
                                          const CheckRecord& check);

/// The correction that these checks support.
[[nodiscard]] calibration::CorrectionFit fit(const InstrumentRecord& instrument,
                                             std::span<const CheckRecord> checks);

/// The correction in force at a moment; if there is none, that of an instrument never checked.
[[nodiscard]] instruments::Correction correction_in_force(const Notebook& notebook,
                                                          const InstrumentRecord& instrument,
                                                          Moment at);

}  // namespace areo::notebook
