#include "areo/trend/outlier.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "form_fit.hpp"

namespace areo::trend {
namespace {

// Number of the largest, whatever its sign.
std::size_t largest(const std::vector<double>& residuals) {
  const auto by_size = [](double a, double b) { return std::abs(a) < std::abs(b); };
  return static_cast<std::size_t>(std::max_element(residuals.begin(), residuals.end(), by_size) -
                                  residuals.begin());
}

}  // namespace

std::vector<Outlier> outliers_of(const Series& series, double near) {
  const std::size_t most = std::max<std::size_t>(1, series.size() / 5);
  std::vector<Outlier> found;
  std::vector<std::size_t> kept(series.size());
  std::iota(kept.begin(), kept.end(), 0);
  while (kept.size() >= least_points) {
    const Series rest = series.only(kept);
    const std::vector<Candidate> forms = candidates(rest, near);
    if (forms.empty()) break;
    const auto off = [&](std::size_t point) {
      return series.gravity[point] - forms.front().gravity(series.days[point]);
    };
    for (Outlier& o : found) o.off = off(o.point);
    const std::vector<double> residuals = studentized(forms.front());
    const std::size_t oddest = largest(residuals);
    if (std::abs(residuals[oddest]) <= odd_residual) break;
    if (found.size() == most) return {};
    found.push_back({kept[oddest], off(kept[oddest])});
    kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(oddest));
  }
  return found;
}

}  // namespace areo::trend
