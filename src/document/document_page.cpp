// SPDX-License-Identifier: GPL-3.0-or-later
// A document as a page for browsers and paper.
#include "areo/core/error.hpp"
#include "areo/document/document.hpp"

namespace areo::document {
namespace {

struct Writer {
  Page* page;
  void operator()(const Paragraph& p) const { page->paragraph(p.text); }
  void operator()(const Bullets& b) const { page->list(b.items); }
  void operator()(const CaptionedTable& g) const { page->table(g.caption, g.rows); }
  void operator()(const Picture& p) const { page->figure(p.svg, p.caption, p.half); }
  void operator()(const Subheading& s) const { page->subsection(s.text); }
  void operator()(const Caution& c) const { page->caution(c.text); }
  void operator()(const Headline& h) const { page->headline(h); }
};

}  // namespace

std::string page_of(const Document& d, const std::optional<Paper>& paper) {
  PageSetup setup;
  setup.paper = paper;
  setup.running = d.number;
  Page page{d.title, setup};
  const Writer write{&page};
  if (!d.caution.empty()) page.caution(d.caution);
  for (const Block& b : d.opening) std::visit(write, b);
  for (const Section& s : d.sections) {
    page.section(s.heading);
    for (const Block& b : s.blocks) std::visit(write, b);
  }
  if (!d.caution.empty()) page.caution(d.caution);
  for (const std::string& text : d.footer) page.footer(text);
  if (!d.end.empty()) page.footer(d.end);
  return page.html();
}

}  // namespace areo::document
