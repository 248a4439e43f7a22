// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Rows of values on any scale, converted.
#include "areo/entry/converted.hpp"
#include "areo/stream/stream.hpp"

namespace areo::stream {

/// @param to  what to print; if nobody stated it, strengths too
[[nodiscard]] StreamJob convert_rows(const entry::ConvertTo& to);

}  // namespace areo::stream
