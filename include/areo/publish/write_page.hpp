// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A page as a file.
#include <string>

namespace areo::publish {

/// A page as HTML, or as PDF; an older file is replaced.
/// @throws Error{file} as write_file() and pdf()
void write_html(const std::string& path, const std::string& html, bool as_pdf);

/// "page.html: a page that needs nothing else; open it in any browser", "page.pdf: sheets of paper"
[[nodiscard]] std::string page_written(const std::string& path, bool as_pdf);

}  // namespace areo::publish
