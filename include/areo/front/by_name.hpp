// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Arguments that are given by their names alone.

namespace areo::detail {

/// First member of an aggregate whose members must be named: `{.original = a, .present = b}`
/// passes it over, `{b, a}` does not compile.
struct ByName {
  explicit constexpr ByName() = default;
};

}  // namespace areo::detail
