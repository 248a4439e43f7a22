// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Whether what the notebook holds is still what its typed texts say.
#include <string>

#include "areo/notebook/store.hpp"

namespace areo::stream {

/// The first row that does not hold what was typed, "reading 5 was typed 1.048, and holds 1.084",
/// or whose word nobody could have typed; nothing: all are as they were typed.
[[nodiscard]] std::string not_as_typed(const notebook::Notebook& book);

}  // namespace areo::stream
