// A table as a page in HTML.
#include <fmt/format.h>

#include <cctype>
#include <string_view>

#include "page_parts.hpp"
#include "sheet_writers.hpp"

namespace areo::report {
namespace {

// "20/20 °C" stays on one line.
std::string unbroken(std::string text) {
  constexpr std::string_view space_degree = " °", joined = "\u00A0°";
  for (std::size_t at = 0; (at = text.find(space_degree, at)) != std::string::npos; ++at)
    if (at > 0 && std::isdigit(static_cast<unsigned char>(text[at - 1])) != 0)
      text.replace(at, space_degree.size(), joined);
  return text;
}

// Of numbers of six digits: what fits on paper in the usual type, and upright.
constexpr std::size_t most_columns_roomy = 9, most_columns_upright = 12;

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
    setup.landscape = setup.landscape || names_.size() > most_columns_upright;
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
        names_, names_.size() > most_columns_roomy ? TableStyle::many_numbers : TableStyle::numbers,
        widths);
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

std::unique_ptr<SheetWriter> html_sheet(std::ostream& out, const SheetHead& head) {
  return std::make_unique<HtmlSheet>(out, head);
}

}  // namespace areo::report
