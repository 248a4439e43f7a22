#include "write_page.hpp"

#include "areo/report/pdf.hpp"
#include "write_file.hpp"

namespace areo::cli {

void write_page(const std::string& path, const report::Page& page) {
  write_html(path, page.html(), report::says_pdf(path));
}

void write_html(const std::string& path, const std::string& html, bool as_pdf) {
  const std::string bytes = as_pdf ? report::pdf(html) : html;
  write_file(path, [&](std::ostream& out) { out << bytes; });
}

std::string page_written(const std::string& path) {
  return path + (report::says_pdf(path)
                     ? ": sheets to print; fonts and pictures are in it"
                     : ": a page that needs nothing else; open it in any browser");
}

}  // namespace areo::cli
