// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The note of a kind that a result has.
#include <variant>

#include "areo/measurement/result.hpp"

namespace areo::measurement {

/// The first of this kind; nothing if there is none.
template <class Kind>
const Kind* note_of(const Result& r) {
  for (const Note& n : r.notes)
    if (const auto* found = std::get_if<Kind>(&n)) return found;
  return nullptr;
}

}  // namespace areo::measurement
