// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Readings from a table in CSV or JSON: rows that are noted, left for somebody to look at, or
// refused.
#include <cstddef>
#include <functional>
#include <istream>
#include <string>

#include "areo/core/date_order.hpp"
#include "areo/core/error.hpp"
#include "areo/stream/import_outcome.hpp"
#include "areo/stream/import_row.hpp"
#include "areo/text/columns.hpp"

namespace areo::stream {

/// What is to become of the rows of a file.
struct ImportPlan {
  std::string file;                           ///< its name, for messages
  std::string map;                            ///< file of a mapping; empty = none
  ImportDefaults defaults;                    ///< what rows lack
  text::ColumnRules rules;                    ///< what was said of columns
  DateOrder date_order = DateOrder::unknown;  ///< usual, where its rows do not show it
  bool dry_run = false, all_or_nothing = false;
  bool yes = false;  ///< note what is far from what is expected, too
  /// Told of each row that is not noted, at once; may be empty.
  std::function<void(const Error&, std::size_t line)> on_failure{};
};

/// @throws Error{file} for columns that mean nothing clear, and what stops all rows
[[nodiscard]] ImportOutcome import_csv(std::istream& in, notebook::Notebook& book,
                                       const ImportPlan& plan);
/// The same for objects: a list, or one a line.
[[nodiscard]] ImportOutcome import_json(std::istream& in, bool is_list, notebook::Notebook& book,
                                        const ImportPlan& plan);

}  // namespace areo::stream
