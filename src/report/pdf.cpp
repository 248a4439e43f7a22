#include "areo/report/pdf.hpp"

#include <algorithm>
#include <cctype>
#include <string_view>

#include "run_program.hpp"

namespace areo::report {

std::string pdf(const std::string& html) {
  return run({"weasyprint", {"--quiet", "--encoding", "utf-8", "-", "-"}, "weasyprint", "PDF"},
             html);
}

bool says_pdf(const std::string& file) {
  constexpr std::string_view ending = ".pdf";
  return file.size() > ending.size() &&
         std::equal(ending.rbegin(), ending.rend(), file.rbegin(), [](char a, char b) {
           return a == std::tolower(static_cast<unsigned char>(b));
         });
}

}  // namespace areo::report
