#include "areo/uncertainty/input.hpp"

#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "areo/core/error.hpp"

namespace areo::uncertainty {

Input normal(std::string name, std::string unit, double value, double u, std::string provenance) {
  return {.name = std::move(name),
          .unit = std::move(unit),
          .value = value,
          .u = u,
          .provenance = std::move(provenance)};
}

Input rectangular(std::string name, std::string unit, double value, double half_width,
                  std::string provenance) {
  Input in = normal(std::move(name), std::move(unit), value, half_width / std::sqrt(3.0),
                    std::move(provenance));
  in.shape = Distribution::rectangular;
  return in;
}

Input triangular(std::string name, std::string unit, double value, double half_width,
                 std::string provenance) {
  Input in = normal(std::move(name), std::move(unit), value, half_width / std::sqrt(6.0),
                    std::move(provenance));
  in.shape = Distribution::triangular;
  return in;
}

Input between(std::string name, std::string unit, double lo, double hi, std::string provenance) {
  return rectangular(std::move(name), std::move(unit), (lo + hi) / 2, (hi - lo) / 2,
                     std::move(provenance));
}

InputRef Inputs::add(Input input) {
  if (!std::isfinite(input.value) || !std::isfinite(input.u) || !(input.u >= 0) ||
      !(input.degrees_of_freedom >= 1))
    throw Error{Errc::domain,
                fmt::format("{}: needs a finite value, an uncertainty of zero or more and at least "
                            "one degree of freedom; got {} with u = {}",
                            input.name, input.value, input.u)};
  inputs_.push_back(std::move(input));
  return {inputs_.size() - 1};
}

void Inputs::correlate(InputRef a, InputRef b, double r) {
  if (a.index >= inputs_.size() || b.index >= inputs_.size() || a.index == b.index ||
      !(r >= -1 && r <= 1))
    throw Error{Errc::domain, fmt::format("a correlation joins two inputs by -1 .. 1; got {}", r)};
  correlations_.push_back({a, b, r});
}

std::vector<double> Inputs::estimates() const {
  std::vector<double> values;
  values.reserve(inputs_.size());
  for (const Input& in : inputs_) values.push_back(in.value);
  return values;
}

}  // namespace areo::uncertainty
