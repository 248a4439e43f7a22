#include "instruments/indication.hpp"

namespace areo::instruments {

uncertainty::InputRef add_indication(uncertainty::Inputs& inputs, const std::string& of,
                                     const IndicationRead& r) {
  const bool stated = r.half_width > 0;
  const double half_width = stated ? r.half_width : r.division / 2;
  // What is estimated to ± half a division is noted in steps of that size.
  return inputs.add(
      from(r.origin,
           uncertainty::triangular("reading of " + of, "scale", r.indication, half_width,
                                   stated ? "as stated or as coarse as it was typed"
                                          : "read by eye to half a division"),
           half_width));
}

}  // namespace areo::instruments
