// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/publish/pdf.hpp"

#include <charconv>
#include <cstddef>
#include <string_view>
#include <utility>

#include "areo/core/error.hpp"
#include "run_program.hpp"

namespace areo::publish {

std::string pdf(const std::string& html) {
  return run({"weasyprint", {"--quiet", "--encoding", "utf-8", "-", "-"}, "weasyprint", "PDF"},
             html);
}

int sheets(const std::string& pdf) {
  // The object that all sheets hang on: "/Type /Pages" and, before its end, "/Count 2".
  constexpr std::string_view kind = "/Type /Pages\n", count = "/Count ";
  const std::size_t object = pdf.find(kind);
  const std::size_t end = object == std::string::npos ? object : pdf.find(">>", object);
  const std::size_t at = end == std::string::npos ? end : pdf.find(count, object);
  int number = 0;
  if (at < end) (void)std::from_chars(pdf.data() + at + count.size(), pdf.data() + end, number);
  if (number < 1)
    throw Error{Errc::file, "the PDF does not say how many sheets it has",
                "another version of WeasyPrint may write it in another way"};
  return number;
}

std::string pdf_on_one_sheet(std::size_t sizes,
                             const std::function<std::string(std::size_t)>& html) {
  if (sizes == 0) throw Error{Errc::domain, "no size to set a sheet in"};
  std::string fits = pdf(html(0));
  if (sheets(fits) > 1)
    throw Error{Errc::domain, "that does not fit on one sheet of paper",
                "take fewer rows or a larger step, fewer columns, or write it as HTML"};
  // The first size that is too large lies in (lo, hi].
  std::size_t lo = 0, hi = sizes;
  while (hi - lo > 1) {
    const std::size_t middle = (lo + hi) / 2;
    std::string tried = pdf(html(middle));
    const bool one = sheets(tried) == 1;
    (one ? lo : hi) = middle;
    if (one) fits = std::move(tried);
  }
  return fits;
}

}  // namespace areo::publish
