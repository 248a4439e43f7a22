// A document for a terminal.
#include <algorithm>
#include <cstddef>

#include "areo/report/text.hpp"
#include "document.hpp"

namespace areo::cli {
namespace {

constexpr std::size_t most_columns = 100;
constexpr std::size_t between_columns = 2;

std::vector<std::string> wrapped(const std::string& text, std::size_t width) {
  return report::wrapped(report::printable(text), width);
}

// The widths that let a table fit: the widest column gives way first, but breaks no word.
std::vector<std::size_t> widths_of(const CaptionedTable& g) {
  const std::size_t n = g.rows.front().size();
  std::vector<std::size_t> width(n, 0);
  std::vector<std::size_t> least(n, 0);
  for (const auto& row : g.rows)
    for (std::size_t k = 0; k < row.size(); ++k) {
      width[k] = std::max(width[k], report::display_width(report::printable(row[k])));
      least[k] = std::max(least[k], report::longest_word(report::printable(row[k])));
    }
  std::size_t total = 2 + between_columns * (n - 1);
  for (const std::size_t w : width) total += w;
  while (total > most_columns) {
    std::size_t widest = n;
    for (std::size_t k = 0; k < n; ++k)
      if (width[k] > least[k] && (widest == n || width[k] > width[widest])) widest = k;
    if (widest == n) break;
    --width[widest];
    --total;
  }
  return width;
}

struct Writer {
  std::vector<std::string>* lines;

  void wrap(const std::string& first, const std::string& further, const std::string& text) const {
    const std::size_t width = most_columns - report::display_width(first);
    const auto parts = wrapped(text, width);
    for (std::size_t i = 0; i < parts.size(); ++i)
      lines->push_back((i == 0 ? first : further) + parts[i]);
  }
  void row(const std::vector<std::string>& cells, const std::vector<std::size_t>& widths) const {
    std::vector<std::vector<std::string>> columns;
    columns.reserve(cells.size());
    std::size_t height = 1;
    for (std::size_t k = 0; k < cells.size(); ++k) {
      columns.push_back(wrapped(cells[k], widths[k]));
      height = std::max(height, columns.back().size());
    }
    for (std::size_t i = 0; i < height; ++i) {
      std::string text = "  ";
      std::size_t at = 0;
      for (std::size_t k = 0; k < columns.size(); ++k) {
        const std::string part = i < columns[k].size() ? columns[k][i] : "";
        text += part;
        at = widths[k] - std::min(widths[k], report::display_width(part)) + between_columns;
        text += std::string(at, ' ');
      }
      text.erase(text.find_last_not_of(' ') + 1);
      lines->push_back(text);
    }
  }
  void operator()(const Paragraph& p) const { wrap("", "", p.text); }
  void operator()(const Bullets& b) const {
    for (const std::string& item : b.items) wrap("- ", "  ", item);
  }
  void operator()(const CaptionedTable& g) const {
    wrap("", "", g.caption);
    const auto widths = widths_of(g);
    for (const auto& cells : g.rows) row(cells, widths);
  }
  void operator()(const Picture&) const {}
};

}  // namespace

std::vector<std::string> text_of(const Document& d) {
  std::vector<std::string> lines;
  const Writer write{&lines};
  write.wrap("", "", d.title);
  write.wrap("", "", d.caution);
  lines.emplace_back();
  write.wrap("", "", d.headline);
  for (const std::string& text : d.below_headline) write.wrap("  ", "  ", text);
  for (const Section& s : d.sections) {
    lines.emplace_back();
    write.wrap("", "", s.heading);
    lines.emplace_back(report::display_width(report::printable(s.heading)), '-');
    for (const Block& b : s.blocks) std::visit(write, b);
  }
  lines.emplace_back();
  write.wrap("", "", d.caution);
  for (const std::string& text : d.footer) write.wrap("", "", text);
  write.wrap("", "", d.end);
  return lines;
}

}  // namespace areo::cli
