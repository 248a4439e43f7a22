// SPDX-License-Identifier: GPL-3.0-or-later
#include "utf8.hpp"

namespace areo::text {

std::size_t utf8_length(std::string_view text) {
  const auto byte = [&](std::size_t i) -> unsigned { return static_cast<unsigned char>(text[i]); };
  const unsigned first = byte(0);
  if (first < 0x80) return 1;
  if (first < 0xC2 || first > 0xF4) return 0;
  const std::size_t length = first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
  if (text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte(i) & 0xC0U) != 0x80U) return 0;
  // Longer than it need be, half of a pair, or beyond the last character.
  const unsigned second = byte(1);
  if ((first == 0xE0 && second < 0xA0) || (first == 0xED && second >= 0xA0) ||
      (first == 0xF0 && second < 0x90) || (first == 0xF4 && second >= 0x90))
    return 0;
  return length;
}

char32_t utf8_character(std::string_view text) {
  const std::size_t length = utf8_length(text);
  const auto byte = [&](std::size_t i) -> unsigned { return static_cast<unsigned char>(text[i]); };
  if (length == 1) return byte(0);
  char32_t c = byte(0) & (0x7FU >> length);
  for (std::size_t i = 1; i < length; ++i) c = (c << 6U) | (byte(i) & 0x3FU);
  return c;
}

}  // namespace areo::text
