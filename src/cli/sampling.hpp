#pragma once
// --monte-carlo: a result evaluated a second time, and how both evaluations are told.
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "areo/measurement/sampled.hpp"
#include "output.hpp"

namespace CLI {  // NOLINT(readability-identifier-naming): the library's name
class App;
}

namespace areo::cli {

struct SamplingOptions {
  bool wanted = false;
  std::string seed, trials;  ///< empty = not given
};
void add_sampling_options(CLI::App& command, SamplingOptions& options);
/// @param csv  whether rows of a file are read
/// @throws UsageError for --seed or --trials alone, for files and below `areo budget`
void check_sampling_options(const SamplingOptions& options, bool csv, const Session& session);

/// How the numbers of a result are told: by the law of propagation, or by the sample where both
/// differ in what is printed. Without --monte-carlo only the law.
class Told {
 public:
  /// @param keep   key of a quantity whose sample is wanted; empty = none
  /// @param level  of a decision that the sample shall serve
  /// @throws ParseError for a seed or a number of trials that is none; what sampling throws
  Told(const measurement::Result& result, const SamplingOptions& options, bool full,
       const std::string& keep = {}, double level = 0.95);

  /// Another result, told with the same options.
  [[nodiscard]] Told likewise(const measurement::Result& result) const;

  /// "4.98 ± 0.30 % vol", or "0.31 (0.02 to 0.85) % vol".
  [[nodiscard]] std::string text(const measurement::Quantity& q) const;
  /// The same in another unit: `factor` of its own one.
  [[nodiscard]] std::string text(const measurement::Quantity& q, double factor,
                                 const std::string& unit) const;
  /// Quantities in columns: name, value, unit.
  void lines(const std::vector<measurement::Quantity>& quantities) const;
  /// What sampling found as a whole, a line or more; none without it.
  void summary(const std::vector<measurement::Quantity>& shown) const;
  /// The sampled symmetric interval, if it differs from that of the law.
  [[nodiscard]] std::optional<uncertainty::Interval> interval(const std::string& key) const;
  /// The sample of the quantity that was to be kept; nothing without sampling.
  [[nodiscard]] const std::vector<double>* sample() const;
  /// Members of a JSON object: none, or "sampling".
  [[nodiscard]] std::vector<std::pair<std::string, std::string>> members() const;

 private:
  [[nodiscard]] const measurement::SampledQuantity* find(const std::string& key) const;
  [[nodiscard]] const measurement::SampledQuantity* differing(const std::string& key) const;
  void shortest_lines(const std::vector<measurement::Quantity>& shown) const;

  const measurement::Result* result_;
  SamplingOptions options_;
  bool full_;
  std::string kept_;
  double level_;
  std::optional<measurement::Sampled> sampled_;
};

}  // namespace areo::cli
