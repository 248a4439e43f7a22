#include "areo/report/chart.hpp"
#include "run_program.hpp"
#include "svg_colours.hpp"

namespace areo::report {

std::string draw(const std::string& script) {
  // -d: no settings of the user, so that a picture looks the same everywhere.
  const std::string picture = run({"gnuplot", {"-d"}, "gnuplot-nox", "pictures"}, script);
  return picture.starts_with("<?xml") ? with_plain_colours(picture) : picture;
}

}  // namespace areo::report
