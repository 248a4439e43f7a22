// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/liquid.hpp"

#include <fmt/format.h>

#include "areo/text/format.hpp"
#include "text/json_dump.hpp"

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

std::string factor_json(const std::string& liquid,
                        const std::optional<calibration::LiquidFactor>& f) {
  if (!f) return text::dump({{"liquid", liquid}, {"pairs", 0}});
  return text::dump({{"liquid", liquid},
                     {"refraction_relative_to_sucrose", text::number_json(f->optics.relative_rise)},
                     {"standard_uncertainty", text::number_json(f->optics.uncertainty)},
                     {"pairs", f->each.size()},
                     {"chi_squared", text::number_json(f->chi_squared)},
                     {"consistent", f->consistent},
                     {"notes", f->remarks}});
}

}  // namespace areo::wording
