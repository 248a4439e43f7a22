// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How a failure is reported: message, caret and hint for people, an object for programs.
#include <cstddef>
#include <string>
#include <string_view>

#include "areo/core/error.hpp"
#include "areo/text/lines.hpp"

namespace areo::wording {

/// The message, then the text with a caret under the offending part, then the hint.
[[nodiscard]] std::string failure_text(const Error& e, std::size_t columns = text::usual_columns);
/// The same for a failure that is not an Error; without a hint if that is empty.
[[nodiscard]] std::string failure_text(std::string_view message, std::string_view hint,
                                       std::size_t columns = text::usual_columns);
/// {"error": {"code", "message", "hint", "line", "note", "column"}}; line 0 = none.
/// @param note  about the row that failed; may be empty
[[nodiscard]] std::string failure_json(const Error& e, std::size_t line = 0,
                                       const std::string& note = {});
/// {"error": {"code", "message", "hint"}}
[[nodiscard]] std::string failure_json(std::string_view code, std::string_view message,
                                       std::string_view hint);
/// {"warning": {"message"}}
[[nodiscard]] std::string warning_json(std::string_view message);

}  // namespace areo::wording
