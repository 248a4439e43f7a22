#pragma once
// Readings from a table in CSV or JSON: rows that are noted, left for somebody to look at, or
// refused.
#include <istream>
#include <string>

#include "column_options.hpp"
#include "import_readings.hpp"
#include "output.hpp"

namespace areo::cli {

struct ImportOptions {
  std::string file, map;
  ImportDefaults defaults;
  ColumnOptions columns;
  bool dry_run = false, all_or_nothing = false, yes = false;
};

/// @return exit code: a row that was not noted is a "no"
/// @throws Error{file} for columns that mean nothing clear, and what stops all rows
int import_csv(std::istream& in, const ImportOptions& o, const Session& session);
/// The same for objects: a list, or one a line.
int import_json(std::istream& in, bool is_list, const ImportOptions& o, const Session& session);

}  // namespace areo::cli
