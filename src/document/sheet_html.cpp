// SPDX-License-Identifier: GPL-3.0-or-later
// A table as a page in HTML.
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <optional>
#include <string_view>

#include "areo/text/format.hpp"
#include "areo/text/lines.hpp"
#include "page_parts.hpp"
#include "sheet_writers.hpp"

namespace areo::document {
namespace {

// "20/20 °C" stays on one line.
std::string unbroken(std::string text) {
  constexpr std::string_view space_degree = " °", joined = "\u00A0°";
  for (std::size_t at = 0; (at = text.find(space_degree, at)) != std::string::npos; ++at)
    if (at > 0 && std::isdigit(static_cast<unsigned char>(text[at - 1])) != 0)
      text.replace(at, space_degree.size(), joined);
  return text;
}

// Of a table on paper, in points, as page_style.hpp has it: type and the space beside a cell.
struct Type {
  double size, space;
};
constexpr Type usual{8.55, 9.5}, small{7.6, 5.7};
// Mean widths of DejaVu Sans over its size: a number with its sign and point, and bold letters.
constexpr double digit = 0.62, bold = 0.64;

// A cell is never broken, a name between its words, a unit not at all.
double width_of(const SheetColumn& c, Type type) {
  const auto name = static_cast<double>(text::longest_word(unbroken(c.name) + ","));
  const auto unit = static_cast<double>(text::display_width(c.unit));
  const auto cell = static_cast<double>(c.width);
  return type.space + type.size * std::max(digit * cell, bold * std::max(name, unit));
}

double sheet_width(const PageSetup& setup, bool landscape) {
  constexpr double point_mm = 25.4 / 72, margins_mm = 30;
  const bool letter = setup.paper == Paper::letter;
  const double mm = landscape ? (letter ? 279.4 : 297) : (letter ? 215.9 : 210);
  return (mm - margins_mm) / point_mm;
}

struct Fit {
  TableStyle style;
  bool landscape;
};
// The largest type in which all columns fit across, upright if that can be.
std::optional<Fit> fit_of(const SheetHead& head) {
  const auto fits = [&](Type type, bool landscape) {
    double all = 0;
    for (const SheetColumn& c : head.columns) all += width_of(c, type);
    return all <= sheet_width(head.setup, landscape);
  };
  const bool landscape = head.setup.landscape;
  if (fits(usual, landscape)) return Fit{TableStyle::numbers, landscape};
  if (fits(small, landscape)) return Fit{TableStyle::many_numbers, landscape};
  if (fits(small, true)) return Fit{TableStyle::many_numbers, true};
  return std::nullopt;
}

class HtmlSheet : public SheetWriter {
 public:
  HtmlSheet(std::ostream& out, const SheetHead& head)
      : SheetWriter{head.columns.size()},
        out_{out},
        source_{head.source},
        cautions_{head.cautions} {
    for (const SheetColumn& c : head.columns) names_.push_back(unbroken(heading(c)));
    PageSetup setup = head.setup;
    if (setup.running.empty()) setup.running = head.title;
    // A table for the wall or for a pen has a style of its own.
    Fit fit{TableStyle::numbers, setup.landscape};
    if (!setup.for_the_wall && !setup.for_a_pen)
      fit = fit_of(head).value_or(Fit{TableStyle::many_numbers, true});
    setup.landscape = fit.landscape;
    out_ << page_begin(head.title, setup);
    Headline first = head.headline;
    for (auto* all : {&first.lines, &first.below})
      for (std::string& text : *all) text = unbroken(text);
    if (!first.lines.empty()) out_ << headline_block(first);
    std::vector<std::size_t> widths;
    if (setup.for_a_pen)
      for (const SheetColumn& c : head.columns) widths.push_back(c.width);
    out_ << table_begin(
        head.lines.empty() ? head.title : unbroken(fmt::format("{}", fmt::join(head.lines, " "))),
        names_, fit.style, widths);
  }

 private:
  void write_row(const std::vector<std::string>& cells) override {
    out_ << table_row(names_, cells);
  }
  void write_summary(const std::vector<std::string>& cells) override { write_row(cells); }
  void write_end(const std::vector<std::string>& notes) override {
    out_ << table_end;
    for (const std::string& text : notes) out_ << element("p", text);
    for (const std::string& text : cautions_) out_ << caution_block(text);
    std::string footer;
    for (const std::string& text : source_) footer += element("p", text);
    out_ << page_end(footer);
  }
  std::ostream& out_;
  std::vector<std::string> names_, source_, cautions_;
};

}  // namespace

bool fits_across(const SheetHead& head) { return fit_of(head).has_value(); }

std::unique_ptr<SheetWriter> html_sheet(std::ostream& out, const SheetHead& head) {
  return std::make_unique<HtmlSheet>(out, head);
}

}  // namespace areo::document
