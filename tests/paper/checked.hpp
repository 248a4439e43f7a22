// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Instruments in a notebook, with the checks that they were given.
#include <string>
#include <vector>

#include "areo/notebook/recompute.hpp"
#include "areo/paper/card.hpp"
#include "notebook/temporary.hpp"

namespace areo::paper {

using notebook::CheckMethod;
using notebook::CheckRecord;
using notebook::Id;

inline CheckRecord in_water(double reading, double t_c) {
  CheckRecord c = notebook::water_check(0, reading, "2026-03-01T10:00Z");
  c.temperature_c = t_c;
  return c;
}
inline CheckRecord in_sugar(double reading, double t_c, double sugar_g, double water_g) {
  CheckRecord c = in_water(reading, t_c);
  c.method = CheckMethod::sugar;
  c.solution = calibration::sugar_solution(sugar_g, water_g, 1);
  return c;
}
inline CheckRecord certified_point(double reading, double correction, double expanded) {
  CheckRecord c = in_water(reading, 20);
  c.method = CheckMethod::certificate;
  c.temperature_c.reset();
  c.water.reset();
  c.correction = correction;
  c.expanded = expanded;
  c.coverage_factor = 2;
  return c;
}

class Checked : public notebook::TemporaryFolder {
 protected:
  Checked() : book_{path(), notebook::Open::create} {}

  template <class Instrument>
  Id add(const Instrument& instrument) {
    notebook::InstrumentRecord r;
    r.instrument = instrument;
    r.added_at = moment_from_text("2026-02-28");
    return book_.add(r);
  }
  Id stem(const std::string& name, const physics::Scale& scale, double lo, double hi,
          double division) {
    instruments::Hydrometer h = instruments::ordinary_hydrometer(scale);
    h.name = name;
    h.lo = lo;
    h.hi = hi;
    h.division = division;
    return add(h);
  }
  Id prism(const std::string& name, bool compensated) {
    instruments::Refractometer r = *notebook::refractometer(name).refractometer();
    r.compensated = compensated;
    return add(r);
  }
  std::vector<Id> check(Id instrument, const std::vector<CheckRecord>& checks) {
    std::vector<Id> ids;
    for (CheckRecord c : checks) {
      c.instrument = instrument;
      ids.push_back(book_.add(c));
    }
    return ids;
  }
  Id put_in_force(Id instrument, const std::vector<Id>& checks, const char* due = nullptr) {
    notebook::CalibrationRecord r = notebook::calibration(instrument, checks, "2026-03-01T12:00Z");
    if (due != nullptr) r.due = moment_from_text(due);
    return book_.add(r);
  }
  [[nodiscard]] CardSubject subject(const std::string& name,
                                    const char* at = "2026-06-01T12:00Z") const {
    return card_subject(book_, book_.instrument(name), moment_from_text(at));
  }

  notebook::Notebook book_;
};

}  // namespace areo::paper
