// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/columns.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

#include "areo/core/error.hpp"

namespace areo::text {
namespace {

std::vector<std::string> all_fields(const ColumnRules& rules) {
  std::vector<std::string> all = rules.fields;
  all.insert(all.end(), rules.described.begin(), rules.described.end());
  return all;
}

std::string_view without_degree(std::string_view unit) {
  constexpr std::string_view degree = "°";
  return unit.starts_with(degree) ? unit.substr(degree.size()) : unit;
}

std::string quoted(const std::vector<std::string>& names) {
  std::string out;
  for (const std::string& n : names) out += fmt::format("{}'{}'", out.empty() ? "" : ", ", n);
  return out;
}

// As a word of a command line; what a shell would take apart stands in quotes.
std::string argument(const std::string& text) {
  const bool plain = std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '_' ||
           c == '-' || c == '.';
  });
  return plain ? text : fmt::format("\"{}\"", text);
}

[[noreturn]] void refuse_unknown(const std::vector<std::string>& unknown, const ColumnRules& rules,
                                 const std::string& file) {
  const auto fields = all_fields(rules);
  std::string hint;
  for (const std::string& header : unknown)
    if (const std::string near = nearest_field(header, fields, false); !near.empty())
      hint += fmt::format("{}'{}' for '{}'", hint.empty() ? "did you mean " : ", ", near, header);
  if (!hint.empty()) hint += "? ";
  throw Error{Errc::file,
              fmt::format("{} has {} that mean{} nothing here: {}", file,
                          unknown.size() == 1 ? "a column" : "columns",
                          unknown.size() == 1 ? "s" : "", quoted(unknown)),
              fmt::format("{}known: {}; another one goes along with --keep {}", hint,
                          fmt::join(fields, ", "), argument(unknown.front()))};
}

[[noreturn]] void refuse_missing(const std::string& field, const std::vector<std::string>& unknown,
                                 const std::vector<std::string>& headers, const ColumnRules& rules,
                                 const std::string& file) {
  std::string hint;
  for (const std::string& header : unknown)
    if (hint.empty() && nearest_field(header, all_fields(rules), false) == field)
      hint = fmt::format("is '{}' it? ", header);
  if (!rules.map_hint.empty())
    throw Error{Errc::file, fmt::format("{} has no column that means {}", file, field),
                fmt::format("its columns are: {}; {}", fmt::join(headers, ", "), rules.map_hint)};
  throw Error{Errc::file, fmt::format("{} has no column '{}'", file, field),
              fmt::format("{}its columns are: {}", hint, fmt::join(headers, ", "))};
}

void require_there(const std::string& option, const std::string& name,
                   const std::vector<std::string>& headers, const std::string& file) {
  if (std::find(headers.begin(), headers.end(), name) == headers.end())
    throw Error{Errc::file, fmt::format("{} {}: {} has no such column", option, name, file),
                fmt::format("its columns are: {}", fmt::join(headers, ", "))};
}

void require_unit(const ColumnMeaning& m, const std::string& header, const ColumnRules& rules) {
  if (m.unit.empty()) return;
  const CellKind kind = kind_of_field(m.field);
  if (kind == CellKind::text)
    throw Error{Errc::file, fmt::format("'{}' is not a number: it has no unit", header),
                "leave the unit out"};
  if (rules.knows_unit && !rules.knows_unit(kind, m.unit))
    throw Error{Errc::file,
                fmt::format("the column '{}' has no unit that areo knows: '{}'", header, m.unit),
                kind == CellKind::date ? "dates have day-first or month-first"
                : kind == CellKind::temperature
                    ? "temperatures have C, F or K"
                    : "readings have SG, P, Bx, Be, Oe, kg/m3, g/L, nD"};
}

}  // namespace

std::string usual_unit_words(const ColumnRules& rules) {
  return fmt::format("temperatures without a unit are in °{}, as areo settings say",
                     rules.temperature_unit);
}

ColumnRules rules_about(const ColumnRules& rules, const std::vector<std::string>& headers) {
  const auto fields = all_fields(rules);
  const auto lacks = [&](const std::string& name) {
    const std::string field = meaning_of(name, fields).field;
    return std::none_of(headers.begin(), headers.end(), [&](const std::string& h) {
      return h == name || (!field.empty() && meaning_of(h, fields).field == field);
    });
  };
  ColumnRules about = rules;
  std::erase_if(about.keep, [&](const std::string& name) {
    return std::find(headers.begin(), headers.end(), name) == headers.end();
  });
  std::erase_if(about.units, [&](const auto& unit) { return lacks(unit.first); });
  return about;
}

Columns::Columns(const std::vector<std::string>& headers, const ColumnRules& rules,
                 const std::string& file)
    : meanings_(headers.size()), kept_(headers.size(), false) {
  for (const std::string& k : rules.keep) require_there("--keep", k, headers, file);
  const auto fields = all_fields(rules);
  std::vector<std::string> unknown;
  for (std::size_t i = 0; i < headers.size(); ++i) {
    const std::string& header = headers[i];
    kept_[i] = std::find(rules.keep.begin(), rules.keep.end(), header) != rules.keep.end();
    if (kept_[i]) continue;
    const auto mapped = rules.mapped.find(header);
    meanings_[i] = mapped != rules.mapped.end() ? mapped->second : meaning_of(header, fields);
    if (meanings_[i].field.empty()) {
      if (rules.leave_out && nearest_field(header, fields, true).empty())
        left_out_.push_back(header);
      else
        unknown.push_back(header);
    }
  }
  for (const std::string& field : rules.needed)
    if (!find(field)) refuse_missing(field, unknown, headers, rules, file);
  if (!unknown.empty()) refuse_unknown(unknown, rules, file);
  const auto is_read = [&](const std::string& field) {
    return std::find(rules.fields.begin(), rules.fields.end(), field) != rules.fields.end();
  };
  std::map<std::string, std::size_t> first;  // column of a field
  for (std::size_t i = 0; i < headers.size(); ++i) {
    if (!is_read(meanings_[i].field)) continue;
    const auto [there, is_new] = first.emplace(meanings_[i].field, i);
    if (!is_new)
      throw Error{Errc::file,
                  fmt::format("'{}' and '{}' both mean {}", headers[there->second], headers[i],
                              meanings_[i].field),
                  rules.both_mean_hint};
  }
  for (const auto& [name, unit] : rules.units) {
    const auto called = std::find(headers.begin(), headers.end(), name);
    const auto place = called != headers.end()
                           ? std::optional{static_cast<std::size_t>(called - headers.begin())}
                           : find(meaning_of(name, fields).field);
    if (!place) require_there("--unit", name, headers, file);
    ColumnMeaning& m = meanings_[*place];
    const std::string said = unit_from_header(unit);
    if (!m.unit.empty() && without_degree(m.unit) != without_degree(said))
      throw Error{
          Errc::file,
          fmt::format("--unit {}={} contradicts the column '{}'", name, unit, headers[*place]),
          "leave --unit out, or rename the column"};
    m.unit = said;
  }
  for (ColumnMeaning& m : meanings_) {
    if (rules.temperature_unit.empty() || !m.unit.empty() ||
        kind_of_field(m.field) != CellKind::temperature)
      continue;
    m.unit = rules.temperature_unit;
    has_usual_unit_ = true;
  }
  for (std::size_t i = 0; i < headers.size(); ++i) require_unit(meanings_[i], headers[i], rules);
}

std::optional<std::size_t> Columns::find(std::string_view field) const {
  if (field.empty()) return std::nullopt;
  const auto found = std::find_if(meanings_.begin(), meanings_.end(),
                                  [&](const ColumnMeaning& m) { return m.field == field; });
  if (found == meanings_.end()) return std::nullopt;
  return static_cast<std::size_t>(found - meanings_.begin());
}

std::string cell_with_unit(const std::string& cell, const ColumnMeaning& meaning,
                           const std::string& header) {
  if (meaning.unit.empty() && kind_of_field(meaning.field) == CellKind::temperature &&
      is_bare_number(cell))
    throw ParseError{"a temperature needs its unit", cell, 0, cell.size(),
                     fmt::format("{0}F or {0}C? once for all: a header {1}_c, or --unit {2}=C",
                                 cell, meaning.field, argument(header))};
  return with_unit(cell, meaning);
}

}  // namespace areo::text
