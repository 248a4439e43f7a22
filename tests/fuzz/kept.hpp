// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What holds of a notebook whatever was done with it.
#include <string>

#include "desk.hpp"

namespace areo::fuzz {

/// Every row, as `areo export` writes them, without the line in front.
[[nodiscard]] std::string rows_of(const std::string& notebook);

/// SQLite finds it whole, its export brought into an empty one is the same export, and the program
/// can list what it holds.
void check_kept(Desk& desk);

/// A call that did what it could: no defect, a reason for a refusal, and nothing printed that a
/// terminal would obey.
void check_ran(const Ran& ran, const std::string& call);

}  // namespace areo::fuzz
