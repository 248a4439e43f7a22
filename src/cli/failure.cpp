// SPDX-License-Identifier: GPL-3.0-or-later
#include "failure.hpp"

#include <cstdio>

#include "areo/wording/failure.hpp"
#include "output.hpp"
#include "screen.hpp"

namespace areo::cli {

Exit exit_code(const Error& e) {
  switch (e.code) {
    case Errc::parse:
    case Errc::domain:
    case Errc::inconsistent: return bad_value;
    case Errc::file:
    case Errc::store: return file;
    case Errc::no_convergence: return defect;
  }
  return defect;
}

std::string failure_text(const UsageError& e) {
  return wording::failure_text(e.what(), e.hint, screen_columns());
}

std::string failure_json(const UsageError& e) {
  return wording::failure_json("usage", e.what(), e.hint);
}

void warn(const std::string& what, bool json) {
  const std::string text =
      json ? wording::warning_json(what) + "\n" : line_text("areo: warning: " + what);
  std::fwrite(text.data(), 1, text.size(), stderr);
}

}  // namespace areo::cli
