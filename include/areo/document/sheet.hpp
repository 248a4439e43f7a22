// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A table of numbers, written row by row as it is computed: for a terminal, for paper, for
// programs.
#include <cstddef>
#include <memory>
#include <ostream>
#include <string>
#include <vector>

#include "areo/document/page.hpp"
#include "areo/text/lines.hpp"

namespace areo::document {

enum class SheetFormat { text, csv, markdown, html };

struct SheetColumn {
  std::string key;  ///< for programs: "density_at_20_c_kg_m3"
  /// For people: "density at 20 °C"; empty for the expanded uncertainty of the column before it.
  std::string name;
  std::string unit;  ///< "kg/m³"; may be empty
  /// Of the widest cell, in characters, as far as it is known before the first row: the columns of
  /// a text stand below each other up to it.
  std::size_t width = 0;
};

/// What is known before the first row.
struct SheetHead {
  std::string title;
  std::vector<std::string> lines;  ///< what the table is about; between title and columns
  std::vector<SheetColumn> columns;
  /// Models and their sources, with the version that computed it: at the foot, and in CSV above
  /// the header.
  std::vector<std::string> source;
  PageSetup setup{};                    ///< of the page, if it becomes one
  Headline headline{};                  ///< below the title; no lines: none
  std::vector<std::string> cautions{};  ///< below the notes
  std::string called{};                 ///< in a message about it; the title unless stated
  std::size_t text_columns = text::usual_columns;  ///< of a line as text
};

/// Takes rows and writes them at once; nothing of them is kept.
class SheetWriter {
 public:
  virtual ~SheetWriter() = default;
  SheetWriter() = default;
  SheetWriter(const SheetWriter&) = delete;
  SheetWriter& operator=(const SheetWriter&) = delete;

  /// @throws Error{domain} unless there is a cell for each column
  void row(const std::vector<std::string>& cells);
  /// A row that tells of those above it, such as their uncertainty; programs get what it says in
  /// columns of their own, so CSV leaves it out.
  void summary(const std::vector<std::string>& cells);
  /// Once, after the last row.
  /// @param notes  what is known of the rows only now; left out of CSV
  void end(const std::vector<std::string>& notes);

 protected:
  explicit SheetWriter(std::size_t columns) : columns_{columns} {}

 private:
  virtual void write_row(const std::vector<std::string>& cells) = 0;
  virtual void write_summary(const std::vector<std::string>& cells) = 0;
  virtual void write_end(const std::vector<std::string>& notes) = 0;
  std::size_t columns_ = 0;
};

/// Writes the head at once.
/// - text: columns to the right, the names again after every 50 rows, as a sheet of paper has them;
///   a row that is wider than a line goes on below it;
/// - CSV: the `#` lines of areo's own tables (title, source, units, verified: computed), then the
///   keys and the rows;
/// - Markdown: a heading and a table with its columns to the right;
/// - HTML: a page as document::Page makes it, whose columns stand at the head of every sheet.
/// @param out  must outlive the writer
/// @throws     Error{domain} without columns
[[nodiscard]] std::unique_ptr<SheetWriter> sheet_writer(SheetFormat format, std::ostream& out,
                                                        const SheetHead& head);

/// Whether all columns fit across a sheet of the head's paper, in small type and on its side at the
/// most; as HTML they may be wider.
[[nodiscard]] bool fits_across(const SheetHead& head);

/// Types in which a table for the wall could be set on one sheet, each taking more room than the
/// one before: from the smallest that is read from a step away to the largest in which a row is no
/// wider than the sheet, and that one with more and more space between the rows.
/// @throws Error{domain} if even with the smallest it is wider
[[nodiscard]] std::vector<WallType> wall_types(const SheetHead& head);

}  // namespace areo::document
