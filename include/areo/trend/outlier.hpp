#pragma once
// Points of a series that lie off the curve which the others follow.
#include <cstddef>
#include <vector>

#include "areo/trend/series.hpp"

namespace areo::trend {

struct Outlier {
  std::size_t point = 0;  ///< number in the series
  double off = 0;         ///< SG: by how much it lies above the curve through the others
};

/// A studentized residual beyond this is odd [a usual limit, no source].
constexpr double odd_residual = 3;

/// One after the other, the oddest first; each is judged without those before it, as they draw the
/// curve to themselves. None if more than a fifth of the points would be odd: then the curve is no
/// judge of them. None, too, if no form goes through the series, or fewer than least_points are
/// left.
/// @param near as for outlook_of()
[[nodiscard]] std::vector<Outlier> outliers_of(const Series& series, double near);

}  // namespace areo::trend
