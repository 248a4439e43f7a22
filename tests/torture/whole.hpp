// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Whether a file is a whole notebook, and holds what it held.
#include <string>

#include "notebook/older.hpp"

namespace areo::torture {

/// The rows of make_older() as one text: brought up to date or not, it is the same.
[[nodiscard]] std::string rows_of_older(const std::string& path);

/// What is wrong with a file that shall be a whole notebook of this version; nothing if it is one.
[[nodiscard]] std::string wrong_with(const std::string& path, int version);

}  // namespace areo::torture
