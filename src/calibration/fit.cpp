#include "areo/calibration/fit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/core/told_apart.hpp"
#include "areo/numeric/quantile.hpp"

namespace areo::calibration {
namespace {

constexpr double level = 0.95;

struct Points {
  std::vector<double> x, y, expected;
  numeric::Covariance v;
  double least_span;
  Points(const CheckSet& set, double span) : v{set.covariance}, least_span{span} {
    for (const Check& c : set.checks) {
      x.push_back(c.indication);
      expected.push_back(c.expected.estimate);
      y.push_back(c.correction.estimate);
    }
  }
  [[nodiscard]] std::size_t size() const { return x.size(); }
  [[nodiscard]] bool one_place() const {
    // Checks in one liquid stand at one place, whatever the instrument showed: a slope needs places
    // that lie further apart than a few divisions.
    const auto [least, most] = std::minmax_element(expected.begin(), expected.end());
    return *most - *least < least_span;
  }
  [[nodiscard]] Points without(std::size_t i) const {
    Points p = *this;
    for (auto* values : {&p.x, &p.y, &p.expected})
      values->erase(values->begin() + static_cast<std::ptrdiff_t>(i));
    p.v = v.without(i);
    return p;
  }
  [[nodiscard]] numeric::LineFit offset() const {
    return numeric::fit_offset(x, y, v, one_place() ? x.front() : line().x0);
  }
  [[nodiscard]] numeric::LineFit line() const {
    return numeric::fit_line(x, y, v, x.front()).centred();
  }
};

double normal_coverage() {
  return numeric::student_t_coverage(level, std::numeric_limits<double>::infinity());
}

bool significant(const numeric::LineFit& f) {
  return std::abs(f.slope) > normal_coverage() * std::sqrt(f.var_slope);
}

// The check without which the others agree best. Three checks on a line leave every residual
// equally large, whichever is bad; there the plainest explanation of the other two decides: an
// offset alone.
std::size_t most_suspect(const Points& p, bool slope_used) {
  std::size_t worst = 0;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Points rest = p.without(i);
    const bool line = slope_used && rest.size() > 2 && !rest.one_place();
    const double chi = (line ? rest.line() : rest.offset()).chi_squared;
    if (chi < least) {
      least = chi;
      worst = i;
    }
  }
  return worst;
}

}  // namespace

CorrectionFit fit_correction(const CheckSet& set, double division, double lo, double hi) {
  if (set.checks.empty())
    throw Error{Errc::domain, "a correction needs at least one check",
                "check the instrument in water first"};
  const Points p{set, one_place_divisions * division};
  CorrectionFit fit;
  fit.line = p.offset();
  // What is known of the slope without any check: the error may change by a division (the usual
  // tolerance) from one end of the scale to the other.
  const double u_usual_slope = division / std::sqrt(3.0) / (hi - lo);
  double u_slope = 0;
  if (p.size() == 1) {
    fit.reason = "one check: an offset only";
  } else if (p.one_place()) {
    fit.reason = "all checks at one place of the scale: an offset only";
  } else {
    const numeric::LineFit line = p.line();
    const double u_fitted = std::sqrt(line.var_slope);
    fit.u_slope_by_checks = u_fitted;
    fit.slope_used = significant(line);
    if (fit.slope_used) fit.line = line;
    // A slope that is not significant counts as zero, but not as exactly zero: within what the
    // checks and the usual tolerance together leave.
    u_slope =
        fit.slope_used ? u_fitted : u_fitted * u_usual_slope / std::hypot(u_fitted, u_usual_slope);
    fit.reason =
        fmt::format("slope {}: {}", beside_expanded(line.slope, normal_coverage() * u_fitted),
                    fit.slope_used ? "significant, used" : "not significant, an offset serves");
  }
  for (std::size_t i = 0; i < p.size(); ++i) fit.residuals.push_back(p.y[i] - fit.line.at(p.x[i]));
  if (fit.line.degrees_of_freedom > 0) {
    fit.chi_squared_limit = numeric::chi_squared_quantile(level, fit.line.degrees_of_freedom);
    fit.consistent = fit.line.chi_squared <= *fit.chi_squared_limit;
    if (!fit.consistent && p.size() > 2) fit.suspect = most_suspect(p, fit.slope_used);
  }
  const auto [first, last] = std::minmax_element(p.x.begin(), p.x.end());
  fit.correction = {.r0 = fit.line.x0,
                    .offset = fit.line.intercept,
                    .u_offset = std::sqrt(fit.line.var_intercept),
                    .slope = fit.slope_used ? fit.line.slope : 0,
                    .u_slope = u_slope,
                    .checked_lo = *first,
                    .checked_hi = *last,
                    .u_slope_beyond = fit.slope_used ? std::max(u_usual_slope, u_slope)
                                                     : std::sqrt(u_usual_slope * u_usual_slope -
                                                                 u_slope * u_slope),
                    .checks = static_cast<int>(p.size()),
                    .provenance = fmt::format("{} check{}", p.size(), p.size() == 1 ? "" : "s")};
  return fit;
}

Conformity judge(const instruments::Correction& c, double mpe) {
  const auto points = conformity_points(c, mpe);
  const auto is = [](Conformity verdict) {
    return [verdict](const ConformityPoint& p) { return p.verdict == verdict; };
  };
  if (std::any_of(points.begin(), points.end(), is(Conformity::outside)))
    return Conformity::outside;
  return std::all_of(points.begin(), points.end(), is(Conformity::within))
             ? Conformity::within
             : Conformity::cannot_tell;
}

std::vector<ConformityPoint> conformity_points(const instruments::Correction& c, double mpe) {
  std::vector<double> places{c.checked_lo};
  if (c.checked_hi != c.checked_lo) places.push_back(c.checked_hi);
  std::vector<ConformityPoint> points;
  for (const double r : places) {
    ConformityPoint p;
    p.indication = r;
    p.error = -c.at(r);
    p.expanded = normal_coverage() * c.uncertainty_at(r);
    p.least = std::max(std::abs(p.error) - p.expanded, 0.0);
    p.most = std::abs(p.error) + p.expanded;
    if (!(mpe > 0) || !std::isfinite(mpe) || !std::isfinite(p.most))
      throw Error{Errc::domain,
                  "a verdict needs a tolerance above zero and a correction in finite numbers"};
    if (p.least > mpe)
      p.verdict = Conformity::outside;
    else if (p.most <= mpe)
      p.verdict = Conformity::within;
    points.push_back(p);
  }
  return points;
}

}  // namespace areo::calibration
