// SPDX-License-Identifier: GPL-3.0-or-later
#include "print_options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <string_view>

#include "areo/core/error.hpp"
#include "areo/publish/write_file.hpp"
#include "areo/publish/write_page.hpp"
#include "failure.hpp"
#include "screen.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

struct Known {
  std::string_view word, ending;
  PrintFormat format;
};
constexpr std::array known{
    Known{"text", ".txt", PrintFormat::text}, Known{"csv", ".csv", PrintFormat::csv},
    Known{"markdown", ".md", PrintFormat::markdown}, Known{"html", ".html", PrintFormat::html},
    Known{"pdf", ".pdf", PrintFormat::pdf}};

std::string endings(const std::vector<std::string>& formats, std::string_view between) {
  std::string all;
  for (const Known& k : known)
    if (std::find(formats.begin(), formats.end(), k.word) != formats.end())
      all += fmt::format("{}{}", all.empty() ? "" : between, k.ending.substr(1));
  return all;
}

std::string lower(std::string text) {
  for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return text;
}

}  // namespace

void add_print_options(const Command& command, PrintOptions& options,
                       const std::vector<std::string>& formats) {
  command
      .add_option("--out", options.out,
                  "write it to this file; its ending says how, an older one is replaced")
      .type_name("FILE." + endings(formats, "|"));
  command.add_option("--format", options.format, "text unless stated").one_of(formats);
  command.add_option("--paper", options.paper, "of a page, A4 or Letter; A4 unless stated")
      .one_of({"A4", "Letter"});
}

PrintFormat format_of(const PrintOptions& o) {
  for (const Known& k : known)
    if (o.format == k.word) return k.format;
  for (const Known& k : known)
    if (lower(o.out).ends_with(k.ending)) return k.format;
  if (o.out.empty()) return PrintFormat::text;
  throw ParseError{"the name of the file does not say what it is to be", o.out, 0, o.out.size(),
                   "end it in .txt, .csv, .md, .html or .pdf, or say --format"};
}

document::Paper paper_of(const PrintOptions& o) {
  return o.paper == "Letter" ? document::Paper::letter : document::Paper::a4;
}

void refuse_csv(const PrintOptions& o, const std::string& what) {
  if (format_of(o) == PrintFormat::csv)
    throw UsageError{what + " is not a table", "let the name end in .txt, .md, .html or .pdf"};
}

void print_document(const document::Document& d, const PrintOptions& o) {
  const PrintFormat format = format_of(o);
  if (format == PrintFormat::html || format == PrintFormat::pdf) {
    const std::string page = document::page_of(d, paper_of(o));
    if (o.out.empty())
      raw_line(page);
    else
      publish::write_html(o.out, page, format == PrintFormat::pdf, o.present);
    return;
  }
  const std::vector<std::string> all =
      format == PrintFormat::markdown
          ? document::markdown_of(d)
          : document::text_of(d, o.out.empty() ? screen_columns() : file_columns());
  if (o.out.empty())
    for (const std::string& text : all) raw_line(text);  // laid out already
  else
    publish::write_file(o.out, [&](std::ostream& out) {
      for (const std::string& text : all) out << text << '\n';
    });
}

void check_print_options(const PrintOptions& o, const Session& session) {
  refuse_together(session.json, "--json", !o.format.empty(), "--format", "choose one of the two");
  const PrintFormat format = format_of(o);
  if (format == PrintFormat::pdf && o.out.empty())
    throw UsageError{"a PDF goes into a file, and none is named", "say --out FILE.pdf"};
  if (!o.paper.empty() && format != PrintFormat::pdf && format != PrintFormat::html)
    throw UsageError{"--paper is about sheets",
                     "say --out FILE.pdf, or FILE.html to print it from a browser"};
}

}  // namespace areo::cli
