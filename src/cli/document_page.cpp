// A document as a page for browsers and paper.
#include "areo/core/error.hpp"
#include "document.hpp"

namespace areo::cli {
namespace {

struct Writer {
  report::Page* page;
  void operator()(const Paragraph& p) const { page->paragraph(p.text); }
  void operator()(const Bullets& b) const { page->list(b.items); }
  void operator()(const CaptionedTable& g) const { page->table(g.caption, g.rows); }
  void operator()(const Picture& p) const { page->figure(p.svg, p.caption); }
};

}  // namespace

std::string page_of(const Document& d, report::Paper paper) {
  report::PageSetup setup;
  setup.paper = paper;
  setup.running = d.number;
  report::Page page{d.title, setup};
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

}  // namespace areo::cli
