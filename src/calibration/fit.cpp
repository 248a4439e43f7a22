// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/calibration/fit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/core/told_apart.hpp"
#include "areo/numeric/polynomial.hpp"
#include "areo/numeric/quantile.hpp"

namespace areo::calibration {
namespace {

constexpr double level = 0.95;

struct Points {
  std::vector<double> x, y, expected;
  numeric::Covariance v;
  double least_span;
  Points(const CheckSet& set, double span) : v{weighing(set)}, least_span{span} {
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
  // How much of each correction the slope of the line is made of.
  [[nodiscard]] std::vector<double> slope_weights() const {
    const double middle = line().x0;
    std::vector<double> w = numeric::weights_at(x, v, 1, middle + 1);
    const std::vector<double> at_middle = numeric::weights_at(x, v, 1, middle);
    for (std::size_t i = 0; i < w.size(); ++i) w[i] -= at_middle[i];
    return w;
  }
};

double normal_coverage() {
  return numeric::student_t_coverage(level, std::numeric_limits<double>::infinity());
}

// Of a weighted sum of the checks' corrections: with a certificate's points erring together or
// apart, whichever is worse.
double variance_of(const CheckSet& set, const std::vector<double>& weights) {
  return std::max(set.covariance.variance_of(weights), weighing(set).variance_of(weights));
}

// What an offset owes to not knowing what the scale was made for, as one standard uncertainty of
// that, with its sign.
double surface_share(const CheckSet& set, const std::vector<double>& weights) {
  if (!set.made_for) return 0;
  double sum = 0;
  for (std::size_t i = 0; i < weights.size(); ++i)
    sum += weights[i] * set.shares[i].at(set.made_for->index);
  return sum;
}

// How ill the checks go together: chi-squared about the line that they and what is usual of a slope
// make, the slope's own misfit with it as one more observation; or about their own line, if its
// slope stands by itself: more than usual, or significant and known three times better than that.
struct Misfit {
  double chi_squared;
  bool by_itself;
};
Misfit misfit(const numeric::LineFit& line, double u_fitted, double u_usual) {
  constexpr double much_better = 1.0 / 3;
  const double slope = line.slope / std::hypot(u_fitted, u_usual);
  const bool known = u_fitted < much_better * u_usual;
  if (std::abs(known ? line.slope / u_fitted : slope) > normal_coverage())
    return {line.chi_squared, true};
  return {line.chi_squared + slope * slope, false};
}

// The check without which the others agree best. Three checks leave two, which are on a line
// whichever is bad; there the plainest explanation of the two decides: the least slope.
std::size_t most_suspect(const Points& p, double u_usual) {
  std::size_t worst = 0;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Points rest = p.without(i);
    double chi = rest.offset().chi_squared;
    if (!rest.one_place() && rest.size() > 2) {
      const numeric::LineFit line = rest.line();
      chi = misfit(line, std::sqrt(line.var_slope), u_usual).chi_squared;
    }
    if (chi < least) {
      least = chi;
      worst = i;
    }
  }
  return worst;
}

}  // namespace

const numeric::Covariance& weighing(const CheckSet& set) {
  return set.apart.size() > 0 ? set.apart : set.covariance;
}

std::vector<double> weights_at(const CheckSet& set, const CorrectionFit& fit, double slope_weight,
                               double at) {
  std::vector<double> places;
  for (const Check& c : set.checks) places.push_back(c.indication);
  const numeric::Covariance& v = weighing(set);
  if (fit.slope_used) return numeric::weights_at(places, v, 1, at);
  std::vector<double> w = numeric::weights_at(places, v, 0, at);
  if (slope_weight == 0) return w;
  const auto there = numeric::weights_at(places, v, 1, at);
  const auto middle = numeric::weights_at(places, v, 1, fit.correction.r0);
  for (std::size_t i = 0; i < w.size(); ++i) w[i] += slope_weight * (there[i] - middle[i]);
  return w;
}

CorrectionFit fit_correction(const CheckSet& set, double division, double length) {
  if (set.checks.empty())
    throw Error{Errc::domain, "a correction needs at least one check",
                "check the instrument in water first"};
  const Points p{set, one_place_divisions * division};
  CorrectionFit fit;
  fit.line = p.offset();
  const double u_usual_slope = instruments::usual_slope(division, length);
  double u_slope = 0;
  double slope = 0;
  if (p.size() == 1) {
    fit.reason = "one check: an offset only";
  } else if (p.one_place()) {
    fit.reason = "all checks at one place of the scale: an offset only";
  } else {
    const numeric::LineFit line = p.line();
    const double u_fitted = std::sqrt(variance_of(set, p.slope_weights()));
    fit.u_slope_by_checks = u_fitted;
    const double u_both = std::hypot(u_fitted, u_usual_slope);
    const auto [chi_squared, by_itself] = misfit(line, u_fitted, u_usual_slope);
    fit.slope_used = by_itself;
    fit.slope_weight = fit.slope_used ? 1 : std::pow(u_usual_slope / u_both, 2);
    u_slope = fit.slope_used ? u_fitted : u_fitted * u_usual_slope / u_both;
    slope = fit.slope_weight * line.slope;
    if (fit.slope_used) fit.line = line;
    fit.line.chi_squared = chi_squared;
    fit.reason = fmt::format(
        "slope {}: {}", beside_expanded(line.slope, normal_coverage() * u_fitted),
        fit.slope_used
            ? "significant, used"
            : fmt::format("within what is usual, {:.0f} % of it used", 100 * fit.slope_weight));
  }
  if (fit.line.degrees_of_freedom > 0) {
    fit.chi_squared_limit = numeric::chi_squared_quantile(level, fit.line.degrees_of_freedom);
    fit.consistent = fit.line.chi_squared <= *fit.chi_squared_limit;
    if (!fit.consistent && p.size() > 2) fit.suspect = most_suspect(p, u_usual_slope);
  }
  const auto offset_weights = numeric::weights_at(p.x, p.v, fit.slope_used ? 1 : 0, fit.line.x0);
  const double u_surface = surface_share(set, offset_weights);
  const double variance = variance_of(set, offset_weights) - u_surface * u_surface;
  const auto [first, last] = std::minmax_element(p.x.begin(), p.x.end());
  fit.correction = {.r0 = fit.line.x0,
                    .offset = fit.line.intercept,
                    .u_offset = std::sqrt(std::max(variance, 0.0)),
                    .slope = slope,
                    .u_slope = u_slope,
                    .checked_lo = *first,
                    .checked_hi = *last,
                    .u_slope_beyond = fit.slope_used ? std::max(u_usual_slope, u_slope)
                                                     : std::sqrt(u_usual_slope * u_usual_slope -
                                                                 u_slope * u_slope),
                    .u_surface = u_surface,
                    .checks = static_cast<int>(p.size()),
                    .provenance = fmt::format("{} check{}", p.size(), p.size() == 1 ? "" : "s")};
  for (std::size_t i = 0; i < p.size(); ++i)
    fit.residuals.push_back(p.y[i] - fit.correction.at(p.x[i]));
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
      throw Error{
          Errc::domain,
          "a verdict needs a maximum permissible error above zero and a correction in finite "
          "numbers"};
    if (p.least > mpe)
      p.verdict = Conformity::outside;
    else if (p.most <= mpe)
      p.verdict = Conformity::within;
    points.push_back(p);
  }
  return points;
}

}  // namespace areo::calibration
