#include "areo/core/range.hpp"

#include <fmt/format.h>

#include <string>

#include "areo/core/error.hpp"

namespace areo::detail {

void throw_outside(const Range& r, double v) {
  const std::string unit = r.unit.empty() ? "" : fmt::format(" {}", r.unit);
  throw Error{Errc::domain,
              fmt::format("{} is valid {}{} to {}{} [{}]; got {}{}", r.quantity, r.lo, unit, r.hi,
                          unit, r.source, v, unit),
              std::string{r.hint}};
}

}  // namespace areo::detail
