// SPDX-License-Identifier: GPL-3.0-or-later
#include "output.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "areo/core/error.hpp"
#include "areo/text/format.hpp"
#include "areo/text/lines.hpp"
#include "screen.hpp"

namespace areo::cli {

std::string line_text(std::string_view text) { return text::printed(text, screen_columns()); }

void line(std::string_view text) {
  const std::string out = line_text(text);
  std::fwrite(out.data(), 1, out.size(), stdout);
}

void error_line(std::string_view text) {
  const std::string out = line_text(text);
  std::fwrite(out.data(), 1, out.size(), stderr);
}

void table(std::vector<std::vector<std::string>> rows, std::size_t spare) {
  constexpr std::size_t indent = 2;
  for (auto& row : rows)
    for (std::string& cell : row) cell = text::printable(cell);
  const text::TableText text = text::table_text(rows, screen_columns() - indent, spare);
  for (const std::string& row : text.lines) raw_line(std::string(indent, ' ') + row);
  if (text.left_out == 0) return;
  const auto& heads = rows.front();
  std::string names;
  for (std::size_t k = heads.size() - text.left_out; k < heads.size(); ++k)
    names += (names.empty() ? "" : ", ") + heads[k].substr(0, heads[k].find(", "));
  line(fmt::format("  without {}: {} columns have room, --json has all", names,
                   indent + text.needed));
}

void raw_line(std::string_view text) {
  std::fwrite(text.data(), 1, text.size(), stdout);
  std::fputc('\n', stdout);
}

void notes(const std::vector<std::string>& all) {
  for (const std::string& n : all) line("note: " + n);
}

void lines(const std::vector<std::string>& all) {
  for (const std::string& text : all) line(text);
}

void finish_output() {
  if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0)
    throw Error{Errc::file, "the output could not be written",
                "is the disk full, or the reader of the pipe gone?"};
}

}  // namespace areo::cli
