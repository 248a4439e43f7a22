#pragma once
// From rows of the notebook to corrections: always computed anew from what was read.
#include <span>
#include <string_view>
#include <vector>

#include "areo/calibration/check.hpp"
#include "areo/calibration/fit.hpp"
#include "areo/calibration/liquid_factor.hpp"
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

/// How strongly a named liquid's extract refracts, from all pairs read of it that count; each
/// reading with the correction its instrument had then.
/// @throws Error{store} naming the nearest liquid if there is no pair; as
///         calibration::liquid_factor()
[[nodiscard]] calibration::LiquidFactor liquid_factor(const Notebook& notebook,
                                                      std::string_view liquid);
/// The same of given pairs, one of which may not be stored yet.
[[nodiscard]] calibration::LiquidFactor liquid_factor(const Notebook& notebook,
                                                      std::span<const LiquidPairRecord> pairs);

}  // namespace areo::notebook
