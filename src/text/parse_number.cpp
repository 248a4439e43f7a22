// SPDX-License-Identifier: GPL-3.0-or-later
// A number in front of a unit, as people write it.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/text/parse.hpp"
#include "characters.hpp"

namespace areo::text {
namespace {

[[noreturn]] void refuse(std::string_view text, std::size_t at, std::size_t length,
                         const std::string& why, std::string hint) {
  throw ParseError{why, std::string{text}, at, length, std::move(hint)};
}

// Length of the mark of thousands at the front of "'050" or " 050"; 0 if there is none.
std::size_t thousands_mark(std::string_view rest) {
  for (const std::string_view mark : {"'", "\u2019", " ", "\u00a0", "\u202f"}) {
    const std::string_view digits = rest.substr(std::min(mark.size(), rest.size()));
    if (rest.starts_with(mark) && digits.size() >= 3 &&
        std::all_of(digits.begin(), digits.begin() + 3, is_digit))
      return mark.size();
  }
  return 0;
}

}  // namespace

TypedNumber number_with_unit(std::string_view text, std::string_view what) {
  TypedNumber n;
  std::size_t i = text.find_first_not_of(" \t");
  if (i == std::string_view::npos)
    refuse(text, 0, text.size(), fmt::format("{} is missing", what), "");
  std::string digits;
  constexpr std::string_view minus_sign = "\u2212";
  if (text[i] == '-' || text[i] == '+') {
    if (text[i] == '-') digits += '-';
    ++i;
  } else if (text.substr(i).starts_with(minus_sign)) {
    digits += '-';
    i += minus_sign.size();
  }
  bool any = false;
  bool mark = false;
  for (; i < text.size(); ++i) {
    if (is_digit(text[i])) {
      digits += text[i];
      any = true;
      if (mark) ++n.decimals;
    } else if (text[i] == '.' || text[i] == ',') {
      if (mark)
        refuse(text, i, 1, "a number has one decimal mark", "write 1.048 or 1,048, no thousands");
      mark = true;
      n.decimal_comma = text[i] == ',';
      digits += '.';
    } else if (const std::size_t length = thousands_mark(text.substr(i));
               any && !mark && length != 0) {
      refuse(text, i, length, "thousands have no mark here", "write 1048, not 1'048");
    } else {
      break;
    }
  }
  if (!any) {
    const std::size_t at = text.find_first_not_of(" \t");
    refuse(text, at, text.size() - at, fmt::format("{} begins with a number", what), "");
  }
  std::from_chars(digits.data(), digits.data() + digits.size(), n.value);
  n.value += 0.0;  // "-0" is zero
  n.half_width = 0.5 * std::pow(10.0, -n.decimals);
  if (!std::isfinite(n.value) || digits.size() > 17)
    refuse(text, 0, i, fmt::format("{} has too many digits", what), "seventeen are the most");
  n.unit_position = std::min(text.find_first_not_of(" \t", i), text.size());
  n.unit = text.substr(n.unit_position, text.find_last_not_of(" \t") + 1 - n.unit_position);
  return n;
}

}  // namespace areo::text
