// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What has to hold whatever the input. Fuzzer and replay both take an exception for a finding.
#include <set>
#include <stdexcept>
#include <string>
#include <string_view>

namespace areo::fuzz {

/// Never an areo::Error, so that nothing takes it for a refusal.
struct Broken : std::logic_error {
  using std::logic_error::logic_error;
};

/// @param invariant  a sentence, the same at each call from one place
/// @param about      the values in question; may be empty
/// @throws Broken unless it holds
void require(bool holds, const std::string& invariant, std::string_view about = {});

/// For the control of a replay: which invariants were looked at, and one that is taken for the
/// opposite of what it is; empty = none.
struct Control {
  std::set<std::string> met;
  std::string denied;
};
[[nodiscard]] Control& control();

}  // namespace areo::fuzz
