// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/liquid.hpp"

#include <fmt/format.h>

#include "areo/text/format.hpp"
#include "areo/text/json.hpp"

namespace areo::wording {

std::string factor_text(const calibration::LiquidFactor& f) {
  return text::value_text({f.optics.relative_rise, f.optics.uncertainty}, "");
}

std::vector<std::string> factor_lines(const std::string& liquid,
                                      const calibration::LiquidFactor& f) {
  std::vector<std::string> all;
  all.push_back(
      fmt::format("{}: its extract refracts {} times as much as sugar of the same density  (about "
                  "95 %)",
                  liquid, factor_text(f)));
  if (f.chi_squared_limit)
    all.push_back(fmt::format("  the pairs {}: chi-squared {:.1f}, limit {:.1f} at 95 %{}",
                              f.consistent ? "agree" : "DIFFER", f.chi_squared,
                              *f.chi_squared_limit,
                              f.consistent ? ""
                                           : "; the range is widened to their scatter (areo liquid "
                                             "leave-out drops a wrong one)"));
  for (const std::string& remark : f.remarks) all.push_back("note: " + remark);
  return all;
}

std::string factor_json(const std::string& liquid, const calibration::LiquidFactor& f) {
  return fmt::format(
      R"({{"liquid":{},"refraction_relative_to_sucrose":{},"standard_uncertainty":{},)"
      R"("pairs":{},"chi_squared":{},"consistent":{},"notes":{}}})",
      text::json_string(liquid), f.optics.relative_rise, f.optics.uncertainty, f.each.size(),
      f.chi_squared, f.consistent, text::json_list(f.remarks));
}

}  // namespace areo::wording
