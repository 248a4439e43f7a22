// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/notebook/instrument_history.hpp"

#include "areo/notebook/recompute.hpp"

namespace areo::notebook {

const InstrumentRecord& InstrumentHistory::instrument(Id id) {
  const auto known = instruments_.find(id);
  if (known != instruments_.end()) return known->second;
  return instruments_.emplace(id, notebook_->instrument(id)).first->second;
}

const std::vector<CalibrationRecord>& InstrumentHistory::calibrations(Id id) {
  const auto known = calibrations_.find(id);
  if (known != calibrations_.end()) return known->second;
  retirements_.emplace(id, notebook_->retired(id));
  return calibrations_.emplace(id, notebook_->calibrations(id)).first->second;
}

std::optional<Id> InstrumentHistory::calibration(Id id, Moment at) {
  const CalibrationRecord* holds = notebook::in_force(calibrations(id), at);
  return holds != nullptr ? std::optional{holds->id} : std::nullopt;
}

void InstrumentHistory::hold(Id id, const std::optional<Id>& calibration) {
  const InstrumentRecord& held = instrument(id);
  for (const CalibrationRecord& c : calibrations(id))
    if (c.id == calibration) {
      held_.emplace(id, correction_of(*notebook_, held, c));
      return;
    }
  const Graduation g = held.graduation();
  held_.emplace(id, instruments::never_checked(g.division, g.lo, g.hi, g.length));
}

instruments::Correction InstrumentHistory::correction(Id id, Moment at) {
  if (held_ && held_->first == id) return held_->second;
  if (between_ == Between::interpolated)
    return interpolated_correction(*notebook_, instrument(id), at);
  const CalibrationRecord* holds = notebook::in_force(calibrations(id), at);
  if (holds == nullptr) return correction_in_force(*notebook_, instrument(id), at);
  const auto& retired = retirements_.at(id);
  const Version version{holds->id, at < holds->in_force_from, holds->due && at > *holds->due,
                        is_old(*holds, at), retired && at > retired->at};
  auto computed = corrections_.find(version);
  if (computed == corrections_.end())
    computed =
        corrections_.emplace(version, correction_in_force(*notebook_, instrument(id), at)).first;
  instruments::Correction c = computed->second;
  c.drift_part = drift_part(calibrations(id), *holds, at);
  return c;
}

instruments::TemperatureReading InstrumentHistory::temperature(Temperature reference,
                                                               const std::optional<double>& celsius,
                                                               double half_width_c,
                                                               const std::optional<Id>& thermometer,
                                                               Moment at) {
  if (!celsius) return instruments::assumed_temperature(reference);
  instruments::TemperatureReading t;
  t.indication_c = *celsius;
  t.half_width_c = half_width_c;
  if (thermometer) {
    const InstrumentRecord& named = instrument(*thermometer);
    t.provenance = "read from " + named.name();
    t.thermometer = *named.thermometer();
    t.correction = correction(*thermometer, at);
  }
  return t;
}

const uncertainty::Repeatability& InstrumentHistory::repeatability(Id id,
                                                                   const std::string& person) {
  const auto known = repeatabilities_.find({id, person});
  if (known != repeatabilities_.end()) return known->second;
  return repeatabilities_
      .emplace(std::pair{id, person},
               uncertainty::pooled_repeatability(notebook_->repeats(id, person)))
      .first->second;
}

}  // namespace areo::notebook
