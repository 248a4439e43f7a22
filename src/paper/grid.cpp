// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/paper/grid.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/text/format.hpp"
#include "source_lines.hpp"

namespace areo::paper {
namespace {

using text::fixed;

constexpr double no_column = 0;
// For programs: a small uncertainty does not become none.
constexpr int further_of_expanded = 2;

std::vector<double> entries(const Axis& a) {
  std::vector<double> all;
  for (std::size_t i = 0; i < a.size(); ++i) all.push_back(a.at(static_cast<double>(i)));
  return all;
}
std::vector<double> columns_of(const Grid& g) {
  return g.columns ? entries(*g.columns) : std::vector{no_column};
}

bool has_cell(const Grid& g, std::size_t row) {
  const std::vector<double> columns = columns_of(g);
  return std::any_of(columns.begin(), columns.end(), [&](double column) {
    const auto cells = g.cells(g.rows.at(static_cast<double>(row)), column);
    return std::any_of(cells.begin(), cells.end(),
                       [](const GridCell& c) { return c.value.has_value(); });
  });
}

// The rows that decimals and widths are found from: first, middle and last. If all of their cells
// are empty, those of the stretch that has some.
struct Stretch {
  std::size_t first, last;

  /// @param shift  half an entry further for what lies between
  [[nodiscard]] std::vector<double> looked_at(double shift) const {
    const auto n = static_cast<double>(last - first) - 2 * shift;
    std::vector<double> all;
    for (const double part : {0.0, 0.5, 1.0})
      all.push_back(static_cast<double>(first) + std::floor(part * n) + shift);
    return all;
  }
};
Stretch stretch_of(const Grid& g) {
  Stretch s{0, g.rows.size() - 1};
  for (const double i : s.looked_at(0))
    if (has_cell(g, static_cast<std::size_t>(i))) return s;
  while (s.first < g.rows.size() && !has_cell(g, s.first)) ++s.first;
  if (s.first == g.rows.size())
    throw Error{Errc::domain, "there is nothing to print: no cell of this table exists",
                "look at its ends and columns, and at what the liquid is said to hold"};
  while (!has_cell(g, s.last)) --s.last;
  return s;
}

std::string cell_text(const GridCell& c, const GridQuantity& q, int decimals) {
  if (!c.value) return "-";
  if (c.below) return "<" + text::rounded_up(*c.below, decimals);
  const std::string text = fixed(c.value->estimate, decimals);
  return q.with_sign && c.value->estimate > 0 && text.find_first_of("123456789") != text.npos
             ? "+" + text
             : text;
}

// Off the straight line through its neighbours, half a step to both sides.
double bend(const GridCell& lo, const GridCell& middle, const GridCell& hi) {
  for (const GridCell* c : {&lo, &middle, &hi})
    if (!c->value || c->below) return 0;
  return std::abs(middle.value->estimate - (lo.value->estimate + hi.value->estimate) / 2);
}

document::SheetColumn column_of(const Axis& a) {
  return {a.key, a.name, a.unit,
          std::max(a.text(a.at(0)).size(), a.text(a.at(static_cast<double>(a.size()) - 1)).size())};
}

class Rows {
 public:
  Rows(const Grid& g, const GridLayout& l)
      : g_{g}, l_{l}, expanded_(l.decimals.size(), 0), by_column_(columns_of(g).size(), 0) {}

  void for_people(document::SheetWriter& out) {
    for (std::size_t i = 0; i < g_.rows.size(); ++i) {
      const double entry = g_.rows.at(static_cast<double>(i));
      std::vector<std::string> row{g_.rows.text(entry)};
      const std::vector<double> columns = columns_of(g_);
      for (std::size_t c = 0; c < columns.size(); ++c) {
        const auto cells = g_.cells(entry, columns[c]);
        const std::vector<std::string> texts = texts_of(cells);
        if (g_.columns)
          row.push_back(together(texts));
        else
          row.insert(row.end(), texts.begin(), texts.end());
        const double expanded = cells.front().value ? cells.front().value->expanded() : 0;
        if (!g_.columns && g_.doubt_of == DoubtOf::entry) row.push_back(known(expanded));
        by_column_[c] = std::max(by_column_[c], expanded);
      }
      out.row(row);
    }
    if (g_.doubt_of == DoubtOf::entry && g_.columns)
      out.summary(doubts_by_column());
    else if (!g_.columns && g_.doubt_of == DoubtOf::table)
      out.summary(doubts("±"));
    out.end(notes());
  }

  void for_programs(document::SheetWriter& out) {
    for (std::size_t i = 0; i < g_.rows.size(); ++i)
      for (const double column : columns_of(g_)) {
        const double entry = g_.rows.at(static_cast<double>(i));
        std::vector<std::string> row{g_.rows.text(entry)};
        if (g_.columns) row.push_back(g_.columns->text(column));
        const auto cells = g_.cells(entry, column);
        for (std::size_t k = 0; k < cells.size(); ++k) {
          const bool stands = cells[k].value && !cells[k].below;
          row.push_back(stands ? fixed(cells[k].value->estimate, l_.decimals[k]) : "");
          row.push_back(
              stands ? fixed(cells[k].value->expanded(), l_.decimals[k] + further_of_expanded)
                     : "");
        }
        out.row(row);
      }
    out.end({});
  }

 private:
  std::vector<std::string> texts_of(const std::vector<GridCell>& cells) {
    std::vector<std::string> texts;
    for (std::size_t k = 0; k < cells.size(); ++k) {
      texts.push_back(cell_text(cells[k], g_.quantities[k], l_.decimals[k]));
      if (cells[k].value) expanded_[k] = std::max(expanded_[k], cells[k].value->expanded());
    }
    return texts;
  }
  // Two things in one cell stand below each other down the column.
  [[nodiscard]] std::string together(const std::vector<std::string>& texts) const {
    if (std::all_of(texts.begin(), texts.end(), [](const auto& t) { return t == "-"; })) return "-";
    std::string cell;
    for (std::size_t k = 0; k < texts.size(); ++k)
      cell += k == 0 ? texts[k] : fmt::format(" {:>{}}", texts[k], l_.widths[k]);
    return cell;
  }
  [[nodiscard]] std::vector<std::string> doubts(const std::string& first) const {
    std::vector<std::string> all{first};
    for (std::size_t k = 0; k < expanded_.size(); ++k)
      all.push_back(doubt_text(expanded_[k], l_.decimals[k]));
    return all;
  }
  [[nodiscard]] std::vector<std::string> doubts_by_column() const {
    std::vector<std::string> all{"±"};
    for (const double expanded : by_column_) all.push_back(known(expanded));
    return all;
  }
  [[nodiscard]] std::string known(double expanded) const {
    return expanded > 0 ? doubt_text(expanded, l_.decimals.front()) : "-";
  }
  [[nodiscard]] std::string doubt() const {
    if (g_.doubt_of == DoubtOf::entry)
      return fmt::format("± about 95 %{}: {}", g_.columns ? ", the largest of each column" : "",
                         g_.doubt);
    if (!g_.columns) return fmt::format("± about 95 %, at most; {}", g_.doubt);
    std::string text;
    for (std::size_t k = 0; k < expanded_.size(); ++k) {
      const std::string& unit = g_.quantities[k].unit;
      text += fmt::format("{}± {}{}", k > 0 ? " and " : "",
                          doubt_text(expanded_[k], l_.decimals[k]), unit.empty() ? "" : " " + unit);
    }
    return fmt::format("{} at most (about 95 %): {}", text, g_.doubt);
  }
  [[nodiscard]] std::vector<std::string> notes() const {
    std::vector<std::string> all{doubt()};
    all.insert(all.end(), g_.notes.begin(), g_.notes.end());
    std::string between;
    for (std::size_t k = 0; k < expanded_.size(); ++k)
      if (l_.between[k] > std::pow(10.0, -l_.decimals[k]) / 2)
        between += fmt::format("{}{} in {}", between.empty() ? "" : ", ",
                               doubt_text(l_.between[k], l_.decimals[k]), g_.quantities[k].name);
    if (!between.empty())
      all.push_back("between two rows a straight line is off by up to " + between +
                    ": take a smaller --step");
    return all;
  }

  const Grid& g_;
  const GridLayout& l_;
  std::vector<double> expanded_;   // largest of each quantity so far
  std::vector<double> by_column_;  // of the first quantity
};

}  // namespace

std::string doubt_text(double expanded, int decimals) {
  const double digit = std::pow(10.0, -decimals);
  return fixed(std::max(1.0, std::ceil(expanded / digit - 1e-9)) * digit, decimals);
}

double Axis::at(double i) const {
  if (listed.empty()) return from + step * i;
  const auto below = static_cast<std::size_t>(i);
  const double part = i - static_cast<double>(below);
  return part > 0 ? listed[below] + part * (listed[below + 1] - listed[below]) : listed[below];
}

std::string Axis::text(double entry) const { return fixed(entry, decimals); }

Axis even_axis(Axis axis, double from, double to, double step) {
  if (!(from < to) || !(step > 0))
    throw Error{Errc::domain,
                fmt::format("a table goes up in steps above zero, and this one would go from {} to "
                            "{} by {:g}",
                            axis.text(from), axis.text(to), step),
                "state both ends, the lower one first and not the same, and a step above zero"};
  constexpr double most = 10'000'000;
  const double count = std::floor((to - from) / step + 1e-9) + 1;
  if (count > most) throw Error{Errc::domain, "more than ten million rows", "take a larger step"};
  if (count < 2)
    throw Error{Errc::domain,
                fmt::format("a step of {:g} leaves one row between {} and {}", step,
                            axis.text(from), axis.text(to)),
                "take a smaller step"};
  axis.from = from;
  axis.step = step;
  axis.count = static_cast<std::size_t>(count);
  return axis;
}

GridLayout grid_layout(const Grid& g, bool full) {
  const std::size_t n = g.quantities.size();
  std::vector<double> expanded(n, 0);
  const Stretch stretch = stretch_of(g);
  for (const double i : stretch.looked_at(0))
    for (const double column : columns_of(g)) {
      const auto cells = g.cells(g.rows.at(i), column);
      for (std::size_t k = 0; k < n; ++k)
        if (cells[k].value) expanded[k] = std::max(expanded[k], cells[k].value->expanded());
    }
  GridLayout l{{}, std::vector<std::size_t>(n, 1), std::vector<double>(n, 0)};
  for (std::size_t k = 0; k < n; ++k) {
    const int most = g.quantities[k].most_decimals;
    l.decimals.push_back(
        (expanded[k] > 0 ? std::min(most, text::supported_decimals(expanded[k])) : most) +
        (full ? text::further_digits : 0));
  }
  for (const double i : stretch.looked_at(0))
    for (const double column : columns_of(g)) {
      const auto cells = g.cells(g.rows.at(i), column);
      for (std::size_t k = 0; k < n; ++k)
        l.widths[k] =
            std::max(l.widths[k], cell_text(cells[k], g.quantities[k], l.decimals[k]).size());
    }
  if (!g.smooth || full || stretch.first == stretch.last) return l;
  for (const double i : stretch.looked_at(0.5))
    for (const double column : columns_of(g)) {
      const auto lo = g.cells(g.rows.at(i - 0.5), column), middle = g.cells(g.rows.at(i), column),
                 hi = g.cells(g.rows.at(i + 0.5), column);
      for (std::size_t k = 0; k < n; ++k)
        l.between[k] = std::max(l.between[k], bend(lo[k], middle[k], hi[k]));
    }
  return l;
}

document::SheetHead grid_head(const Grid& g, const GridLayout& l, Shape shape) {
  document::SheetHead head{g.title, g.lines, {column_of(g.rows)}, source_lines(g.models)};
  head.called = g.called;
  head.headline = g.headline;
  head.cautions = g.cautions;
  head.setup.for_the_wall = g.for_the_wall;
  if (shape == Shape::for_people && g.columns) {
    std::size_t width = l.widths.size() - 1;  // the spaces between
    for (const std::size_t w : l.widths) width += w;
    std::string unit;
    for (const GridQuantity& q : g.quantities)
      unit += (unit.empty() || q.unit.empty() ? "" : ", ") + q.unit;
    for (const double column : entries(*g.columns))
      head.columns.push_back({"",
                              fmt::format("{} {}{}", g.columns->before, g.columns->text(column),
                                          g.columns->unit.empty() ? "" : " " + g.columns->unit),
                              unit, width});
    return head;
  }
  if (g.columns) head.columns.push_back(column_of(*g.columns));
  for (std::size_t k = 0; k < l.widths.size(); ++k) {
    const GridQuantity& q = g.quantities[k];
    head.columns.push_back({q.key, q.name, q.unit, l.widths[k]});
    if (shape == Shape::for_programs) head.columns.push_back({q.key + "_U", "", "", 0});
  }
  if (shape == Shape::for_people && g.doubt_of == DoubtOf::entry)
    head.columns.push_back({"", "±", g.quantities.front().unit, l.widths.front()});
  if (shape == Shape::for_programs)
    head.lines.insert(head.lines.end(), g.notes.begin(), g.notes.end());
  return head;
}

std::size_t cells_of(const Grid& g) {
  return g.rows.size() * (1 + (g.columns ? g.columns->size() : g.quantities.size()));
}

void write_rows(const Grid& g, const GridLayout& layout, Shape shape, document::SheetWriter& out) {
  Rows rows{g, layout};
  if (shape == Shape::for_people)
    rows.for_people(out);
  else
    rows.for_programs(out);
}

void each_json(const Grid& g, const std::function<void(const std::string&)>& object) {
  (void)stretch_of(g);  // refuses one without a cell
  for (std::size_t i = 0; i < g.rows.size(); ++i)
    for (const double column : columns_of(g))
      if (const auto json = g.json(g.rows.at(static_cast<double>(i)), column)) object(*json);
}

}  // namespace areo::paper
