#pragma once
// From rows of the notebook to corrections: always computed anew from what was read.
#include <span>
#include <vector>

#include "areo/calibration/check.hpp"
#include "areo/calibration/fit.hpp"
#include "areo/notebook/store.hpp"

namespace areo::notebook {

/// @throws Error{inconsistent} if this is no way to check this kind of instrument
void require_method(const InstrumentRecord& instrument, CheckMethod method);

/// What checks of an instrument say by today's models, evaluated together. A thermometer named in
/// a check counts with the correction it had when the check was made.
/// @param notebook  looked into for those thermometers only
/// @throws Error{inconsistent} if a check is none for this kind of instrument; Error{domain} as
///         calibration::Checks
[[nodiscard]] calibration::CheckSet evaluate(const Notebook& notebook,
                                             const InstrumentRecord& instrument,
                                             std::span<const CheckRecord> checks);

/// The correction that these checks support.
[[nodiscard]] calibration::CorrectionFit fit(const Notebook& notebook,
                                             const InstrumentRecord& instrument,
                                             std::span<const CheckRecord> checks);

/// The checks that a calibration names, in order of their time.
[[nodiscard]] std::vector<CheckRecord> checks_of(const Notebook& notebook,
                                                 const CalibrationRecord& calibration);

/// The correction in force at a moment; if there is none, that of an instrument never checked.
[[nodiscard]] instruments::Correction correction_in_force(const Notebook& notebook,
                                                          const InstrumentRecord& instrument,
                                                          Moment at);

}  // namespace areo::notebook
