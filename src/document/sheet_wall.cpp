// SPDX-License-Identifier: GPL-3.0-or-later
// How large the type of a table for the wall may be.
#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/document/sheet.hpp"
#include "areo/text/format.hpp"
#include "areo/text/lines.hpp"
#include "sheet_writers.hpp"

namespace areo::document {
namespace {

// As the style for the wall has it (page_style.hpp): in the size of the text, a cell's letters and
// the space beside them, and those of a column's name.
constexpr double cell_size = 1.5, name_size = 1.1, space = 0.5;
// Width of a digit of DejaVu Sans over its size is 0.64, of a bold one 0.70; points and signs are
// narrower.
constexpr double letter = 0.67;
constexpr double margins_mm = 24, a4_mm = 210, letter_mm = 215.9, point_mm = 25.4 / 72;

constexpr double smallest_pt = 8, largest_pt = 20, between_pt = 0.5;
constexpr double least_space = 0.1, most_space = 0.8, between_space = 0.025;

}  // namespace

std::vector<WallType> wall_types(const SheetHead& head) {
  double row = 0;  // width over the size of the text
  for (const SheetColumn& c : head.columns)
    row +=
        space + letter * std::max(cell_size * static_cast<double>(c.width),
                                  name_size * static_cast<double>(text::longest_word(heading(c))));
  const double sheet_mm = head.setup.paper == Paper::letter ? letter_mm : a4_mm;
  const double widest = std::min((sheet_mm - margins_mm) / point_mm / row, largest_pt);
  std::vector<WallType> types;
  for (double size = smallest_pt; size <= widest; size += between_pt)
    types.push_back({size, least_space});
  if (types.empty())
    throw Error{Errc::domain, "so many columns are wider than a sheet of paper in large type",
                "take fewer --readings, or write it as HTML"};
  const double size = types.back().size_pt;
  for (double more = least_space + between_space; more <= most_space; more += between_space)
    types.push_back({size, more});
  return types;
}

}  // namespace areo::document
