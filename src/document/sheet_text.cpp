// SPDX-License-Identifier: GPL-3.0-or-later
// A table in columns of text.
#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "areo/text/format.hpp"
#include "areo/text/lines.hpp"
#include "sheet_writers.hpp"

namespace areo::document {
namespace {

constexpr std::size_t rows_a_sheet = 50;  // of paper, with head and foot

// A long name in a narrow column would become a tower.
std::size_t width_of(const SheetColumn& c) {
  constexpr std::size_t least_for_names = 9;
  return std::max({c.width, text::display_width(c.unit), text::longest_unbroken(c.name),
                   std::min(least_for_names, text::display_width(c.name))});
}

// "at 1.000" may be two lines, where there is no other way.
std::size_t least_width_of(const SheetColumn& c) {
  return std::max({c.width, text::display_width(c.unit), text::longest_unbroken(c.name)});
}

class TextSheet : public SheetWriter {
 public:
  TextSheet(std::ostream& out, const SheetHead& head)
      : SheetWriter{head.columns.size()},
        out_{out},
        source_{head.source},
        cautions_{head.cautions},
        columns_{head.text_columns} {
    arrange(head.columns);
    for (std::size_t i = 0; i + 1 < parts_.size(); ++i)
      name(head.columns, parts_[i], parts_[i + 1]);
    print(head.title);
    for (const auto* all : {&head.headline.lines, &head.headline.below, &head.lines})
      for (const std::string& text : *all) print(text);
    out_ << names_;
  }

 private:
  // Too many columns stand closer, then below each other: a row takes several lines, those after
  // the first one behind its entry.
  void arrange(const std::vector<SheetColumn>& columns) {
    for (const SheetColumn& c : columns) widths_.push_back(width_of(c));
    const auto total = [&] {
      return std::accumulate(widths_.begin(), widths_.end(), gap_ * (widths_.size() - 1));
    };
    if (total() > columns_) {
      gap_ = 1;
      for (std::size_t k = 0; total() > columns_ && k < columns.size(); ++k)
        widths_[k] = least_width_of(columns[k]);
    }
    parts_ = {0};
    std::size_t taken = widths_[0];
    for (std::size_t k = 1; k < widths_.size(); ++k) {
      taken += gap_ + widths_[k];
      if (taken > columns_ && k > parts_.back() + (parts_.size() == 1 ? 1 : 0)) {
        parts_.push_back(k);
        taken = widths_[0] + gap_ + widths_[k];
      }
    }
    parts_.push_back(widths_.size());
  }

  // Names of the columns of one part, and their units.
  void name(const std::vector<SheetColumn>& columns, std::size_t begin, std::size_t end) {
    std::vector<std::vector<std::string>> names;
    std::size_t height = 0;
    bool units = false;
    for (std::size_t k = begin; k < end; ++k) {
      names.push_back(text::wrapped(columns[k].name, widths_[k]));
      height = std::max(height, names.back().size());
      units = units || !columns[k].unit.empty();
    }
    for (std::size_t i = 0; i < height; ++i) {
      std::vector<std::string> cells(begin);
      for (const auto& name : names)  // the last lines of all names stand side by side
        cells.push_back(i + name.size() < height ? "" : name[i + name.size() - height]);
      names_ += line_of(cells, begin, end);
    }
    if (!units) return;
    std::vector<std::string> cells;
    cells.reserve(columns.size());
    for (const SheetColumn& c : columns) cells.push_back(c.unit);
    names_ += line_of(cells, begin, end);
  }

  void print(const std::string& text) {
    for (const std::string& part : text::fitted(text::printable(text), columns_))
      out_ << part << '\n';
  }
  void print(const std::vector<std::string>& cells) {
    for (std::size_t i = 0; i + 1 < parts_.size(); ++i)
      out_ << line_of(cells, parts_[i], parts_[i + 1]);
  }
  void write_row(const std::vector<std::string>& cells) override {
    if (rows_ > 0 && rows_ % rows_a_sheet == 0) out_ << '\n' << names_;
    ++rows_;
    print(cells);
  }
  void write_summary(const std::vector<std::string>& cells) override { print(cells); }
  void write_end(const std::vector<std::string>& notes) override {
    for (const std::string& text : notes) print(text);
    for (const std::string& text : cautions_) print("caution: " + text);
    for (const std::string& text : source_) print(text);
  }

  [[nodiscard]] std::string line_of(const std::vector<std::string>& cells, std::size_t begin,
                                    std::size_t end) const {
    std::string line(begin == 0 ? 0 : widths_[0], ' ');
    for (std::size_t k = begin; k < end; ++k) {
      const std::string cell = text::printable(cells[k]);
      const std::size_t wide = text::display_width(cell);
      if (k > 0) line.append(gap_, ' ');
      line += std::string(widths_[k] - std::min(widths_[k], wide), ' ') + cell;
    }
    line.erase(line.find_last_not_of(' ') + 1);
    return line + '\n';
  }

  std::ostream& out_;
  const std::vector<std::string> source_, cautions_;
  std::size_t columns_;              // of a line
  std::vector<std::size_t> widths_;  // of each column
  std::size_t gap_ = 2;
  std::vector<std::size_t> parts_;  // where each line of a row begins, and the end of the last one
  std::string names_;
  std::size_t rows_ = 0;
};

}  // namespace

std::unique_ptr<SheetWriter> text_sheet(std::ostream& out, const SheetHead& head) {
  return std::make_unique<TextSheet>(out, head);
}

}  // namespace areo::document
