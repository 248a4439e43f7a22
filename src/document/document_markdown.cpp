// SPDX-License-Identifier: GPL-3.0-or-later
// A document as Markdown.
#include <utility>

#include "areo/document/document.hpp"
#include "areo/text/markdown.hpp"

namespace areo::document {
namespace {

struct Writer {
  std::vector<std::string>* lines;
  void block(std::string text) const {
    lines->push_back(std::move(text));
    lines->emplace_back();
  }
  void strong(const std::string& text) const { block("**" + text::markdown_line(text) + "**"); }
  void row(const std::vector<std::string>& cells) const {
    std::string text = "|";
    for (const std::string& c : cells) text += " " + text::markdown_cell(c) + " |";
    lines->push_back(text);
  }
  void operator()(const Paragraph& p) const { block(text::markdown_line(p.text)); }
  void operator()(const Bullets& b) const {
    for (const std::string& item : b.items) lines->push_back("- " + text::markdown_line(item));
    if (!b.items.empty()) lines->emplace_back();
  }
  void operator()(const CaptionedTable& g) const {
    block(text::markdown_line(g.caption));
    row(g.rows.front());
    std::string rule = "|";
    for (std::size_t k = 0; k < g.rows.front().size(); ++k) rule += "---|";
    lines->push_back(rule);
    for (std::size_t i = 1; i < g.rows.size(); ++i) row(g.rows[i]);
    lines->emplace_back();
  }
  void operator()(const Picture&) const {}
  void operator()(const Subheading& s) const { block("### " + text::markdown_line(s.text)); }
  void operator()(const Caution& c) const { block("**Caution:** " + text::markdown_line(c.text)); }
  void operator()(const Headline& h) const {
    for (const std::string& text : h.lines) strong(text);
    (*this)(Bullets{h.below});
  }
};

}  // namespace

std::vector<std::string> markdown_of(const Document& d) {
  std::vector<std::string> lines;
  const Writer write{&lines};
  write.block("# " + text::markdown_line(d.title));
  if (!d.caution.empty()) write.strong(d.caution);
  for (const Block& b : d.opening) std::visit(write, b);
  for (const Section& s : d.sections) {
    write.block("## " + text::markdown_line(s.heading));
    for (const Block& b : s.blocks) std::visit(write, b);
  }
  if (!d.caution.empty()) write.strong(d.caution);
  for (const std::string& text : d.footer) write(Paragraph{text});
  if (!d.end.empty()) lines.push_back(text::markdown_line(d.end));
  return lines;
}

}  // namespace areo::document
