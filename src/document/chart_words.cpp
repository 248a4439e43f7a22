// SPDX-License-Identifier: GPL-3.0-or-later
#include "chart_words.hpp"

#include <algorithm>

#include "areo/document/page.hpp"
#include "text/character_width.hpp"
#include "text/utf8.hpp"

namespace areo::document {
namespace {

// Of the font's size, for the widest of the usual fonts for screens.
double width_of(char32_t c) {
  constexpr std::u32string_view narrow = U" !',.:;|ijlI", slim = U"()[]{}-/\\\"frt",
                                wide = U"%@mwMW+=<>~#&";
  if (c >= 0x80) {
    const std::size_t columns = text::character_width(c);
    return columns == 2 ? 1.1 : columns == 0 ? 0 : 0.9;
  }
  if (narrow.find(c) != narrow.npos) return 0.36;
  if (slim.find(c) != slim.npos) return 0.46;
  if (wide.find(c) != wide.npos) return 0.99;
  return c >= 'A' && c <= 'Z' ? 0.78 : 0.64;
}

std::size_t character_length(std::string_view text) {
  return std::max<std::size_t>(text::utf8_length(text), 1);
}

std::string replaced(std::string text, std::string_view what, std::string_view by) {
  for (std::size_t at = 0; (at = text.find(what, at)) != std::string::npos; at += by.size())
    text.replace(at, what.size(), by);
  return text;
}

}  // namespace

double text_width(std::string_view text) {
  double width = 0;
  while (!text.empty()) {
    width += text::utf8_length(text) == 0 ? 1 : width_of(text::utf8_character(text));
    text.remove_prefix(character_length(text));
  }
  return width * font_size;
}

std::string fitted_text(std::string_view text, double width) {
  if (text_width(text) <= width) return std::string{text};
  const double room = width - text_width("…");
  std::size_t end = 0;
  while (end < text.size()) {
    const std::size_t next = end + character_length(text.substr(end));
    if (text_width(text.substr(0, next)) > room) break;
    end = next;
  }
  while (end > 0 && text[end - 1] == ' ') --end;
  return std::string{text.substr(0, end)} + "…";
}

std::vector<std::string> wrapped_text(std::string_view text, double width, std::size_t most) {
  std::vector<std::string> lines;
  while (lines.size() + 1 < most && text_width(text) > width) {
    // The last space with a line before it; a word without one is cut.
    std::size_t end = 0;
    for (std::size_t at = text.find(' '); at != std::string_view::npos; at = text.find(' ', at + 1))
      if (text_width(text.substr(0, at)) <= width) end = at;
    if (end == 0) break;
    lines.emplace_back(text.substr(0, end));
    text.remove_prefix(end + 1);
  }
  lines.push_back(fitted_text(text, width));
  return lines;
}

std::string xml_text(std::string_view text) {
  return replaced(replaced(html_text(text), "\uFFFE", "\uFFFD"), "\uFFFF", "\uFFFD");
}

}  // namespace areo::document
