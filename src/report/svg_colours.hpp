#pragma once
// Colours of a picture, each written where it is used.
#include <string>

namespace areo::report {

/// gnuplot's SVG names the colour of a symbol where it is placed, and "currentColor" where it is
/// drawn. Not every reader of SVG carries the one to the other; here each element that is painted
/// gets the colour itself.
[[nodiscard]] std::string with_plain_colours(const std::string& svg);

}  // namespace areo::report
