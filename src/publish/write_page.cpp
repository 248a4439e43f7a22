// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/publish/write_page.hpp"

#include "areo/publish/pdf.hpp"
#include "areo/publish/write_file.hpp"

namespace areo::publish {

void write_html(const std::string& path, const std::string& html, bool as_pdf) {
  const std::string bytes = as_pdf ? pdf(html) : html;
  write_file(path, [&](std::ostream& out) { out << bytes; });
}

std::string page_written(const std::string& path, bool as_pdf) {
  return path + (as_pdf ? ": sheets to print; fonts and pictures are in it"
                        : ": a page that needs nothing else; open it in any browser");
}

}  // namespace areo::publish
