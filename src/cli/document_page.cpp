// A document as a page for browsers and paper.
#include "areo/core/error.hpp"
#include "areo/report/chart.hpp"
#include "document.hpp"
#include "report_material.hpp"

namespace areo::cli {
namespace {

struct Writer {
  report::Page* page;
  Pictures* pictures;
  void operator()(const Paragraph& p) const { page->paragraph(p.text); }
  void operator()(const Bullets& b) const { page->list(b.items); }
  void operator()(const CaptionedTable& g) const { page->table(g.caption, g.rows); }
  void operator()(const Picture& p) const { pictures->add(p.script, p.alt, p.caption); }
};

}  // namespace

DocumentPage page_of(const Document& d, report::Paper paper) {
  report::PageSetup setup;
  setup.paper = paper;
  setup.running = d.number;
  report::Page page{d.title, setup};
  Pictures pictures{page};
  page.caution(d.caution);
  page.headline(d.headline, d.below_headline);
  for (const Section& s : d.sections) {
    page.section(s.heading);
    for (const Block& b : s.blocks) std::visit(Writer{&page, &pictures}, b);
  }
  page.caution(d.caution);
  for (const std::string& text : d.footer) page.footer(text);
  page.footer(d.end);
  return {page.html(), pictures.missing()};
}

}  // namespace areo::cli
