// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/check.hpp"

#include <fmt/format.h>

#include <cmath>

#include "areo/core/told_apart.hpp"
#include "areo/text/format.hpp"
#include "text/json_dump.hpp"

namespace areo::wording {

const char* conformity_word(calibration::Conformity c) {
  switch (c) {
    case calibration::Conformity::within: return "within";
    case calibration::Conformity::outside: return "outside";
    case calibration::Conformity::cannot_tell: return "cannot_tell";
  }
  return "";
}

int telling_digits(double difference, double expanded) {
  const int place = text::last_place(expanded);
  return telling_place(std::abs(difference), expanded, place) - place;
}

std::string en_text(double en) {
  return fmt::format("{:+.{}f}", en, telling_place(std::abs(en), 1, 2));
}

std::string signed_text(double value, double expanded, int more) {
  const std::string text = text::fixed(value, text::last_place(expanded) + more);
  return text.starts_with('-') ? text : "+" + text;
}

std::string check_json(const notebook::CheckRecord& r, const calibration::Check& c,
                       const std::string& unit, const std::vector<std::string>& notes) {
  return text::dump({{"check", r.id},
                     {"method", notebook::word(r.method)},
                     {"made_at", r.made_at.text()},
                     {"indication", text::number_json(c.indication)},
                     {"expected", text::number_json(c.expected.estimate)},
                     {"correction", text::number_json(c.correction.estimate)},
                     {"standard_uncertainty", text::number_json(c.correction.u)},
                     {"expanded_uncertainty", text::number_json(c.correction.expanded())},
                     {"unit", unit},
                     {"notes", notes}});
}

std::string behaviour_text(const calibration::Check& c, const std::string& unit) {
  const uncertainty::Value& b = c.correction;
  const double expanded = b.expanded();
  const int more = telling_digits(b.estimate, expanded);
  const int place = text::last_place(expanded) + more;
  const std::string u = text::fixed(expanded, place) + (unit.empty() ? "" : " " + unit);
  if (std::abs(b.estimate) <= expanded)
    return fmt::format("right, as far as this check can tell (off by {} ± {})",
                       signed_text(-b.estimate, expanded, more), u);
  return fmt::format("{} by {} ± {}", b.estimate < 0 ? "HIGH" : "LOW",
                     text::fixed(std::abs(b.estimate), place), u);
}

}  // namespace areo::wording
