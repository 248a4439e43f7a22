// SPDX-License-Identifier: GPL-3.0-or-later
#include "screen.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <string_view>

#include "areo/text/lines.hpp"

namespace areo::cli {
namespace {

// What POSIX has for it; 0 if it is no number.
std::size_t stated() {
  const char* text = std::getenv("COLUMNS");
  if (text == nullptr) return 0;
  const std::string_view all{text};
  std::size_t columns = 0;
  const auto [end, error] = std::from_chars(all.data(), all.data() + all.size(), columns);
  return error == std::errc{} && end == all.data() + all.size() ? columns : 0;
}

std::size_t of_terminal() {
  winsize size{};
  return ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 ? size.ws_col : 0;
}

constexpr std::size_t least = 40;

std::size_t or_usual(std::size_t columns) {
  return columns == 0 ? text::usual_columns : std::max(columns, least);
}

}  // namespace

std::size_t screen_columns() {
  static const std::size_t columns = or_usual(stated() != 0 ? stated() : of_terminal());
  return columns;
}

std::size_t file_columns() { return or_usual(stated()); }

}  // namespace areo::cli
