// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/corrected.hpp"

namespace areo::entry {

using measurement::note::Said;

Corrected corrected(ReadingResolver& resolver, const TypedGravity& typed,
                    const std::vector<physics::Scale>& to) {
  Corrected c{resolver.take(typed.reading, typed.temperature), {}};
  c.taken.reading = one_reading(c.taken.reading);
  auto& notes = c.result.notes;
  if (typed.original.empty()) {
    c.result = measurement::correct(c.taken.instrument, c.taken.reading, to);
  } else {
    const TakenReading start = resolver.take(typed.original, typed.original_temperature);
    c.result = measurement::correct_fermenting(c.taken.instrument, c.taken.reading,
                                               start.instrument, start.reading, to);
    if (!start.echo.empty()) notes.insert(notes.begin(), Said{"original gravity " + start.echo});
  }
  if (!c.taken.echo.empty()) notes.insert(notes.begin(), Said{c.taken.echo});
  return c;
}

}  // namespace areo::entry
