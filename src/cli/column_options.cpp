// SPDX-License-Identifier: GPL-3.0-or-later
#include "column_options.hpp"

#include <fmt/format.h>

#include <cstdio>

#include "usage.hpp"

namespace areo::cli {
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

text::ColumnRules column_rules(const ColumnOptions& o, const notebook::Settings& usual) {
  text::ColumnRules rules = text::rules_as_typed(o.keep, o.units);
  rules.temperature_unit = usual.temperature;
  return rules;
}

void tell_refused(const text::SaidOnce& refused, const std::string& file, const Session& session) {
  for (const auto& bad : refused.reported()) {
    error_line(fmt::format("areo: {}:{}: {}", file, bad.line, bad.message));
    if (!bad.hint.empty() && !session.json) error_line("hint: " + bad.hint);
  }
}

}  // namespace areo::cli
