// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// CSV in, CSV or JSON lines out: one row out per row in, order kept, memory constant. A bad row
// never stops the others.
#include <functional>
#include <istream>
#include <string>
#include <string_view>
#include <vector>

#include "areo/measurement/result.hpp"
#include "areo/text/columns.hpp"
#include "areo/text/csv.hpp"
#include "areo/text/extra_field.hpp"
#include "areo/text/said_once.hpp"

namespace areo::stream {

/// One row by field, whatever the file calls the column; one that the file does not have is empty.
class RowView {
 public:
  RowView(const text::CsvReader& reader, const text::Columns& columns, const text::CsvRow& row)
      : reader_{&reader}, columns_{&columns}, row_{&row} {}
  /// With the unit of its column. A temperature may stand behind its reading instead: "1.048 23C".
  /// @throws ParseError for a temperature without any unit
  [[nodiscard]] std::string operator[](std::string_view field) const;
  [[nodiscard]] bool has(std::string_view field) const { return columns_->find(field).has_value(); }

 private:
  [[nodiscard]] std::string cell(std::string_view field) const;  // as it stands there
  const text::CsvReader* reader_;
  const text::Columns* columns_;
  const text::CsvRow* row_;
};

/// What a command makes of a row.
struct RowOutcome {
  measurement::Result result;
  std::vector<text::ExtraField> facts =
      {};  ///< in the order of StreamJob::facts; those at the end may lack
  /// Keys of quantities whose CSV cells stay empty, because they would be taken for results.
  std::vector<std::string> withheld = {};
};

struct StreamJob {
  std::vector<std::string> needed;   ///< fields that the file must have
  std::vector<std::string> known;    ///< further fields that the command reads
  std::vector<std::string> results;  ///< keys of the quantities to print
  std::vector<std::string> facts;    ///< keys of words and numbers behind them
  std::function<RowOutcome(const RowView&)> compute;
};

/// How rows are written.
struct StreamForm {
  bool json = false;
  bool full = false;  ///< all digits
};
using LineSink = std::function<void(std::string_view)>;

/// Columns in: those of the job, by any word for them; date, time, batch, bottle, person, note and
/// sample, which say what a row is about; what --keep names; no other. Cells that are bare numbers
/// take the unit of their column.
/// Columns out: all that came in, then for each result its value and its expanded uncertainty
/// (`<key>_U`), then its facts, `note` and `error`.
/// A row equal to one of the 1000 before it is flagged in `note`, not dropped, good or bad.
/// Nothing of a bad row is lost: if it has more cells than the header, its line stands in `error`.
/// @param name    of the input, for messages
/// @param rules   what was said of columns; fields are the job's
/// @param line    takes each line of the output
/// @param refused gets each bad row, also where an error ends all
/// @throws        Error{file} if the input cannot be read, a needed column is missing or one means
///                nothing
/// @return        what somebody should know of the file as a whole
std::vector<std::string> run_stream(std::istream& in, const std::string& name, const StreamJob& job,
                                    const text::ColumnRules& rules, StreamForm form,
                                    const LineSink& line, text::SaidOnce& refused);

}  // namespace areo::stream
