#pragma once
// The course of a ferment as a curve, and where it leads.
#include <optional>
#include <string>
#include <vector>

#include "areo/numeric/curve.hpp"
#include "areo/trend/series.hpp"
#include "areo/uncertainty/monte_carlo.hpp"

namespace areo::trend {

/// How the consumed sugar S grows from none to all: with z = rate (day - middle),
enum class Form {
  logistic,  ///< S = 1 / (1 + exp(-z)): as fast before the middle as behind it
  gompertz,  ///< S = exp(-exp(-z)): a sharp begin and a long end
};

/// gravity = start - (start - final) S(day), fitted to a series. The day of the end takes the place
/// of the middle, so that it has an interval of its own.
struct Course {
  Form form = Form::logistic;
  double start = 0, final = 0;             ///< SG 20/20 long before and long after
  double end_day = 0;                      ///< when it comes within `near` of the final gravity
  double rate = 0;                         ///< per day
  double near = 0;                         ///< SG; as it was asked for
  double level = 0;                        ///< of the intervals
  uncertainty::Interval final_interval{};  ///< where the final gravity lies
  uncertainty::Interval end_interval{};    ///< where the day of the end lies
  double chi_squared = 0;
  int degrees_of_freedom = 0;
  /// By how much the uncertainties were widened, because the readings scatter more than they say
  /// (chi-squared above its 95 % quantile); 1 if they do not.
  double widened = 1;
  double aicc = 0;                        ///< of this form
  std::optional<double> aicc_of_other{};  ///< nothing if the other form could not be fitted
  numeric::Covariance covariance{4};      ///< of start, final, end_day and rate, widened

  [[nodiscard]] double gravity(double day) const;
  /// Standard uncertainty of that, with what the readings share; the choice of the form left out.
  [[nodiscard]] double uncertainty(double day) const;
  /// The middle: where it falls fastest.
  [[nodiscard]] double steepest_day() const;
  /// SG per day there.
  [[nodiscard]] double steepest_fall() const;
  /// Where the tangent at the steepest point leaves the start: the lag.
  [[nodiscard]] double lag_day() const;
};

/// Why nothing can be foretold, and what would help.
struct NoCourse {
  std::string why;
  int more = 0;  ///< readings like the last ones that would do, as far as can be told; 0: unknown
};

struct Outlook {
  std::optional<Course> course{};
  NoCourse refused{};  ///< if there is no course
  /// Residual of each point in its own standard uncertainties, without the part of the curve that
  /// it drew to itself: a reading beyond 3 is odd. Also where the course is refused; empty if no
  /// curve was fitted.
  std::vector<double> studentized{};
};

/// Points that a curve with four parameters and its choice need at least.
constexpr std::size_t least_points = 6;

/// Fits both forms and keeps the one with the lower AICc; where the other one is nearly as
/// good (within 4), the intervals hold what both of them say. Intervals come from the profile of
/// chi-squared. Refuses a course whose final gravity is not known to half of the fall that was
/// seen, or whose end is open.
/// @param series  in order of time, without a jump between its points
/// @param near    above zero: what counts as the end; the U of a reading
/// @param level   of the intervals
/// @throws Error{domain} for a `near` or a level that is none
/// @source [zwietering1990] both forms and their lag; [hurvich1989] AICc; all from memory
[[nodiscard]] Outlook outlook_of(const Series& series, double near, double level = 0.90);

}  // namespace areo::trend
