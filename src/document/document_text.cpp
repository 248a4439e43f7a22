// SPDX-License-Identifier: GPL-3.0-or-later
// A document for a terminal.
#include <cstddef>

#include "areo/document/document.hpp"
#include "areo/text/format.hpp"
#include "areo/text/lines.hpp"

namespace areo::document {
namespace {

struct Writer {
  std::vector<std::string>* lines;
  std::size_t columns;

  void wrap(const std::string& first, const std::string& further, const std::string& text) const {
    const std::size_t width = columns - text::display_width(first);
    const auto parts = text::wrapped(text::printable(text), width);
    for (std::size_t i = 0; i < parts.size(); ++i)
      lines->push_back((i == 0 ? first : further) + parts[i]);
  }
  void operator()(const Paragraph& p) const { wrap("", "", p.text); }
  void operator()(const Bullets& b) const {
    for (const std::string& item : b.items) wrap("- ", "  ", item);
  }
  void operator()(const CaptionedTable& g) const {
    wrap("", "", g.caption);
    auto rows = g.rows;
    for (auto& row : rows)
      for (std::string& cell : row) cell = text::printable(cell);
    constexpr std::size_t indent = 2;
    for (const std::string& row : text::table_text(rows, columns - indent).lines)
      lines->push_back(std::string(indent, ' ') + row);
  }
  void operator()(const Picture&) const {}
  void operator()(const Subheading& s) const {
    lines->emplace_back();
    wrap("", "", s.text);
  }
  void operator()(const Caution& c) const { wrap("", "", "caution: " + c.text); }
  void operator()(const Headline& h) const {
    for (const std::string& text : h.lines) wrap("", "", text);
    for (const std::string& text : h.below) wrap("  ", "  ", text);
  }
};

}  // namespace

std::vector<std::string> text_of(const Document& d, std::size_t columns) {
  std::vector<std::string> lines;
  const Writer write{&lines, columns};
  write.wrap("", "", d.title);
  if (!d.caution.empty()) write.wrap("", "", d.caution);
  lines.emplace_back();
  for (const Block& b : d.opening) std::visit(write, b);
  for (const Section& s : d.sections) {
    lines.emplace_back();
    write.wrap("", "", s.heading);
    lines.emplace_back(text::display_width(text::printable(s.heading)), '-');
    for (const Block& b : s.blocks) std::visit(write, b);
  }
  lines.emplace_back();
  if (!d.caution.empty()) write.wrap("", "", d.caution);
  for (const std::string& text : d.footer) write.wrap("", "", text);
  if (!d.end.empty()) write.wrap("", "", d.end);
  return lines;
}

}  // namespace areo::document
