// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/publish/write_page.hpp"

#include <fmt/format.h>

#include <cctype>
#include <filesystem>

#include "areo/publish/pdf.hpp"
#include "areo/publish/write_file.hpp"

namespace areo::publish {
namespace {

bool is_plain(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return std::isalnum(byte) != 0 || byte >= 0x80 || c == '.' || c == '_' || c == '-';
}

bool is_taken(const std::string& name) {
  std::error_code error;
  return std::filesystem::exists(std::filesystem::symlink_status(name, error));
}

}  // namespace

void write_html(const std::string& path, const std::string& html, bool as_pdf, Present present) {
  const std::string bytes = as_pdf ? pdf(html) : html;
  write_file(
      path, [&](std::ostream& out) { out << bytes; }, present);
}

std::string page_written(const std::string& path, bool as_pdf) {
  return path + (as_pdf ? ": sheets to print; fonts and pictures are in it"
                        : ": a page that needs nothing else; open it in any browser");
}

std::string free_name(const std::string& words, const std::string& ending) {
  std::string base;
  for (const char c : words) base += is_plain(c) ? c : '-';
  if (base.empty() || base.front() == '.' || base.front() == '-') base.insert(0, "areo");
  std::string name = base + ending;
  for (int n = 2; is_taken(name); ++n) name = fmt::format("{}-{}{}", base, n, ending);
  return name;
}

}  // namespace areo::publish
