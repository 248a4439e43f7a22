// A table in columns of text.
#include <fmt/format.h>

#include <algorithm>

#include "areo/report/text.hpp"
#include "sheet_writers.hpp"

namespace areo::report {
namespace {

constexpr std::size_t rows_a_sheet = 50;  // of paper, with head and foot

std::size_t width_of(const SheetColumn& c) {
  // A long name in a narrow column would become a tower.
  constexpr std::size_t least_for_names = 9;
  return std::max({c.width, display_width(c.unit), longest_word(c.name),
                   std::min(least_for_names, display_width(c.name))});
}

class TextSheet : public SheetWriter {
 public:
  TextSheet(std::ostream& out, const SheetHead& head)
      : SheetWriter{head.columns.size()},
        out_{out},
        source_{head.source},
        cautions_{head.cautions} {
    std::vector<std::vector<std::string>> names;
    std::size_t height = 0;
    bool units = false;
    for (const SheetColumn& c : head.columns) {
      widths_.push_back(width_of(c));
      names.push_back(wrapped(c.name, widths_.back()));
      height = std::max(height, names.back().size());
      units = units || !c.unit.empty();
    }
    for (std::size_t i = 0; i < height; ++i) {
      std::vector<std::string> cells;
      cells.reserve(names.size());
      for (const auto& name : names)  // the last lines of all names stand side by side
        cells.push_back(i + name.size() < height ? "" : name[i + name.size() - height]);
      names_ += line_of(cells);
    }
    if (units) {
      std::vector<std::string> cells;
      cells.reserve(head.columns.size());
      for (const SheetColumn& c : head.columns) cells.push_back(c.unit);
      names_ += line_of(cells);
    }
    out_ << printable(head.title) << '\n';
    for (const auto* all : {&head.headline.lines, &head.headline.below, &head.lines})
      for (const std::string& text : *all) out_ << printable(text) << '\n';
    out_ << names_;
  }

 private:
  void write_row(const std::vector<std::string>& cells) override {
    if (rows_ > 0 && rows_ % rows_a_sheet == 0) out_ << '\n' << names_;
    ++rows_;
    out_ << line_of(cells);
  }
  void write_summary(const std::vector<std::string>& cells) override { out_ << line_of(cells); }
  void write_end(const std::vector<std::string>& notes) override {
    for (const std::string& text : notes) out_ << printable(text) << '\n';
    for (const std::string& text : cautions_) out_ << "caution: " << printable(text) << '\n';
    for (const std::string& text : source_) out_ << printable(text) << '\n';
  }

  [[nodiscard]] std::string line_of(const std::vector<std::string>& cells) const {
    std::string line;
    for (std::size_t k = 0; k < cells.size(); ++k) {
      const std::string cell = printable(cells[k]);
      const std::size_t wide = display_width(cell);
      if (k > 0) line += "  ";
      line += std::string(widths_[k] - std::min(widths_[k], wide), ' ') + cell;
    }
    line.erase(line.find_last_not_of(' ') + 1);
    return line + '\n';
  }

  std::ostream& out_;
  const std::vector<std::string> source_, cautions_;
  std::vector<std::size_t> widths_;
  std::string names_;
  std::size_t rows_ = 0;
};

}  // namespace

std::unique_ptr<SheetWriter> text_sheet(std::ostream& out, const SheetHead& head) {
  return std::make_unique<TextSheet>(out, head);
}

}  // namespace areo::report
