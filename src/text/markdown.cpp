// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/markdown.hpp"

#include <algorithm>

#include "areo/text/format.hpp"

namespace areo::text {
namespace {

constexpr std::string_view markup = "\\`*_[]<>|~&";
// At the beginning of a line these make headings, lists and rules; elsewhere they are harmless, and
// a backslash would make "-0.0012" hard to read.
constexpr std::string_view markup_at_begin = "#+-=.:)";

enum class Place { line, cell };

// A line to write on: underscores with nothing beside them are no markup within a line.
std::size_t end_of_rule(std::string_view text, std::size_t begin) {
  const std::size_t end = std::min(text.find_first_not_of('_', begin), text.size());
  const bool alone =
      (begin == 0 || text[begin - 1] == ' ') && (end == text.size() || text[end] == ' ');
  return alone ? end : begin;
}

// A text that shows as it is.
std::string markdown_text(std::string_view typed, Place place) {
  const std::string text = printable(typed);
  std::string out;
  bool at_begin = place == Place::line;  // nothing yet but digits: "1." makes a list too
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const std::size_t end = c == '_' && !at_begin ? end_of_rule(text, i) : i;
    if (end > i) {
      out.append(text, i, end - i);
      i = end - 1;
      continue;
    }
    const bool always = markup.find(c) != std::string_view::npos;
    if (always || (at_begin && markup_at_begin.find(c) != std::string_view::npos)) out += '\\';
    out += c;
    at_begin = at_begin && c >= '0' && c <= '9';
  }
  return out;
}

// An address that a reader would make a link of on its own accord is none: "www.", "://", "@".
std::string unlinked(std::string text) {
  for (const char* mark : {"www.", "://", "@"})
    for (std::size_t at = text.find(mark); at != std::string::npos;
         at = text.find(mark, at + std::string_view{mark}.size() + 1)) {
      const std::size_t place = mark[0] == 'w' ? at + 3 : at;
      if (place > 0 && text[place - 1] == '\\') continue;
      text.insert(place, "\\");
    }
  return text;
}

}  // namespace

std::string markdown_line(std::string_view text) {
  return unlinked(markdown_text(text, Place::line));
}

std::string markdown_cell(std::string_view text) {
  return unlinked(markdown_text(text, Place::cell));
}

}  // namespace areo::text
