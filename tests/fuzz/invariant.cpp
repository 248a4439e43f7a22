// SPDX-License-Identifier: GPL-3.0-or-later
#include "invariant.hpp"

namespace areo::fuzz {

Control& control() {
  static Control the_one;
  return the_one;
}

void require(bool holds, const std::string& invariant, std::string_view about) {
  Control& c = control();
  c.met.insert(invariant);
  if (holds != (c.denied == invariant)) return;
  throw Broken{"broken: " + invariant + (about.empty() ? "" : ": ") + std::string{about}};
}

}  // namespace areo::fuzz
