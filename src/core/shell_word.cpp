// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/shell_word.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace areo {
namespace {

bool is_plain(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
         std::string_view{"_-./,:+@%"}.find(c) != std::string_view::npos ||
         static_cast<unsigned char>(c) >= 0x80;
}

// What a terminal obeys, and nobody can copy.
bool is_control(char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; }

// $'...' of POSIX 2024. An octal number has three digits, so that what follows is no part of it.
std::string with_escapes(std::string_view text) {
  std::string out = "$'";
  for (const char c : text)
    if (is_control(c))
      out += fmt::format("\\{:03o}", static_cast<unsigned char>(c));
    else
      out += c == '\'' || c == '\\' ? std::string{'\\', c} : std::string{c};
  return out + "'";
}

}  // namespace

std::string shell_word(std::string_view text) {
  if (!text.empty() && std::all_of(text.begin(), text.end(), is_plain)) return std::string{text};
  if (std::any_of(text.begin(), text.end(), is_control)) return with_escapes(text);
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string{"'\\''"} : std::string{c};
  return out + "'";
}

}  // namespace areo
