// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A page as a file.
#include <string>

#include "areo/core/unfinished_file.hpp"

namespace areo::publish {

/// A page as HTML, or as PDF; an older file is replaced unless said.
/// @throws Error{file} as write_file() and pdf()
void write_html(const std::string& path, const std::string& html, bool as_pdf,
                Present present = Present::replaced);

/// "page.html: a page that needs nothing else; open it in any browser", "page.pdf: sheets of paper"
[[nodiscard]] std::string page_written(const std::string& path, bool as_pdf);

/// A name that no file in this folder has, "PT-1.html", "PT-1-2.html"; what a folder or a shell
/// would take for something else becomes a dash.
[[nodiscard]] std::string free_name(const std::string& words, const std::string& ending);

}  // namespace areo::publish
