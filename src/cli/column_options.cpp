#include "column_options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "areo/core/error.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse_hydrometer.hpp"
#include "areo/text/parse_refraction.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

bool is_temperature_unit(std::string_view unit) {
  constexpr std::string_view degree = "°";
  if (unit.starts_with(degree)) unit.remove_prefix(degree.size());
  return unit == "C" || unit == "F" || unit == "K";
}

bool is_mark_unit(std::string_view unit) {
  if (text::says_brix(unit) || text::says_index(unit) || text::is_grams_per_volume(unit))
    return true;
  if (unit == "%vol" || unit == "%mass") return true;
  try {
    (void)text::scale_from_text(unit);
    return true;
  } catch (const ParseError&) {
    return false;
  }
}

}  // namespace

void add_column_options(const Command& command, ColumnOptions& o, const std::string& kept) {
  command.add_option("--keep", o.keep, "a column that areo does not know: " + kept)
      .once_each()
      .type_name("COLUMN");
  command.add_option("--unit", o.units, "of the bare numbers in a column: temp=C, reading=P")
      .once_each()
      .type_name("COLUMN=UNIT");
}

void refuse_columns_alone(const ColumnOptions& o, bool file_given) {
  if (file_given) return;
  for (const auto& [given, name] :
       {std::pair{!o.keep.empty(), "--keep"}, std::pair{!o.units.empty(), "--unit"}})
    if (given)
      throw UsageError{fmt::format("{} without --csv: there are no columns", name),
                       fmt::format("write units behind their numbers, and leave {} out", name)};
}

text::ColumnRules column_rules(const ColumnOptions& o) {
  text::ColumnRules rules;
  rules.keep = o.keep;
  for (const std::string& text : o.units) {
    const auto equals = text.rfind('=');
    if (equals == std::string::npos || equals == 0 || equals + 1 == text.size())
      throw ParseError{"a unit belongs to a column", text, 0, text.size(), "write --unit temp=C"};
    rules.units[text.substr(0, equals)] = text.substr(equals + 1);
  }
  rules.knows_unit = [](text::CellKind kind, std::string_view unit) {
    return kind == text::CellKind::temperature ? is_temperature_unit(unit) : is_mark_unit(unit);
  };
  return rules;
}

void tell_refused(const text::SaidOnce& refused, const std::string& file, const Session& session) {
  for (const auto& told : refused.told()) {
    error_line(fmt::format("areo: {}:{}: {}", file, told.line, told.message));
    if (!told.hint.empty() && !session.json) error_line("hint: " + told.hint);
  }
}

}  // namespace areo::cli
