// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/document/page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/text/format.hpp"
#include "page_parts.hpp"
#include "page_style.hpp"

namespace areo::document {
namespace {

// A number with its uncertainty, "-0.00374 ± 0.00092", or a date and a time: kept on one line.
constexpr std::size_t short_cell = 18;
// A word that no sheet is wide enough for, and that has to be broken somewhere.
constexpr std::size_t long_word = 50;

const char* class_of(std::string_view escaped) {
  if (text::display_width(escaped) <= short_cell) return " class=\"short\"";
  std::size_t begin = 0;
  while (begin < escaped.size()) {
    const std::size_t end = std::min(escaped.find(' ', begin), escaped.size());
    if (end - begin > long_word) return " class=\"long\"";
    begin = end + 1;
  }
  return "";
}

// "density at 20 °C, kg/m³": the unit has a line of its own, and none ends within it.
std::string with_whole_unit(std::string_view heading) {
  const std::size_t comma = heading.rfind(", ");
  if (comma == std::string_view::npos) return html_text(heading);
  std::string unit = html_text(heading.substr(comma + 2));
  constexpr std::string_view joined = "\u00A0";
  for (std::size_t at = 0; (at = unit.find(' ', at)) != std::string::npos; at += joined.size())
    unit.replace(at, 1, joined);
  return html_text(heading.substr(0, comma)) + ", <br>" + unit;
}

// In CSS: all that could end a string, as an escape.
std::string css_string(std::string_view text) {
  std::string out = "\"";
  for (const char c : text::printable(text)) {
    const bool plain = c != '"' && c != '\\' && c != '<' && c != '>' && c != '&';
    if (plain)
      out += c;
    else
      out += fmt::format("\\{:06x}", static_cast<unsigned>(c));
  }
  return out + "\"";
}

std::string setup_style(const PageSetup& setup) {
  std::string out;
  if (setup.paper)
    out += fmt::format("@page {{ size: {}{}; }}\n", *setup.paper == Paper::a4 ? "A4" : "letter",
                       setup.landscape ? " landscape" : "");
  if (!setup.running.empty())
    out += fmt::format("@page {{ @top-right {{ content: {}; }} }}\n", css_string(setup.running));
  if (setup.for_the_wall)
    out += wall_style +
           fmt::format(
               "@media print {{ html {{ font-size: {}pt; }} td {{ padding: {}rem 0.25rem; }} "
               "}}\n",
               setup.wall_type.size_pt, setup.wall_type.row_space);
  if (setup.for_a_pen) out += pen_style;
  return out;
}

}  // namespace

std::string page_begin(std::string_view title, const PageSetup& setup) {
  const std::string escaped = html_text(title);
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<title>{}</title>\n<style>{}{}</style>\n</head>\n<body>\n<main>\n<h1>{}</h1>\n",
      escaped, page_style, setup_style(setup), escaped);
}

std::string page_end(std::string_view footer) {
  return fmt::format("</main>\n<footer>\n{}</footer>\n</body>\n</html>\n", footer);
}

std::string picture_page(std::string_view title, std::string_view svg) {
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<title>{}</title>\n<style>{}</style>\n</head>\n<body>\n{}</body>\n</html>\n",
      html_text(title), picture_style, svg);
}

std::string headline_block(const Headline& headline) {
  std::string out = "<div class=\"headline\">";
  for (const std::string& line : headline.lines)
    out += fmt::format("<strong>{}</strong>\n", html_text(line));
  for (const std::string& line : headline.below) out += element("p", line);
  return out + "</div>\n";
}

std::string caution_block(std::string_view text) {
  return fmt::format("<p class=\"caution\">{}</p>\n", html_text(text));
}

std::string element(std::string_view name, std::string_view text) {
  return fmt::format("<{0}>{1}</{0}>\n", name, html_text(text));
}

std::string table_begin(std::string_view caption, const std::vector<std::string>& columns,
                        TableStyle style, const std::vector<std::size_t>& widths) {
  const char* classes = style == TableStyle::words     ? ""
                        : style == TableStyle::numbers ? " class=\"numbers\""
                                                       : " class=\"numbers many\"";
  std::string out = fmt::format("<table{}>\n<caption>{}</caption>\n", classes, html_text(caption));
  const double all = std::accumulate(widths.begin(), widths.end(), 0.0);
  if (!widths.empty()) out += "<colgroup>";
  for (const std::size_t width : widths)
    out += fmt::format("<col style=\"width: {:.1f}%\">", 100 * static_cast<double>(width) / all);
  if (!widths.empty()) out += "</colgroup>\n";
  out += "<thead><tr>";
  for (const std::string& name : columns)
    out += fmt::format("<th scope=\"col\">{}</th>", with_whole_unit(name));
  return out + "</tr></thead>\n<tbody>\n";
}

std::string table_row(const std::vector<std::string>& columns,
                      const std::vector<std::string>& cells) {
  if (cells.size() > columns.size())
    throw Error{Errc::domain, "a row has more cells than there are columns"};
  std::string out = "<tr>";
  for (std::size_t k = 0; k < columns.size(); ++k) {
    const std::string cell = k < cells.size() ? html_text(cells[k]) : "";
    out += fmt::format("<td{} data-column=\"{}\">{}</td>", class_of(cell), html_text(columns[k]),
                       cell);
  }
  return out + "</tr>\n";
}

std::string html_text(std::string_view text) {
  std::string out;
  for (const char c : text::printable(text)) switch (c) {
      case '<': out += "&lt;"; break;
      case '>': out += "&gt;"; break;
      case '&': out += "&amp;"; break;
      case '"': out += "&quot;"; break;
      case '\'': out += "&#39;"; break;
      default: out += c;
    }
  return out;
}

Page::Page(std::string_view title, PageSetup setup) : title_{title}, setup_{std::move(setup)} {}

void Page::section(std::string_view heading) { body_ += element("h2", heading); }
void Page::subsection(std::string_view heading) { body_ += element("h3", heading); }
void Page::paragraph(std::string_view text) { body_ += element("p", text); }

void Page::headline(const Headline& headline) { body_ += headline_block(headline); }

void Page::caution(std::string_view text) { body_ += caution_block(text); }

void Page::list(const std::vector<std::string>& items) {
  if (items.empty()) return;
  body_ += "<ul>\n";
  for (const std::string& item : items) body_ += element("li", item);
  body_ += "</ul>\n";
}

void Page::table(std::string_view caption, const std::vector<std::vector<std::string>>& rows) {
  if (rows.empty()) throw Error{Errc::domain, "a table needs the names of its columns"};
  body_ += table_begin(caption, rows.front());
  for (std::size_t i = 1; i < rows.size(); ++i) body_ += table_row(rows.front(), rows[i]);
  body_ += table_end;
}

void Page::figure(std::string_view svg, std::string_view caption, bool half) {
  body_ += fmt::format("<figure{}>\n{}<figcaption>{}</figcaption></figure>\n",
                       half ? " class=\"half\"" : "", svg, html_text(caption));
}

void Page::footer(std::string_view text) { footer_ += element("p", text); }

std::string Page::html() const { return page_begin(title_, setup_) + body_ + page_end(footer_); }

}  // namespace areo::document
