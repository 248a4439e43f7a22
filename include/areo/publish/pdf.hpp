// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A page for paper, as PDF.
#include <cstddef>
#include <functional>
#include <string>

namespace areo::publish {

/// The sheets that a page makes, with its fonts in it and text that can be searched, set by
/// WeasyPrint with the print style of the page.
/// @param html  a whole page, of document::Page or a table's
/// @return      the bytes of a file
/// @throws      Error{file} if WeasyPrint is not installed, or makes nothing
[[nodiscard]] std::string pdf(const std::string& html);

/// How many sheets a PDF has that pdf() made.
/// @throws Error{file} if it does not say so in pdf()'s way
[[nodiscard]] int sheets(const std::string& pdf);

/// What belongs on one sheet: in the largest of some sizes that leaves it there.
/// @param sizes  how many there are, at least one
/// @param html   the page in size 0 .. sizes - 1; a larger one takes more room
/// @return       as pdf()
/// @throws       Error{domain} if it does not fit even with the smallest, and as pdf()
[[nodiscard]] std::string pdf_on_one_sheet(std::size_t sizes,
                                           const std::function<std::string(std::size_t)>& html);

}  // namespace areo::publish
