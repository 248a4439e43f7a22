#include "areo/instruments/correction.hpp"

#include <cmath>
#include <utility>

#include "areo/core/error.hpp"

namespace areo::instruments {

double Correction::beyond(double indication) const {
  if (checks == 0) return 0;
  if (indication < checked_lo) return indication - checked_lo;
  if (indication > checked_hi) return indication - checked_hi;
  return 0;
}

double Correction::uncertainty_at(double indication) const {
  return std::hypot(u_offset, u_slope * (indication - r0), u_slope_beyond * beyond(indication));
}

Correction never_checked(double division, double lo, double hi) {
  if (!(division > 0) || !(lo < hi))
    throw Error{Errc::domain,
                "a scale needs a division above zero and a lower end below the upper"};
  const double u = division / std::sqrt(3.0);
  return {.r0 = (lo + hi) / 2,
          .u_offset = u,
          .u_slope = u / (hi - lo),
          .checked_lo = lo,
          .checked_hi = hi,
          .provenance = "never checked: error taken as within one division"};
}

double CorrectionInputs::at(const uncertainty::Point& x, double indication) const {
  return x[offset] + x[slope] * (indication - correction.r0) +
         x[beyond] * correction.beyond(indication);
}

CorrectionInputs add_correction(uncertainty::Inputs& inputs, const std::string& instrument,
                                const std::string& unit, const Correction& c,
                                uncertainty::Origin origin) {
  // What is taken as within a tolerance has limits; what was fitted to checks has none.
  const auto known = [&](std::string name, std::string in_unit, double value, double u) {
    uncertainty::Input input =
        uncertainty::normal(std::move(name), std::move(in_unit), value, u, c.provenance);
    if (c.checks == 0) input.shape = uncertainty::Distribution::rectangular;
    return from(origin, std::move(input));
  };
  return {
      c, inputs.add(known(instrument + ": offset of the scale", unit, c.offset, c.u_offset)),
      inputs.add(known(instrument + ": slope of the scale", "", c.slope, c.u_slope)),
      inputs.add(known(instrument + ": scale outside its checked range", "", 0, c.u_slope_beyond))};
}

}  // namespace areo::instruments
