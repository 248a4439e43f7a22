// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/instruments/correction.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
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
  const double at_r0 = std::hypot(u_offset, u_surface, drift_at(indication) / std::sqrt(3.0));
  return std::hypot(at_r0, u_slope * (indication - r0), u_slope_beyond * beyond(indication));
}

double Correction::drift_at(double indication) const {
  return drift_part * std::abs(drift_offset + drift_slope * (indication - r0));
}

bool same_knowledge(const Correction& a, const Correction& b) {
  return a.r0 == b.r0 && a.offset == b.offset && a.u_offset == b.u_offset && a.slope == b.slope &&
         a.u_slope == b.u_slope && a.u_slope_beyond == b.u_slope_beyond &&
         a.u_surface == b.u_surface && a.drift_offset == b.drift_offset &&
         a.drift_slope == b.drift_slope && a.checked_lo == b.checked_lo &&
         a.checked_hi == b.checked_hi && a.checks == b.checks && a.provenance == b.provenance;
}

double usual_slope(double division, double length) {
  if (!(division > 0) || !(length > 0))
    throw Error{Errc::domain,
                "a scale needs a division above zero and a lower end below the upper"};
  return std::sqrt(2.0 / 3.0) * division / length;
}

Correction never_checked(double division, double lo, double hi, std::optional<double> length) {
  const double u_slope = usual_slope(division, length.value_or(hi - lo));
  return {.r0 = (lo + hi) / 2,
          .u_offset = division / std::sqrt(3.0),
          .u_slope = u_slope,
          .checked_lo = lo,
          .checked_hi = hi,
          .provenance = "never checked: error taken as within one division"};
}

namespace {

// A variance that depends on the reading as c0 + 2 c1 (R - origin) + c2 (R - origin)².
class Variance {
 public:
  explicit Variance(double origin) : origin_{origin} {}
  /// weight (constant² + slope² (R - centre)²)
  void add(double weight, double constant, double slope, double centre) {
    const double d = origin_ - centre;
    c0_ += weight * (constant * constant + slope * slope * d * d);
    c1_ += weight * slope * slope * d;
    c2_ += weight * slope * slope;
  }
  /// weight (a + s (R - origin))²
  void add_line(double weight, double a, double s) {
    c0_ += weight * a * a;
    c1_ += weight * a * s;
    c2_ += weight * s * s;
  }
  /// The same as u_offset² + u_slope² (R - r0)².
  void state(Correction& c) const {
    const double shift = c2_ > 0 ? -c1_ / c2_ : 0;
    c.r0 = origin_ + shift;
    c.u_offset = std::sqrt(std::max(c0_ + shift * c1_, 0.0));
    c.u_slope = std::sqrt(c2_);
  }

 private:
  double origin_, c0_ = 0, c1_ = 0, c2_ = 0;
};

}  // namespace

Correction interpolated(const Correction& before, const Correction& after, double weight) {
  if (!(weight >= 0 && weight <= 1))
    throw Error{Errc::domain,
                fmt::format("a moment between two others is 0 to 1 of the way; got {}", weight)};
  if (before.checks == 0 || after.checks == 0)
    throw Error{Errc::domain, "a correction between two others needs both, from checks"};
  if (weight == 0) return before;
  if (weight == 1) return after;
  const double w1 = 1 - weight;
  const double origin = before.r0;
  Variance v{origin};
  v.add(w1, before.u_offset, before.u_slope, before.r0);
  v.add(weight, after.u_offset, after.u_slope, after.r0);
  v.add_line(w1 * weight, after.at(origin) - before.offset, after.slope - before.slope);
  Correction c;
  c.checked_lo = std::max(before.checked_lo, after.checked_lo);
  c.checked_hi = std::min(before.checked_hi, after.checked_hi);
  const auto width = [](const Correction& b) { return b.checked_hi - b.checked_lo; };
  const bool narrower_before = width(before) < width(after);
  const Correction& wider = narrower_before ? after : before;
  if (width(c) >= width(wider) / 2) {
    c.u_slope_beyond =
        std::hypot(std::sqrt(w1) * before.u_slope_beyond, std::sqrt(weight) * after.u_slope_beyond);
  } else {
    // No reading is further outside a range than it is from the range's middle.
    const Correction& narrower = narrower_before ? before : after;
    v.add(narrower_before ? w1 : weight, 0, narrower.u_slope_beyond,
          (narrower.checked_lo + narrower.checked_hi) / 2);
    c.checked_lo = wider.checked_lo;
    c.checked_hi = wider.checked_hi;
    c.u_slope_beyond = std::sqrt(narrower_before ? weight : w1) * wider.u_slope_beyond;
  }
  v.state(c);
  c.offset = w1 * before.at(c.r0) + weight * after.at(c.r0);
  c.slope = w1 * before.slope + weight * after.slope;
  c.u_surface = w1 * before.u_surface + weight * after.u_surface;
  c.checks = before.checks + after.checks;
  c.provenance = fmt::format("{:.0f} % of the way in time from {} to {}", 100 * weight,
                             before.provenance, after.provenance);
  return c;
}

double CorrectionInputs::at(const uncertainty::Point& x, double indication) const {
  return x[offset] + x[slope] * (indication - correction.r0) +
         x[beyond] * correction.beyond(indication) +
         x[drift] * correction.drift_part *
             (correction.drift_offset + correction.drift_slope * (indication - correction.r0));
}

CorrectionInputs add_correction(uncertainty::Inputs& inputs, const Whose& whose,
                                const std::string& unit, const Correction& c,
                                uncertainty::Origin origin) {
  // What is taken as within a tolerance has limits; what was fitted to checks has none.
  const auto known = [&](std::string name, std::string in_unit, double value, double u) {
    uncertainty::Input input =
        uncertainty::normal(std::move(name), std::move(in_unit), value, u, c.provenance);
    if (c.checks == 0) input.shape = uncertainty::Distribution::rectangular;
    input.thing = whose.identity;
    return from(origin, std::move(input));
  };
  uncertainty::Input drift = uncertainty::rectangular(
      whose.name + ": change since it was checked", "of the last change", 0,
      c.drift_offset != 0 || c.drift_slope != 0 ? 1 : 0, "its last two calibrations");
  drift.thing = whose.identity;
  return {
      c, inputs.add(known(whose.name + ": offset of the scale", unit, c.offset, c.u_offset)),
      inputs.add(known(whose.name + ": slope of the scale", "", c.slope, c.u_slope)),
      inputs.add(known(whose.name + ": scale outside its checked range", "", 0, c.u_slope_beyond)),
      inputs.add(from(origin, std::move(drift)))};
}

}  // namespace areo::instruments
