#pragma once
// A page for paper, as PDF.
#include <string>

namespace areo::report {

/// The sheets that a page makes, with its fonts in it and text that can be searched, set by
/// WeasyPrint with the print style of the page.
/// @param html  a whole page, of report::Page or a table's
/// @return      the bytes of a file
/// @throws      Error{file} if WeasyPrint is not installed, or makes nothing
[[nodiscard]] std::string pdf(const std::string& html);

/// Whether a file's name ends in ".pdf", in whatever case.
[[nodiscard]] bool says_pdf(const std::string& file);

}  // namespace areo::report
