#include "areo/report/page.hpp"

#include <fmt/format.h>

#include "areo/core/error.hpp"
#include "areo/report/text.hpp"
#include "page_style.hpp"

namespace areo::report {
namespace {

// For an address: all but letters and digits as bytes, so that nothing in it can end it.
std::string percent_encoded(std::string_view bytes) {
  std::string out;
  for (const char c : bytes) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    if (plain)
      out += c;
    else
      out += fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return out;
}

// A number with its uncertainty, or a date and a time: kept on one line.
constexpr std::size_t short_cell = 16;

std::string element(std::string_view name, std::string_view text) {
  return fmt::format("<{0}>{1}</{0}>\n", name, html_text(text));
}

}  // namespace

std::string html_text(std::string_view text) {
  std::string out;
  for (const char c : printable(text)) switch (c) {
      case '<': out += "&lt;"; break;
      case '>': out += "&gt;"; break;
      case '&': out += "&amp;"; break;
      case '"': out += "&quot;"; break;
      case '\'': out += "&#39;"; break;
      default: out += c;
    }
  return out;
}

Page::Page(std::string_view title) : title_{title} {}

void Page::section(std::string_view heading) { body_ += element("h2", heading); }
void Page::subsection(std::string_view heading) { body_ += element("h3", heading); }
void Page::paragraph(std::string_view text) { body_ += element("p", text); }

void Page::headline(std::string_view text, const std::vector<std::string>& below) {
  body_ += fmt::format("<div class=\"headline\"><strong>{}</strong>\n", html_text(text));
  for (const std::string& line : below) paragraph(line);
  body_ += "</div>\n";
}

void Page::caution(std::string_view text) {
  body_ += fmt::format("<p class=\"caution\">{}</p>\n", html_text(text));
}

void Page::list(const std::vector<std::string>& items) {
  if (items.empty()) return;
  body_ += "<ul>\n";
  for (const std::string& item : items) body_ += element("li", item);
  body_ += "</ul>\n";
}

void Page::table(std::string_view caption, const std::vector<std::vector<std::string>>& rows) {
  if (rows.empty()) throw Error{Errc::domain, "a table needs the names of its columns"};
  const std::vector<std::string>& columns = rows.front();
  body_ += fmt::format("<table>\n<caption>{}</caption>\n<thead><tr>", html_text(caption));
  for (const std::string& name : columns)
    body_ += fmt::format("<th scope=\"col\">{}</th>", html_text(name));
  body_ += "</tr></thead>\n<tbody>\n";
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (rows[i].size() > columns.size())
      throw Error{Errc::domain, "a row has more cells than there are columns"};
    body_ += "<tr>";
    for (std::size_t k = 0; k < columns.size(); ++k) {
      const std::string cell = k < rows[i].size() ? html_text(rows[i][k]) : "";
      body_ += fmt::format("<td{} data-column=\"{}\">{}</td>",
                           display_width(cell) <= short_cell ? " class=\"short\"" : "",
                           html_text(columns[k]), cell);
    }
    body_ += "</tr>\n";
  }
  body_ += "</tbody>\n</table>\n";
}

void Page::figure(std::string_view svg, std::string_view alt, std::string_view caption) {
  body_ += fmt::format(
      "<figure><img src=\"data:image/svg+xml,{}\" "
      "alt=\"{}\">\n<figcaption>{}</figcaption></figure>\n",
      percent_encoded(svg), html_text(alt), html_text(caption));
}

void Page::footer(std::string_view text) { footer_ += element("p", text); }

std::string Page::html() const {
  const std::string title = html_text(title_);
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<title>{}</title>\n<style>{}</style>\n</head>\n<body>\n<main>\n<h1>{}</h1>\n{}</main>\n"
      "<footer>\n{}</footer>\n</body>\n</html>\n",
      title, page_style, title, body_, footer_);
}

}  // namespace areo::report
