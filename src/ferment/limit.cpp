// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/ferment/limit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/core/nearest.hpp"

namespace areo::ferment {
namespace {

// As in tables/legal-alcohol-thresholds.csv; a test compares them.
constexpr std::array limits{
    StrengthLimit{"anz-0.5", 0.5,
                  "statement of alcohol content and of standard drinks required from here",
                  "Food Standards Code Standard 2.7.1", "two"},
    StrengthLimit{"anz-1.15", 1.15,
                  "above it: full statement and pregnancy warning; brewed soft drink up to here",
                  "Food Standards Code Standard 2.7.1; 2.6.2 for brewed soft drink", "two"},
    StrengthLimit{"ca-1.1", 1.1, "above it the strength must be stated (federal)",
                  "Food and Drug Regulations B.02.003", "one"},
    StrengthLimit{"ca-bc-on-1.0", 1.0, "liquor above it", "provincial rules as quoted by BC CDC",
                  "one"},
    StrengthLimit{"eu-1.2", 1.2, "drinks above this must state the alcoholic strength",
                  "Regulation (EU) 1169/2011 Art. 9(1)(k) and 28(2) and Annex XII", "two"},
    StrengthLimit{"uk-0.05", 0.05, "alcohol free: not more than",
                  "guidance Low alcohol descriptors (DHSC 2018)", "two"},
    StrengthLimit{"uk-0.5", 0.5, "de-alcoholised: not more than",
                  "guidance Low alcohol descriptors (DHSC 2018)", "two"},
    StrengthLimit{"uk-1.2", 1.2, "low alcohol: not more than; above it the strength must be stated",
                  "guidance Low alcohol descriptors (DHSC 2018); retained Regulation 1169/2011",
                  "two"},
    StrengthLimit{"us-0.5", 0.5,
                  "non-alcoholic malt beverage: contains less than 0.5 percent alcohol by volume",
                  "27 CFR 7.65 (before 2022: 7.26(c) and 7.71)", "two"},
    StrengthLimit{"us-2.5", 2.5, "low or reduced alcohol malt beverage: below this",
                  "27 CFR 7.65 (before 2022: 7.26(b) and 7.71)", "two"},
    StrengthLimit{"us-7.0", 7.0, "wine under the FAA Act: 7 to 24 percent", "27 CFR 4.10",
                  "memory"}};

}  // namespace

std::span<const StrengthLimit> strength_limits() { return limits; }

const StrengthLimit& strength_limit(std::string_view name) {
  const auto* found = std::find_if(limits.begin(), limits.end(),
                                   [&](const StrengthLimit& l) { return l.name == name; });
  if (found != limits.end()) return *found;
  std::vector<std::string> names;
  names.reserve(limits.size());
  for (const StrengthLimit& l : limits) names.emplace_back(l.name);
  const std::string near = nearest(name, names);
  throw ParseError{
      fmt::format("'{}' is not a limit that areo knows", name), std::string{name}, 0, name.size(),
      near.empty() ? fmt::format("a number of % vol, or one of {}", fmt::join(names, ", "))
                   : fmt::format("did you mean '{}'?", near)};
}

}  // namespace areo::ferment
