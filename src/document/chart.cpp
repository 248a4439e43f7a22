// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/document/chart.hpp"

#include <fmt/format.h>

#include "areo/core/error.hpp"

namespace areo::document {

PictureFormat picture_format(const std::string& file) {
  if (file.ends_with(".svg")) return PictureFormat::svg;
  if (file.ends_with(".pdf")) return PictureFormat::pdf;
  if (file.ends_with(".png"))
    throw Error{Errc::domain, fmt::format("{} would be dots, and areo draws lines", file),
                "a name that ends in .svg opens in any browser, and .pdf is for paper"};
  throw Error{Errc::domain, fmt::format("{} is not a kind of picture", file),
              "a name that ends in .svg or .pdf"};
}

}  // namespace areo::document
