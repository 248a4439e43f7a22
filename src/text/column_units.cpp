// SPDX-License-Identifier: GPL-3.0-or-later
// The units that a column of somebody's table may have.
#include <string>
#include <string_view>

#include "areo/core/error.hpp"
#include "areo/text/columns.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/parse_hydrometer.hpp"
#include "areo/text/parse_refraction.hpp"
#include "areo/text/parse_temperature.hpp"

namespace areo::text {
namespace {

bool is_mark_unit(std::string_view unit) {
  if (says_brix(unit) || says_index(unit) || is_grams_per_volume(unit)) return true;
  if (unit == "%vol" || unit == "%mass") return true;
  try {
    (void)scale_from_text(unit);
    return true;
  } catch (const ParseError&) {
    return false;
  }
}

}  // namespace

ColumnRules rules_as_typed(const std::vector<std::string>& keep,
                           const std::vector<std::string>& units) {
  ColumnRules rules;
  rules.keep = keep;
  for (const std::string& text : units) {
    const auto equals = text.rfind('=');
    if (equals == std::string::npos || equals == 0 || equals + 1 == text.size())
      throw ParseError{"a unit belongs to a column", text, 0, text.size(), "write --unit temp=C"};
    rules.units[text.substr(0, equals)] = text.substr(equals + 1);
  }
  rules.knows_unit = [](CellKind kind, std::string_view unit) {
    if (kind == CellKind::date) return date_order_from_word(unit).has_value();
    return kind == CellKind::temperature ? temperature_unit(unit) != TemperatureUnit::unknown
                                         : is_mark_unit(unit);
  };
  return rules;
}

}  // namespace areo::text
