// SPDX-License-Identifier: GPL-3.0-or-later
// A table as CSV that says where it comes from.
#include <fmt/format.h>

#include <charconv>

#include "areo/text/csv.hpp"
#include "areo/text/format.hpp"
#include "sheet_writers.hpp"

namespace areo::document {
namespace {

// Numbers as they are; a text so that no spreadsheet runs it.
std::string cell_of(const std::string& text) {
  double number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error == std::errc{} && end == text.data() + text.size()) return text;
  return text::csv_text_cell(text);
}

class CsvSheet : public SheetWriter {
 public:
  CsvSheet(std::ostream& out, const SheetHead& head) : SheetWriter{head.columns.size()}, out_{out} {
    out_ << "# title: " << text::printable(head.title) << '\n';
    out_ << "# source: " << text::printable(fmt::format("{}", fmt::join(head.source, "; ")))
         << '\n';
    std::vector<std::string> keys, units;
    for (const SheetColumn& c : head.columns) {
      keys.push_back(c.key);
      if (!c.name.empty()) units.push_back(fmt::format("{} = {}", c.key, heading(c)));
    }
    if (units.size() < keys.size())
      units.emplace_back("..._U = expanded uncertainty of ..., about 95 %, in its unit");
    out_ << "# units: " << text::printable(fmt::format("{}", fmt::join(units, "; "))) << '\n';
    out_ << "# verified: computed\n";
    for (const auto* all :
         {&head.headline.lines, &head.headline.below, &head.lines, &head.cautions})
      for (const std::string& text : *all) out_ << "# note: " << text::printable(text) << '\n';
    write_row(keys);
  }

 private:
  void write_row(const std::vector<std::string>& cells) override {
    for (std::size_t k = 0; k < cells.size(); ++k) out_ << (k > 0 ? "," : "") << cell_of(cells[k]);
    out_ << '\n';
  }
  void write_summary(const std::vector<std::string>& /*cells*/) override {}
  void write_end(const std::vector<std::string>& /*notes*/) override {}
  std::ostream& out_;
};

}  // namespace

std::unique_ptr<SheetWriter> csv_sheet(std::ostream& out, const SheetHead& head) {
  return std::make_unique<CsvSheet>(out, head);
}

}  // namespace areo::document
