// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How a command fails: its exit code, and what was typed that makes no sense.
#include <cstddef>
#include <stdexcept>
#include <string>
#include <utility>

#include "areo/core/error.hpp"

namespace areo::cli {

/// 0 done; 1 done, but a line failed or a check said no; 2 usage; 3 bad value; 4 file or notebook;
/// 70 a defect.
enum Exit : int { done = 0, said_no = 1, usage = 2, bad_value = 3, file = 4, defect = 70 };

/// A call that cannot be carried out as it was typed: exit code 2.
/// @param what  the options or words in question
/// @param hint  what to type instead, printed on its own line
struct UsageError : std::runtime_error {
  UsageError(const std::string& what, std::string h)
      : std::runtime_error{what}, hint{std::move(h)} {}
  std::string hint;
};

[[nodiscard]] Exit exit_code(const Error& e);
/// The message, then the hint.
[[nodiscard]] std::string failure_text(const UsageError& e);
/// {"error": {"code": "usage", "message", "hint"}}
[[nodiscard]] std::string failure_json(const UsageError& e);

/// A line on standard error; with `json` {"warning": {"message"}}.
void warn(const std::string& what, bool json);

}  // namespace areo::cli
