// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A quantity of a result, and what would become of its uncertainty if measures were taken.
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "areo/analysis/improvements.hpp"
#include "areo/calibration/recommended_check.hpp"
#include "areo/measurement/result.hpp"

namespace areo::analysis {

/// A measure; those about an instrument say which, by its place in Result::instruments.
struct Step {
  Action action;
  std::size_t instrument = 0;
  friend bool operator==(const Step&, const Step&) = default;
};

/// The shares of a quantity after some steps.
struct Shares {
  std::vector<double> of_inputs;
  std::vector<double> of_checks;  ///< one per instrument; 0 = the correction in force stays
};

class Forecast {
 public:
  /// @param result must outlive this
  Forecast(const measurement::Result& result, std::string_view key);
  /// What the inputs are open to, by effort.
  [[nodiscard]] const std::vector<Step>& steps() const { return steps_; }
  [[nodiscard]] Shares shares(std::span<const Step> taken) const;
  [[nodiscard]] uncertainty::Value after(std::span<const Step> taken) const;
  /// The check of an instrument as it is now.
  [[nodiscard]] const calibration::RecommendedCheck& check(std::size_t instrument) const {
    return *instruments_[instrument].now;
  }

 private:
  struct Checkable {
    bool read = false;  ///< by eye; nothing helps a scale that nobody looked at
    std::optional<calibration::RecommendedCheck> now, with_half_the_division;
  };
  [[nodiscard]] double factor(const uncertainty::Input& input, std::span<const Step> taken) const;
  /// What a quantity changes by with the offset of an instrument, and with a correction of it.
  struct Sensitivity {
    double offset, share;
  };
  [[nodiscard]] Sensitivity sensitivity(const instruments::Correction& correction,
                                        const instruments::InstrumentUse& use) const;
  void take_finer_scale(Shares& s, std::size_t instrument) const;
  void take_check(Shares& s, std::size_t instrument,
                  const calibration::RecommendedCheck& plan) const;

  const measurement::Result& result_;
  std::size_t quantity_;
  std::vector<Checkable> instruments_;
  std::vector<Step> steps_;
};

}  // namespace areo::analysis
