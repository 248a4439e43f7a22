#include "output.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "areo/core/error.hpp"
#include "areo/report/text.hpp"

namespace areo::cli {

void line(std::string_view text) { raw_line(report::printable(text)); }

void raw_line(std::string_view text) {
  std::fwrite(text.data(), 1, text.size(), stdout);
  std::fputc('\n', stdout);
}

void notes(const std::vector<std::string>& all) {
  for (const std::string& n : all) line("note: " + n);
}

void quantity_lines(const std::vector<measurement::Quantity>& quantities, bool full) {
  quantity_lines(quantities, [full](const measurement::Quantity& q) {
    return report::value_text(q.value, q.unit, full);
  });
}

void quantity_lines(const std::vector<measurement::Quantity>& quantities,
                    const std::function<std::string(const measurement::Quantity&)>& text) {
  std::size_t width = 0;
  for (const auto& q : quantities) width = std::max(width, report::display_width(q.name));
  for (const auto& q : quantities) line(fmt::format("  {:<{}}  {}", q.name, width, text(q)));
}

void finish_output() {
  if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0)
    throw Error{Errc::file, "the output could not be written",
                "is the disk full, or the reader of the pipe gone?"};
}

}  // namespace areo::cli
