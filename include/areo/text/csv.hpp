// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Strict, streaming CSV: one header row, separated by commas (or, if asked for, by whatever the
// header is separated by), RFC 4180 quotes, `#` comment lines before the header. Nothing is
// guessed: a row with too few or too many cells is an error.
#include <cstddef>
#include <deque>
#include <istream>
#include <string>
#include <string_view>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::text {

/// One data row. `cells.size()` equals the number of columns of the header.
struct CsvRow {
  std::size_t line = 0;  ///< line of the file where the row starts, from 1
  std::vector<std::string> cells;
  std::string text;  ///< of a refused row only: how it stands in the file
};

/// A refused row or header: what() is "file:line: reason".
struct CsvError : Error {
  CsvError(const std::string& file, std::size_t line, const std::string& why, std::string h);
  std::string reason;
};

/// Longest record that is read; what goes on beyond it is taken for a quote that was never closed.
inline constexpr std::size_t max_csv_record_bytes = std::size_t{1} << 20;

/// What stands between cells.
enum class Separator {
  comma,
  /// A semicolon or a tab if the header has one outside quotes, else a comma: spreadsheets write
  /// semicolons where the comma is the decimal mark. What else they write is passed over, too: a
  /// first line "sep=;", columns at the end without a name or any cell, rows of empty cells.
  of_header,
};

/// Reads a CSV row by row; holds one row at a time, whatever the size of the file.
class CsvReader {
 public:
  /// Reads comment lines and the header. A UTF-8 byte order mark and CR LF line ends are accepted.
  /// @param in    must outlive the reader
  /// @param name  of the file, for messages
  /// @throws      Error{file} if there is no header, a column name is empty or occurs twice
  CsvReader(std::istream& in, std::string name, Separator separator = Separator::comma);

  [[nodiscard]] const std::vector<std::string>& columns() const noexcept { return columns_; }
  /// Comment lines before the header without `# `, in order.
  [[nodiscard]] const std::vector<std::string>& comments() const noexcept { return comments_; }
  /// Text behind "key:" in the comments (key compared without case); empty if there is none.
  [[nodiscard]] std::string comment(std::string_view key) const;
  /// @return index of a column  @throws Error{file} naming the columns there are, if it is missing
  [[nodiscard]] std::size_t column(std::string_view name) const;
  [[nodiscard]] bool has_column(std::string_view name) const noexcept;

  /// Reads the next row; empty lines are passed over.
  /// @return false at the end of the file
  /// @throws CsvError if the row has another number of cells than the header, a quote is not closed
  ///         or stands where none may be, or the file cannot be read; the next call goes on behind
  ///         the row, or behind its first line if the quotes are wrong. `row` then holds its line,
  ///         its text and the cells as far as they can be told apart; nothing of a line that is
  ///         too long
  bool next(CsvRow& row);

 private:
  bool read_line(std::string& line);
  bool read_record(std::vector<std::string>& cells);
  void require_plain(const std::string& line) const;
  [[noreturn]] void fail(std::size_t line, const std::string& what, std::string hint = {}) const;
  std::istream& in_;
  std::string name_;
  [[nodiscard]] bool is_blank(const std::vector<std::string>& cells) const;
  void drop_empty_end(std::vector<std::string>& cells) const;
  char separator_ = ',';
  bool from_spreadsheet_ = false;  // Separator::of_header
  std::size_t empty_columns_ = 0;  // at the end of the header
  std::size_t line_ = 0;           // lines handed out so far
  std::size_t record_line_ = 0;    // first line of the last record
  std::string record_;             // its text; only the first line if the quotes are wrong
  std::deque<std::string> again_;  // lines read ahead behind a bad quote, to be read again
  std::vector<std::string> columns_;
  std::vector<std::string> comments_;
};

/// A cell as it must be written: quoted if it holds a comma, a quote or a line end, or begins with
/// `#` or a byte order mark, so that it is never taken for a comment nor loses its front.
[[nodiscard]] std::string csv_cell(std::string_view text);
/// A cell of free text for people's spreadsheets: text that a spreadsheet would run (it begins with
/// `=`, `+`, `-`, `@` or a tab) gets a leading apostrophe; control characters other than tab and
/// line end become U+FFFD, so that none reaches a terminal; then as csv_cell().
[[nodiscard]] std::string csv_text_cell(std::string_view text);

}  // namespace areo::text
