// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// From rows of the notebook to corrections: always computed anew from what was read.
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "areo/calibration/check.hpp"
#include "areo/calibration/drift.hpp"
#include "areo/calibration/fit.hpp"
#include "areo/calibration/liquid_factor.hpp"
#include "areo/notebook/store.hpp"

namespace areo::notebook {

/// @throws Error{inconsistent} if this kind of instrument is not checked in this way
void require_method(const InstrumentRecord& instrument, CheckMethod method);

/// What checks of an instrument say by today's models, evaluated together. A thermometer named in
/// a check counts with the correction it had when the check was made.
/// @param notebook  looked into for those thermometers only
/// @throws Error{inconsistent} if a check does not suit this kind of instrument; Error{domain} as
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

/// The correction that a calibration is.
[[nodiscard]] instruments::Correction correction_of(const Notebook& notebook,
                                                    const InstrumentRecord& instrument,
                                                    const CalibrationRecord& calibration);

/// How much of the drift that two calibrations showed a later moment has to reckon with: the time
/// since the one that holds over the time between it and the one before, at most 1; 0 without one
/// before.
/// @param all  of one instrument, in order of their time
[[nodiscard]] double drift_part(std::span<const CalibrationRecord> all,
                                const CalibrationRecord& holds, Moment at);
/// Whether a calibration without a day for the next one is more than a year old.
[[nodiscard]] bool is_old(const CalibrationRecord& calibration, Moment at);

/// The correction in force at a moment; if there is none, that of an instrument never checked. Once
/// there was another calibration before, it may have changed since by as much as between the two
/// (Correction::drift_at()). Its remarks say if the instrument was checked only later, if the
/// calibration was due for a check before that moment or is more than a year old, and if the
/// instrument was retired before it.
[[nodiscard]] instruments::Correction correction_in_force(const Notebook& notebook,
                                                          const InstrumentRecord& instrument,
                                                          Moment at);

/// What counts with another correction by one set of an instrument's calibrations than by another.
/// @param before,after  of this instrument, in order of their time
[[nodiscard]] std::vector<ReadWith> changed(const Notebook& notebook,
                                            const InstrumentRecord& instrument,
                                            std::span<const CalibrationRecord> before,
                                            std::span<const CalibrationRecord> after);

/// As correction_in_force(), but between two calibrations as instruments::interpolated(), in time
/// from the day one comes into force to the day the next does. Before the first and after the last
/// one it is the correction in force, and its provenance and remarks say so.
[[nodiscard]] instruments::Correction interpolated_correction(const Notebook& notebook,
                                                              const InstrumentRecord& instrument,
                                                              Moment at);

/// What changed from one calibration of an instrument to another, their checks evaluated together.
[[nodiscard]] calibration::Drift drift(const Notebook& notebook, const InstrumentRecord& instrument,
                                       const CalibrationRecord& before,
                                       const CalibrationRecord& after);

/// What the corrections of the thermometers that these checks name remark, each once.
[[nodiscard]] std::vector<std::string> remarks_on_thermometers(const Notebook& notebook,
                                                               std::span<const CheckRecord> checks);

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
