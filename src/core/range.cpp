// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/range.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <string>

#include "areo/core/error.hpp"
#include "areo/core/model_temperature.hpp"

namespace areo {
namespace {

constexpr const char* celsius = "°C";

std::string limits(const Range& r) {
  const std::string unit = r.unit.empty() ? "" : fmt::format(" {}", r.unit);
  return fmt::format("{}{} to {}{}", r.lo, unit, r.hi, unit);
}

// Rounded onto the range it would contradict the sentence that it stands in.
std::string outside_text(const Range& r, double v) {
  const std::string text = r.unit == celsius ? celsius_number_text(v) : number_text(v);
  return std::isfinite(v) && r.contains(std::strtod(text.c_str(), nullptr)) ? fmt::format("{}", v)
                                                                            : text;
}

}  // namespace

std::string number_text(double v) { return fmt::format("{:.6g}", v); }

std::string celsius_number_text(double c) {
  // The sum turns -0.04 into 0 without its sign.
  return std::isfinite(c) ? fmt::format("{:g}", std::round(c * 10) / 10 + 0.0)
                          : fmt::format("{}", c);
}

namespace detail {

void throw_outside(const Range& r, double v) {
  const std::string unit = r.unit.empty() ? "" : fmt::format(" {}", r.unit);
  throw Error{Errc::domain,
              fmt::format("{} is valid {} [{}]; got {}{}", r.quantity, limits(r), r.source,
                          outside_text(r, v), unit),
              std::string{r.hint}};
}

void throw_too_far_outside(const Range& r, double beyond) {
  throw Error{Errc::domain,
              fmt::format("{} is valid {} [{}]; what a reading may stand for reaches more than {} "
                          "{} beyond",
                          r.quantity, limits(r), r.source, beyond, r.unit),
              std::string{r.hint}};
}

}  // namespace detail
}  // namespace areo
