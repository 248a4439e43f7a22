// SPDX-License-Identifier: GPL-3.0-or-later
#include "extract_options.hpp"

#include "usage.hpp"

namespace areo::cli {

void add_extract_options(const Command& c, entry::ExtractWords& o) {
  c.add_option("--extract", o.extract,
               "what is dissolved: mixed, sucrose, glucose, fructose, invert, maltose or malt; "
               "mixed unless stated, refracting as sugar does within 3 %")
      .type_name("WORD");
  c.add_option("--liquid", o.liquid, "a liquid with pairs of readings in the notebook")
      .type_name("NAME");
}

void check_extract_options(const entry::ExtractWords& o) {
  refuse_together(!o.extract.empty(), "--extract", !o.liquid.empty(), "--liquid",
                  "the liquid's own factor says what its extract does: leave --extract out");
}

}  // namespace areo::cli
