// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Where a ferment may end, and from when on its end can be known: what holds whatever it does next.
#include <optional>
#include <string>

#include "areo/trend/state.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo::trend {

/// No curve is asked. A ferment may stop at any moment, slow down for weeks, rest and go on, and
/// the readings before do not show it; docs/explanation/outlook.md says how
/// little a curve through them knows of the end.
struct Forecast {
  /// SG 20/20. It ends no higher, as gravity never rises by itself, and no lower, as no extract is
  /// left then; each with 97.5 %. Nothing: not known.
  std::optional<double> highest{}, lowest{};
  /// The day on which it can be called steady, and not before: if one reading a day, or as often as
  /// they were made, shows the same, with whichever of the instruments used so far shows it first.
  /// Nothing where it is steady, has not begun, or nothing is said; or if more than `farthest_days`
  /// would have to pass.
  std::optional<double> steady_from{};
  double step_days = 1;   ///< of these readings
  std::string refused{};  ///< why nothing is said of the end
};

/// What holds of both ends of the gravity together.
inline constexpr double outlook_level = 0.95;
inline constexpr double farthest_days = 60;

/// @param series   as state_of()
/// @param state    of that series
/// @param lowest   gravity of the drink without extract; nothing: not known
[[nodiscard]] Forecast forecast_of(const Series& series, const State& state,
                                   const std::optional<uncertainty::Value>& lowest);

}  // namespace areo::trend
