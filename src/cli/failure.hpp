#pragma once
// How a failure is told: message, caret and hint for people, an object for programs, an exit code.
#include <cstddef>
#include <string>

#include "areo/core/error.hpp"

namespace areo::cli {

/// 0 done; 1 done, but a line failed or a check said no; 2 usage; 3 bad value; 4 file or notebook;
/// 70 a defect.
enum Exit : int { done = 0, said_no = 1, usage = 2, bad_value = 3, file = 4, defect = 70 };

[[nodiscard]] Exit exit_code(const Error& e);
/// The message, then the text with a caret under the offending part, then the hint.
[[nodiscard]] std::string failure_text(const Error& e);
/// {"error": {"code", "message", "hint", "line", "column"}}; line 0 = none.
[[nodiscard]] std::string failure_json(const Error& e, std::size_t line = 0);

}  // namespace areo::cli
