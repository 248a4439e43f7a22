// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/stream/rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <limits>
#include <set>

#include "areo/core/error.hpp"
#include "text/json_dump.hpp"
#include "text/utf8.hpp"

namespace areo::stream {
namespace {

using notebook::Cell;
using notebook::NamedRow;

bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t n = text::utf8_length(text);
    if (n == 0) return false;
    text.remove_prefix(n);
  }
  return true;
}

std::string hex_of(std::string_view bytes) {
  std::string out;
  for (const char c : bytes) out += fmt::format("{:02x}", static_cast<unsigned char>(c));
  return out;
}

[[noreturn]] void refuse(std::string_view text, const std::string& why,
                         const std::string& hint = "is this an export of areo?") {
  throw ParseError{why, std::string{text.substr(0, text.substr(0, 60).find('\n'))}, 0, 1, hint};
}

unsigned char byte_from_hex(std::string_view two, std::string_view all) {
  unsigned char byte = 0;
  const auto [end, error] = std::from_chars(two.data(), two.data() + two.size(), byte, 16);
  if (two.size() != 2 || error != std::errc{} || end != two.data() + 2)
    refuse(all, "two hexadecimal digits are expected");
  return byte;
}

std::string bytes_from_hex(const std::string& hex) {
  std::string out;
  for (std::size_t i = 0; i < hex.size(); i += 2)
    out += static_cast<char>(byte_from_hex(std::string_view{hex}.substr(i, 2), hex));
  return out;
}

text::Json json_of(const notebook::Cell& cell) {
  if (const auto* i = std::get_if<std::int64_t>(&cell)) return *i;
  if (const auto* d = std::get_if<double>(&cell)) return *d;
  if (const auto* t = std::get_if<std::string>(&cell))
    return is_utf8(*t) ? text::Json(*t) : text::Json{{"hex", hex_of(*t)}};
  return nullptr;
}

notebook::Cell cell_of(const text::Json& j, std::string_view line) {
  if (j.is_null()) return std::monostate{};
  if (j.is_number_unsigned() &&
      j.get<std::uint64_t>() > std::uint64_t{std::numeric_limits<std::int64_t>::max()})
    refuse(line, "a number is too large");
  if (j.is_number_integer()) return j.get<std::int64_t>();
  if (j.is_number_float()) return j.get<double>();
  if (j.is_string()) return j.get<std::string>();
  if (j.is_object() && j.size() == 1 && j.contains("hex") && j["hex"].is_string())
    return bytes_from_hex(j["hex"].get<std::string>());
  refuse(line, "a value is neither a number nor a text");
}

struct Extent {
  std::size_t depth = 0;   ///< a value within a value within a value ...
  std::size_t commas = 0;  ///< and no more values
};
// Brackets and commas in texts are none.
Extent extent_of(std::string_view json) {
  Extent e;
  std::size_t depth = 0;
  bool text = false;
  for (std::size_t i = 0; i < json.size(); ++i) {
    const char c = json[i];
    if (c == '\\' && text)
      ++i;
    else if (c == '"')
      text = !text;
    else if (!text && (c == '[' || c == '{'))
      e.depth = std::max(e.depth, ++depth);
    else if (!text && c == ',')
      ++e.commas;
    else if (!text && (c == ']' || c == '}') && depth > 0)
      --depth;
  }
  return e;
}

text::Json parsed(std::string_view text) {
  constexpr std::size_t most = 16;  // a row has three
  if (extent_of(text).depth > most)
    refuse(text, fmt::format("this is nested more than {} deep", most), "is it the right file?");
  // Of two values under one name one would be lost.
  std::vector<std::set<std::string>> keys(1);
  std::string twice;
  const auto look = [&](int /*depth*/, text::Json::parse_event_t event, const text::Json& value) {
    if (event == text::Json::parse_event_t::object_start) keys.emplace_back();
    if (event == text::Json::parse_event_t::object_end) keys.pop_back();
    if (event == text::Json::parse_event_t::key &&
        !keys.back().insert(value.get<std::string>()).second)
      twice = value.get<std::string>();
    return true;
  };
  text::Json j = text::Json::parse(text, look, false);
  if (j.is_discarded()) refuse(text, "this is not JSON", "is the file complete?");
  if (!twice.empty())
    refuse(text, fmt::format("'{}' stands twice in one object", twice), "leave one of them out");
  return j;
}

// Of a row: the library looks through all of them for each.
constexpr std::size_t most_values = 2000;

text::Json parsed_row(std::string_view text) {
  if (extent_of(text).commas > most_values)
    refuse(text, fmt::format("a row of more than {} values", most_values), "is it the right file?");
  return parsed(text);
}

}  // namespace

std::string row_json(const notebook::Table& table, const std::vector<notebook::Cell>& cells) {
  text::Json row = text::Json::object();
  for (std::size_t i = 0; i < cells.size(); ++i) row[table.columns[i].name] = json_of(cells[i]);
  return text::dump(text::Json{{"table", table.name}, {"row", std::move(row)}});
}

notebook::NamedRow row_from_json(std::string_view line) {
  const text::Json j = parsed_row(line);
  if (!j.is_object() || !j.contains("table") || !j["table"].is_string() || !j.contains("row") ||
      !j["row"].is_object())
    refuse(line, "a line of an export has a table and a row");
  notebook::NamedRow row{j["table"].get<std::string>(), {}};
  for (const auto& [name, value] : j["row"].items())
    row.cells.emplace_back(name, cell_of(value, line));
  return row;
}

std::string row_cell(const notebook::Cell& cell) {
  if (const auto* i = std::get_if<std::int64_t>(&cell)) return std::to_string(*i);
  if (const auto* d = std::get_if<double>(&cell)) return fmt::format("{}", *d);
  const auto* whole = std::get_if<std::string>(&cell);
  if (whole == nullptr) return "";
  std::string out;
  std::string_view text = *whole;
  if (!text.empty() && std::string_view{"=+-@'"}.find(text.front()) != std::string_view::npos)
    out += '\'';
  while (!text.empty()) {
    const std::size_t n = text::utf8_length(text);
    const auto c = static_cast<unsigned char>(text[0]);
    const bool control = c < 0x20 || c == 0x7F ||
                         (c == 0xC2 && n == 2 && static_cast<unsigned char>(text[1]) < 0xA0);
    if (c == '\\')
      out += "\\\\";
    else if (n == 0 || control)
      out += fmt::format("\\x{:02x}", c);
    else
      out += text.substr(0, n);
    // Of a control character of two bytes the second one is no character by itself: also escaped.
    text.remove_prefix(n == 0 || control ? 1 : n);
  }
  return out;
}

notebook::Cell cell_from_row(std::string_view text, const notebook::Column& column) {
  if (!column.text) {
    if (text.empty()) return std::monostate{};
    std::int64_t i = 0;
    const char* end = text.data() + text.size();
    if (const auto r = std::from_chars(text.data(), end, i); r.ec == std::errc{} && r.ptr == end)
      return i;
    double d = 0;
    if (const auto r = std::from_chars(text.data(), end, d); r.ec == std::errc{} && r.ptr == end)
      return d;
    refuse(text, fmt::format("{} is a number", column.name));
  }
  if (text.empty() && column.may_be_nothing) return std::monostate{};
  if (text.starts_with('\'')) text.remove_prefix(1);
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\') {
      out += text[i];
    } else if (text.substr(i + 1, 1) == "\\") {
      out += '\\';
      ++i;
    } else if (text.substr(i + 1, 1) == "x") {
      out += static_cast<char>(byte_from_hex(text.substr(i + 2, 2), text));
      i += 3;
    } else {
      refuse(text, "a backslash stands before a backslash or x and two digits");
    }
  }
  return out;
}

namespace {

// @param shown  gives the row as text, for messages
Members members_of(const text::Json& j, const std::function<std::string()>& shown) {
  if (!j.is_object())
    refuse(shown(), "a row is an object", R"(write {"reading": "1.020", "date": "2026-03-01"})");
  if (j.size() > most_values)
    refuse(shown(), fmt::format("a row of more than {} values", most_values),
           "is it the right file?");
  Members members;
  members.reserve(j.size());
  for (const auto& [name, value] : j.items()) {
    if (!value.is_string() && !value.is_number() && !value.is_null())
      refuse(shown(), fmt::format("{} is neither a text nor a number", name),
             R"(write {"reading": "1.020"})");
    members.emplace_back(name, value.is_string() ? value.get<std::string>()
                               : value.is_null() ? ""
                                                 : text::dump(value));
  }
  return members;
}

}  // namespace

Members members_from_json(std::string_view line) {
  return members_of(parsed_row(line), [&] { return std::string{line}; });
}

void each_object(std::string_view text,
                 const std::function<void(const std::function<Members()>&)>& act) {
  const auto first = text.find_first_not_of(" \t\r\n");
  if (first != std::string_view::npos && text[first] == '[') {
    for (const text::Json& object : parsed(text))
      act([&] { return members_of(object, [&] { return text::dump(object); }); });
    return;
  }
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    const std::string_view line = text.substr(begin, end - begin);
    if (line.find_first_not_of(" \t\r") != std::string_view::npos)
      act([&] { return members_from_json(line); });
    begin = end + 1;
  }
}

}  // namespace areo::stream
