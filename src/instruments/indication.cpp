// SPDX-License-Identifier: GPL-3.0-or-later
#include "indication.hpp"

#include <utility>

namespace areo::instruments {

uncertainty::InputRef add_indication(uncertainty::Inputs& inputs, const std::string& of,
                                     const IndicationRead& r) {
  const bool stated = r.half_width > 0;
  const double half_width = stated ? r.half_width : r.division / 2;
  const auto add = [&](uncertainty::Input input) {
    input.thing = r.identity;
    input.what = "reading";
    input.of = of;
    return inputs.add(from(r.origin, std::move(input), half_width));
  };
  if (r.repeated) {
    uncertainty::Input mean =
        uncertainty::normal("reading of " + of, uncertainty::unit_of_scale, r.indication,
                            r.repeated->u, r.repeated->provenance);
    mean.degrees_of_freedom = r.repeated->degrees_of_freedom;
    if (r.repeated->type_a) {
      mean.type = uncertainty::Evaluation::type_a;
      mean.shape = uncertainty::Distribution::student_t;
    }
    return add(std::move(mean));
  }
  // What is estimated to ± half a division is noted in steps of that size.
  return add(uncertainty::triangular(
      "reading of " + of, uncertainty::unit_of_scale, r.indication, half_width,
      stated ? "as stated or as coarse as it was typed" : "read by eye to half a division"));
}

}  // namespace areo::instruments
