// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/header_words.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

#include "areo/core/nearest.hpp"
#include "characters.hpp"

namespace areo::text {
namespace {

// A header may have several lines.
constexpr std::string_view or_line_ends = " \t\r\n";

// Lower case, and no spaces, dots, hyphens or underscores: "Date of reading" is "dateofreading".
std::string folded(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == ' ' || c == '_' || c == '-' || c == '.') continue;
    out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return out;
}

// A common word for a field, folded; some say the unit too. One that may be several fields is there
// for each of them, the first one first.
struct Word {
  std::string_view word, field, unit = {};
};
constexpr Word words[] = {{"when", "date"},
                          {"madeat", "date"},
                          {"datetime", "date"},
                          {"day", "date"},
                          {"gravity", "reading"},
                          {"sg", "gravity", "SG"},
                          {"sg", "reading", "SG"},
                          {"sg", "value", "SG"},
                          {"specificgravity", "gravity", "SG"},
                          {"specificgravity", "reading", "SG"},
                          {"specificgravity", "value", "SG"},
                          {"shown", "reading"},
                          {"indication", "reading"},
                          {"typed", "reading"},
                          {"reading", "value"},
                          {"brix", "reading", "Bx"},
                          {"brix", "value", "Bx"},
                          {"plato", "reading", "P"},
                          {"plato", "value", "P"},
                          {"oechsle", "reading", "Oe"},
                          {"oechsle", "value", "Oe"},
                          {"baume", "reading", "Be"},
                          {"baume", "value", "Be"},
                          {"temp", "temperature"},
                          {"t", "temperature"},
                          {"temperaturetyped", "temperature"},
                          {"originalreading", "original"},
                          {"originalgravity", "original"},
                          {"og", "original"},
                          {"originaltemp", "original_temperature"},
                          {"presentreading", "present"},
                          {"presentgravity", "present"},
                          {"final", "present"},
                          {"finalgravity", "present"},
                          {"fg", "present"},
                          {"presenttemp", "present_temperature"},
                          {"gravitytemp", "gravity_temperature"},
                          {"by", "person"},
                          {"name", "person"},
                          {"notes", "note"},
                          {"comment", "note"},
                          {"memo", "note"},
                          {"remark", "note"},
                          {"hydrometer", "instrument"},
                          {"refractometer", "instrument"}};

// Well-known words for units, folded.
constexpr std::array<std::pair<std::string_view, std::string_view>, 17> units{
    {{"°c", "°C"},
     {"c", "C"},
     {"degc", "°C"},
     {"celsius", "°C"},
     {"°f", "°F"},
     {"f", "F"},
     {"degf", "°F"},
     {"fahrenheit", "°F"},
     {"k", "K"},
     {"kelvin", "K"},
     {"sg", "SG"},
     {"20/20", "SG"},
     {"sg20/20", "SG"},
     {"60/60", "SG60/60F"},
     {"60f", "SG60/60F"},
     {"60/60°f", "SG60/60F"},
     {"sg60/60°f", "SG60/60F"}}};

bool among(std::string_view field, std::span<const std::string> fields) {
  return std::find(fields.begin(), fields.end(), field) != fields.end();
}

ColumnMeaning known_word(std::string_view text, std::span<const std::string> fields) {
  const std::string word = folded(text);
  for (const std::string& f : fields)
    if (word == folded(f)) return {f, ""};
  for (const Word& w : words)
    if (word == w.word && among(w.field, fields))
      return {std::string{w.field}, std::string{w.unit}};
  return {};
}

bool is_well_known_unit(std::string_view text) {
  const std::string unit = folded(text);
  return std::any_of(units.begin(), units.end(), [&](const auto& u) { return u.first == unit; });
}

// "date_brewed" is another word, and no date in an order of that name.
bool may_have(std::string_view field, std::string_view unit) {
  const CellKind kind = kind_of_field(field);
  if (kind == CellKind::date) return date_order_from_word(unit).has_value();
  return kind != CellKind::text;
}

ColumnMeaning with_header_unit(ColumnMeaning m, std::string_view unit) {
  if (!m.field.empty() && !trimmed(unit, or_line_ends).empty()) m.unit = unit_from_header(unit);
  return m;
}

}  // namespace

CellKind kind_of_field(std::string_view field) noexcept {
  if (field == "date") return CellKind::date;
  if (field.ends_with("temperature")) return CellKind::temperature;
  for (const std::string_view mark : {"reading", "value", "original", "present", "gravity"})
    if (field == mark) return CellKind::mark;
  return CellKind::text;
}

std::string temperature_field_of(std::string_view field) {
  if (field == "reading") return "temperature";
  for (const std::string_view mark : {"original", "present", "gravity"})
    if (field == mark) return std::string{mark} + "_temperature";
  return {};
}

std::optional<DateOrder> date_order_from_word(std::string_view text) {
  std::string word;
  for (const char c : folded(text))
    if (c >= 'a' && c <= 'z') word += c;
  for (const std::string_view day : {"dayfirst", "dmy", "ddmmyyyy", "daymonthyear", "daymonth"})
    if (word == day) return DateOrder::day_first;
  for (const std::string_view month : {"monthfirst", "mdy", "mmddyyyy", "monthdayyear", "monthday"})
    if (word == month) return DateOrder::month_first;
  for (const std::string_view year : {"ymd", "yyyymmdd", "iso"})
    if (word == year) return DateOrder::unknown;
  return std::nullopt;
}

std::string unit_from_header(std::string_view text) {
  std::string unit = folded(trimmed(text, or_line_ends));
  constexpr char degree_of_windows = '\xB0';  // in a file that is not UTF-8
  if (unit.starts_with(degree_of_windows)) unit.replace(0, 1, "°");
  for (const auto& [word, means] : units)
    if (unit == word) return std::string{means};
  return std::string{trimmed(text, or_line_ends)};
}

ColumnMeaning meaning_of(std::string_view header, std::span<const std::string> fields) {
  const std::string_view text = trimmed(header, or_line_ends);
  if (ColumnMeaning m = known_word(text, fields); !m.field.empty()) return m;
  // "Temperature (°C)", "gravity [P]"
  if (const auto open = text.find_first_of("(["); open != std::string_view::npos && open > 0) {
    const auto close = std::min(text.find_first_of(")]", open), text.size());
    return with_header_unit(known_word(text.substr(0, open), fields),
                            text.substr(open + 1, close - open - 1));
  }
  // "temperature_c"
  if (const auto bar = text.rfind('_'); bar != std::string_view::npos && bar > 0)
    if (ColumnMeaning m = known_word(text.substr(0, bar), fields);
        may_have(m.field, text.substr(bar + 1)))
      return with_header_unit(std::move(m), text.substr(bar + 1));
  // "Temp C"
  if (const auto space = text.rfind(' '); space != std::string_view::npos && space > 0)
    if (const std::string_view unit = text.substr(space + 1); is_well_known_unit(unit))
      return with_header_unit(known_word(text.substr(0, space), fields), unit);
  return {};
}

std::string nearest_field(std::string_view header, std::span<const std::string> fields,
                          bool misspelt) {
  constexpr std::size_t least_letters = 4;  // shorter words are near to anything
  std::vector<std::string> known;
  std::vector<std::string> means;
  for (const std::string& f : fields) {
    known.push_back(folded(f));
    means.push_back(f);
  }
  for (const Word& w : words)
    if (w.word.size() >= least_letters && among(w.field, fields)) {
      known.emplace_back(w.word);
      means.emplace_back(w.field);
    }
  const std::string_view text = trimmed(header, or_line_ends);
  const std::string word = folded(text.substr(0, text.find_first_of("([")));
  const std::string near = misspelt
                               ? nearest(word, known, std::min<std::size_t>(2, word.size() / 3))
                               : nearest(word, known);
  if (near.empty()) return {};
  return means[static_cast<std::size_t>(std::find(known.begin(), known.end(), near) -
                                        known.begin())];
}

bool is_bare_number(std::string_view cell) noexcept {
  constexpr std::string_view minus_sign = "\u2212";
  std::string_view text = trimmed(cell, or_line_ends);
  if (text.starts_with(minus_sign)) text.remove_prefix(minus_sign.size());
  return text.find_first_of("0123456789") != std::string_view::npos &&
         text.find_first_not_of("0123456789.,+-") == std::string_view::npos;
}

std::string with_unit(const std::string& cell, const ColumnMeaning& meaning) {
  const bool date = kind_of_field(meaning.field) == CellKind::date;  // its order is no unit
  if (meaning.unit.empty() || date || !is_bare_number(cell)) return cell;
  if (meaning.unit == "SG") {
    const std::string_view text = trimmed(cell, or_line_ends);
    const bool ones =
        text.size() > 2 && (text[0] == '0' || text[0] == '1') && (text[1] == '.' || text[1] == ',');
    if (!ones) return cell;
    // 1.25 may be a slip of 1.025; what begins with 0.9, 1.0 or 1.1 is no slip, but for 1.1 alone.
    const bool usual = text.starts_with('0') ? text[2] == '9' : text[2] == '0' || text[2] == '1';
    const bool water = text.size() == 3 && text.starts_with('1') && text[2] == '0';
    if (!usual || (text.size() < 4 && !water)) return cell;
  }
  return std::string{trimmed(cell, or_line_ends)} + meaning.unit;
}

}  // namespace areo::text
