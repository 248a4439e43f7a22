// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A notebook with a hydrometer and a batch in it.
#include <string>

#include "areo/notebook/batch.hpp"
#include "areo/notebook/store.hpp"
#include "temporary.hpp"

namespace areo::notebook {

inline Moment day(const char* text) { return moment_from_text(text); }

inline BatchRecord batch(const std::string& name) {
  BatchRecord r;
  r.name = name;
  r.drink = "pear and thyme";
  r.culture = ferment::Culture::mixed;
  r.vessel = "jar";
  r.volume_typed = "5L";
  r.volume_l = 5;
  r.extract = "invert";
  r.started_at = day("2026-03-02T10:00:00+01:00");
  r.note = "first one";
  return r;
}

inline ReadingRecord reading(Id batch, Id instrument, double indication, const char* at) {
  ReadingRecord r;
  r.batch = batch;
  r.instrument = instrument;
  r.made_at = r.noted_at = day(at);
  r.typed = std::to_string(indication);
  r.indication = indication;
  r.temperature_typed = "21C";
  r.temperature_c = 21;
  return r;
}

inline Exclusion exclusion(bool excluded, const std::string& reason,
                           const char* at = "2026-03-09T10:00Z") {
  return {day(at), excluded, reason};
}

class Batches : public TemporaryFolder {
 protected:
  Batches() : book_{path(), Open::create} {
    stem_ = book_.add(hydrometer("stem-1"));
    pt1_ = book_.add(batch("PT-1"));
  }
  Id note(double indication, const char* at) {
    const ReadingRecord r = reading(pt1_, stem_, indication, at);
    return book_.add(std::span{&r, 1}).front();
  }
  Id amend(Id id, double indication, const char* at, const std::string& reason = "slipped digit") {
    ReadingRecord r = reading(pt1_, stem_, indication, at);
    r.amends = id;
    r.reason = reason;
    return book_.add(std::span{&r, 1}).front();
  }
  Notebook book_;
  Id stem_ = 0, pt1_ = 0;
};

}  // namespace areo::notebook
