// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How the numbers of a result are reported: by the law of propagation, or by a second evaluation
// where both differ.
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "areo/analysis/sampled.hpp"

namespace areo::wording {

/// A second evaluation, by sampling.
struct SamplingRequest {
  bool wanted = false;  ///< by the user
  std::optional<std::uint64_t> seed{};
  std::size_t trials = 0;  ///< at least; 0 = as many as the printed digits need
  /// Called where sampling begins: gives what is called with the part that is done, 0 .. 1, and
  /// goes when it ends. May be empty.
  std::function<std::function<void(double)>()> progress{};
};

/// What a result is reported for.
struct ReportingPlan {
  std::vector<std::string> shown{};  ///< keys of the quantities that are printed; empty = all
  std::string keep{};                ///< key of a quantity whose sample is needed; empty = none
  double level = 0.95;               ///< of bounds and a decision that the sample shall serve
  /// Another result with that quantity, whose sample is needed as well; or null.
  const measurement::Result* also = nullptr;
  /// Whether to ask if the law of propagation is good enough; where it is not, sampling is done
  /// though nobody asked for it.
  bool check = true;
};

/// The numbers of a result as they are reported: by the law of propagation, or by the sample where
/// both differ in what is printed.
class ReportedResult {
 public:
  /// @param result  must outlive it
  /// @throws what sampling throws, if it was asked for
  ReportedResult(const measurement::Result& result, const SamplingRequest& request, bool full,
                 ReportingPlan plan = {});

  /// "4.98 ± 0.30 % vol", or "0.31 (0.02 to 0.85) % vol".
  [[nodiscard]] std::string text(const measurement::Quantity& q) const;
  /// The same in another unit: `factor` of its own one.
  [[nodiscard]] std::string text(const measurement::Quantity& q, double factor,
                                 const std::string& unit) const;
  /// Quantities in columns: name, value, unit; a line each.
  [[nodiscard]] std::vector<std::string> lines(
      const std::vector<measurement::Quantity>& quantities) const;
  /// What sampling found as a whole, a line or more; none without it.
  [[nodiscard]] std::vector<std::string> summary(
      const std::vector<measurement::Quantity>& shown) const;
  /// The sample of the quantity that was to be kept, and that of the other result; empty without
  /// sampling.
  [[nodiscard]] const std::vector<double>& sample() const { return sample_; }
  [[nodiscard]] const std::vector<double>& other_sample() const { return other_sample_; }
  [[nodiscard]] const measurement::Result& result() const { return *result_; }
  /// What sampling found; null without it.
  [[nodiscard]] const analysis::Sampled* sampled() const { return sampled_ ? &*sampled_ : nullptr; }
  /// Why there was sampling, or should have been, though nobody asked for it; empty otherwise.
  [[nodiscard]] std::string reason() const;
  /// Why it then could not be done; empty otherwise.
  [[nodiscard]] const std::string& refused() const { return refused_; }

 private:
  /// @return whether sampling is called for, by the user or by the check
  [[nodiscard]] bool called_for();
  void take_sample();
  /// @param kept  gets the sample of the quantity that is to be kept
  [[nodiscard]] analysis::Sampled sample_of(const measurement::Result& of,
                                            analysis::SamplingPlan plan,
                                            std::vector<double>& kept) const;
  [[nodiscard]] const analysis::SampledQuantity* find(const std::string& key) const;
  [[nodiscard]] const analysis::SampledQuantity* differing(const std::string& key) const;
  void add_shortest(const std::vector<measurement::Quantity>& shown,
                    std::vector<std::string>& lines) const;

  const measurement::Result* result_;
  SamplingRequest request_;
  bool full_;
  ReportingPlan plan_;
  /// If nobody asked for it: what the law is too simple for, why, and why it was not sampled then.
  std::string beyond_, why_, refused_;
  std::optional<analysis::Sampled> sampled_;
  std::vector<double> sample_, other_sample_;
};

}  // namespace areo::wording
