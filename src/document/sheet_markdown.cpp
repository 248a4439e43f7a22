// SPDX-License-Identifier: GPL-3.0-or-later
// A table in Markdown, as documents and wikis show it.
#include <fmt/format.h>

#include "areo/text/markdown.hpp"
#include "sheet_writers.hpp"

namespace areo::document {
namespace {

class MarkdownSheet : public SheetWriter {
 public:
  MarkdownSheet(std::ostream& out, const SheetHead& head)
      : SheetWriter{head.columns.size()},
        out_{out},
        source_{head.source},
        cautions_{head.cautions} {
    out_ << "# " << text::markdown_line(head.title) << "\n\n";
    for (const std::string& text : head.headline.lines)
      out_ << "**" << text::markdown_line(text) << "**\n\n";
    for (const std::string& text : head.headline.below) out_ << text::markdown_line(text) << "\n\n";
    for (const std::string& text : head.lines) out_ << text::markdown_line(text) << "\n\n";
    std::vector<std::string> names;
    for (const SheetColumn& c : head.columns) names.push_back(heading(c));
    write_row(names);
    for (std::size_t k = 0; k < names.size(); ++k) out_ << "|--:";
    out_ << "|\n";
  }

 private:
  void write_row(const std::vector<std::string>& cells) override {
    for (const std::string& cell : cells) out_ << "| " << text::markdown_cell(cell) << ' ';
    out_ << "|\n";
  }
  void write_summary(const std::vector<std::string>& cells) override { write_row(cells); }
  void write_end(const std::vector<std::string>& notes) override {
    for (const std::string& text : notes) out_ << '\n' << text::markdown_line(text) << '\n';
    for (const std::string& text : cautions_)
      out_ << "\n**Caution:** " << text::markdown_line(text) << '\n';
    for (const std::string& text : source_) out_ << '\n' << text::markdown_line(text) << '\n';
  }
  std::ostream& out_;
  const std::vector<std::string> source_, cautions_;
};

}  // namespace

std::unique_ptr<SheetWriter> markdown_sheet(std::ostream& out, const SheetHead& head) {
  return std::make_unique<MarkdownSheet>(out, head);
}

}  // namespace areo::document
