// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Limits of strength that laws and guidance draw, by name. They change: ask the authority.
#include <span>
#include <string_view>

namespace areo::ferment {

struct StrengthLimit {
  std::string_view name;      ///< "us-0.5"
  double percent_vol;         ///< at 20 °C in the EU and the UK, at 60 °F in the US
  std::string_view meaning;   ///< what is decided by it
  std::string_view citation;  ///< the rule
  std::string_view verified;  ///< how far the rule was read: "two", "one", "memory"
};

/// All that areo knows, sorted by name; the same rows as tables/legal-alcohol-thresholds.csv.
[[nodiscard]] std::span<const StrengthLimit> strength_limits();
/// @throws ParseError for an unknown name, with the nearest one
[[nodiscard]] const StrengthLimit& strength_limit(std::string_view name);

}  // namespace areo::ferment
