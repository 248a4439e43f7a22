#pragma once
// Named inputs of a measurement model: what is known about each quantity that goes in.
#include <cstddef>
#include <limits>
#include <span>
#include <string>
#include <vector>

namespace areo::uncertainty {

/// Shape of the knowledge about an input [gum] 4.3, [jcgm101] 6.4. Linear propagation needs only
/// the standard uncertainty; the shape is kept for the budget and for sampling.
enum class Distribution { normal, rectangular, triangular };

/// [gum] 4.2 and 4.3: from repeated observations, or from other knowledge.
enum class Evaluation { type_a, type_b };

/// One input quantity.
struct Input {
  std::string name;  ///< "reading of the original gravity"
  std::string unit;  ///< of value and u; may be empty
  double value = 0;
  double u = 0;  ///< standard uncertainty, same unit, >= 0
  Distribution shape = Distribution::normal;
  Evaluation type = Evaluation::type_b;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
  std::string provenance;  ///< where it comes from, in words a reader can check
};

/// Makers that turn the usual statements into standard uncertainties [gum] 4.3.
[[nodiscard]] Input normal(std::string name, std::string unit, double value, double u,
                           std::string provenance);
/// "within ± half_width, nothing else known": u = half_width / √3.
[[nodiscard]] Input rectangular(std::string name, std::string unit, double value, double half_width,
                                std::string provenance);
/// "within ± half_width, the middle most likely": u = half_width / √6.
[[nodiscard]] Input triangular(std::string name, std::string unit, double value, double half_width,
                               std::string provenance);
/// Bounds lo .. hi of equal likelihood: the middle, and u = (hi - lo) / √12.
[[nodiscard]] Input between(std::string name, std::string unit, double lo, double hi,
                            std::string provenance);

/// Handle of an input within its Inputs.
struct InputRef {
  std::size_t index;
};

/// The values of all inputs at which a model is evaluated.
class Point {
 public:
  explicit Point(std::span<const double> values) : values_{values} {}
  [[nodiscard]] double operator[](InputRef ref) const { return values_[ref.index]; }

 private:
  std::span<const double> values_;
};

/// Correlation of two inputs.
struct Correlation {
  InputRef a, b;
  double r;  ///< -1 .. 1
};

/// The inputs of one model. Readings that share an input (the calibration of their instrument) are
/// correlated through it without further ado.
class Inputs {
 public:
  /// @throws Error{domain} if value or u is not finite, u < 0 or degrees of freedom < 1
  InputRef add(Input input);
  /// @throws Error{domain} unless a and b differ and -1 <= r <= 1
  void correlate(InputRef a, InputRef b, double r);

  [[nodiscard]] std::span<const Input> all() const noexcept { return inputs_; }
  [[nodiscard]] std::span<const Correlation> correlations() const noexcept { return correlations_; }
  [[nodiscard]] std::vector<double> estimates() const;

 private:
  std::vector<Input> inputs_;
  std::vector<Correlation> correlations_;
};

}  // namespace areo::uncertainty
