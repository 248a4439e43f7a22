// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A page as the file that its name asks for.
#include <string>

#include "areo/document/document.hpp"

namespace areo::publish {

/// PDF if the name ends in ".pdf", else HTML; an older file is replaced.
/// @throws Error{file} as write_file() and pdf()
void write_page(const std::string& path, const document::Document& document);
/// A page that is HTML already, as it is or as PDF.
void write_html(const std::string& path, const std::string& html, bool as_pdf);

/// "page.html: a page that needs nothing else; open it in any browser", "page.pdf: sheets of paper"
[[nodiscard]] std::string page_written(const std::string& path);

}  // namespace areo::publish
