// SPDX-License-Identifier: GPL-3.0-or-later
#include "json_dump.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdint>

namespace areo::text {

// JSON lets DEL and U+0080 .. U+009F stand as they are; a terminal would obey them.
std::string dump(const Json& j) {
  std::string text = j.dump(-1, ' ', false, Json::error_handler_t::replace);
  std::string out;
  std::size_t copied = 0;  // all before it is in `out`
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto c = static_cast<unsigned char>(text[i]);
    if (c != 0x7F && c != 0xC2) continue;
    const auto next = static_cast<unsigned char>(i + 1 < text.size() ? text[i + 1] : 0);
    const bool two_bytes = c == 0xC2 && next >= 0x80 && next < 0xA0;
    if (c == 0xC2 && !two_bytes) continue;
    out.append(text, copied, i - copied);
    out += fmt::format("\\u{:04x}", two_bytes ? next : c);
    if (two_bytes) ++i;
    copied = i + 1;
  }
  if (copied == 0) return text;
  return out.append(text, copied);
}

Json number_json(const std::optional<double>& number) {
  if (!number) return nullptr;
  constexpr double most_exact = 9007199254740992;  // 2^53: beyond it not each integer is a double
  if (std::trunc(*number) == *number && std::abs(*number) < most_exact)
    return static_cast<std::int64_t>(*number);
  return *number;
}

Json text_json(const std::string& text) { return text.empty() ? Json{} : Json(text); }

Json moment_json(const std::optional<Moment>& moment) {
  return moment ? Json(moment->text()) : Json();
}

Json quantity_json(const uncertainty::Value& value, const std::string& unit) {
  return {{"value", value.estimate + 0.0},  // no "-0.0"
          {"standard_uncertainty", value.u},
          {"expanded_uncertainty", value.expanded()},
          {"unit", unit}};
}

void add_field(Json& to, const std::string& key, const ExtraField& field) {
  if (!field.empty()) to[key] = field.number ? number_json(field.number) : Json(field.word);
}

}  // namespace areo::text
