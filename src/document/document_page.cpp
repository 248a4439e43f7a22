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
  void operator()(const Picture& p) const { page->figure(p.svg, p.caption); }
};

}  // namespace

std::string page_of(const Document& d, Paper paper) {
  PageSetup setup;
  setup.paper = paper;
  setup.running = d.number;
  Page page{d.title, setup};
  page.caution(d.caution);
  page.headline(d.headline, d.below_headline);
  for (const Section& s : d.sections) {
    page.section(s.heading);
    for (const Block& b : s.blocks) std::visit(Writer{&page}, b);
  }
  page.caution(d.caution);
  for (const std::string& text : d.footer) page.footer(text);
  page.footer(d.end);
  return page.html();
}

}  // namespace areo::document
