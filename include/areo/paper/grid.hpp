// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Tables as grids: entries down the side, and across the top either quantities or a second entry.
// Every table but the log is one; this file turns it into rows, for whoever writes them.
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "areo/document/sheet.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo::paper {

/// Entries along one side of a table.
struct Axis {
  std::string key, name, unit;
  int decimals = 0;
  double from = 0, step = 1;
  std::size_t count = 0;
  std::vector<double> listed{};  ///< instead of the three above
  std::string before{};          ///< each number at the top: "from" 1.050

  [[nodiscard]] std::size_t size() const { return listed.empty() ? count : listed.size(); }
  /// @param i  may lie between entries
  [[nodiscard]] double at(double i) const;
  [[nodiscard]] std::string text(double entry) const;
};
/// The entries from one end to the other; the last one is not beyond `to`.
/// @param step  typed, with its decimals
/// @throws Error{domain} unless from < to and step > 0, for one entry, and for more than ten
/// million
[[nodiscard]] Axis even_axis(Axis named, double from, double to, double step);

/// What a cell says, or one of two things it says.
struct GridQuantity {
  std::string key, name, unit;
  /// More decimals than these serve nobody, however well the formulas agree.
  int most_decimals = 0;
  bool with_sign = false;  ///< "+0.0012"
};
struct GridCell {
  std::optional<uncertainty::Value> value{};  ///< nothing: there is no such thing, "-"
  std::optional<double> below{};              ///< no figure, an upper bound instead: "<0.3"
};

/// How a table for people tells its uncertainty.
enum class DoubtOf {
  table,  ///< one figure for each quantity, at most
  entry,  ///< of the first quantity, for each row; with columns for each column
};

struct Grid {
  std::string title;
  std::string called{};            ///< in a message about it; the title unless stated
  std::vector<std::string> lines;  ///< what has to be known before it is read
  Axis rows;
  std::optional<Axis> columns{};  ///< nothing: the quantities stand side by side
  std::vector<GridQuantity> quantities;
  /// For an entry of the side and one of the top (0 without them): a cell for each quantity.
  std::function<std::vector<GridCell>(double, double)> cells;
  /// The same for programs; nothing for a cell that is empty.
  std::function<std::optional<std::string>(double, double)> json;
  bool smooth = true;  ///< what lies between two entries may be interpolated
  DoubtOf doubt_of = DoubtOf::table;
  std::string doubt;                 ///< what the ± is of: "of the density formulas alone"
  std::vector<std::string> notes{};  ///< below the table
  std::vector<std::string> models;   ///< and their sources
  document::Headline headline{};
  std::vector<std::string> cautions{};
  bool for_the_wall = false;  ///< on paper in large type, on one sheet
};

/// An uncertainty as a table prints it: rounded up to its last digit, and never less than that.
[[nodiscard]] std::string doubt_text(double expanded, int decimals);

/// For programs a row is one cell of what people read in two directions, so both get their own.
enum class Shape { for_people, for_programs };

/// What is found out before the first row is written.
struct GridLayout {
  std::vector<int> decimals;        ///< by quantity
  std::vector<std::size_t> widths;  ///< of a quantity's cells
  std::vector<double> between{};    ///< by quantity: largest error of a straight line
};
/// Decimals are those that the largest uncertainty of its first, middle and last rows supports.
/// @param full  further digits, and no look at what lies between two entries
/// @throws Error{domain} for a grid without a cell
[[nodiscard]] GridLayout grid_layout(const Grid& grid, bool full);
[[nodiscard]] document::SheetHead grid_head(const Grid& grid, const GridLayout& layout,
                                            Shape shape);
/// About so many cells.
[[nodiscard]] std::size_t cells_of(const Grid& grid);
/// Gives a writer its rows and its end; where a straight line between two entries would be off by
/// more than half of the last digit, a note says so.
void write_rows(const Grid& grid, const GridLayout& layout, Shape shape,
                document::SheetWriter& out);
/// Gives each cell as a JSON object, in the order of the rows.
/// @throws Error{domain} for a grid without a cell
void each_json(const Grid& grid, const std::function<void(const std::string&)>& object);

}  // namespace areo::paper
