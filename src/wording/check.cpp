// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "areo/core/shell_word.hpp"
#include "areo/core/told_apart.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/instrument.hpp"
#include "text/json_dump.hpp"

namespace areo::wording {

using notebook::CheckMethod;
using notebook::CheckRecord;
using notebook::InstrumentRecord;

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

namespace {

// Two places of the scale at least: water for its foot, a weighed solution further up.
std::string next_check(const InstrumentRecord& instrument, const std::vector<CheckRecord>& checks) {
  const auto any = [&](std::initializer_list<CheckMethod> methods) {
    return std::any_of(checks.begin(), checks.end(), [&](const CheckRecord& c) {
      return std::find(methods.begin(), methods.end(), c.method) != methods.end();
    });
  };
  using enum CheckMethod;
  const std::string name = shell_word(instrument.name());
  const std::string then = "areo calibrate fit " + name;
  const bool certified = any({certificate});
  if (instrument.thermometer() != nullptr)
    return certified || (any({ice}) && any({boiling}))
               ? (certified ? "the certificate's other points, or " : "") + then
               : fmt::format("the other fixed point ({}), then {}",
                             any({ice}) ? "boiling water" : "melting ice", then);
  if (!certified && !any({water}))
    return fmt::format("clean water as well: areo calibrate water {} READING TEMP, then {}", name,
                       then);
  if (!certified && !any({sugar, salt}))
    return fmt::format("a weighed sugar solution (areo solution sugar), then {}", then);
  return fmt::format("{}, or {}", certified ? "the certificate's other points" : "another solution",
                     then);
}

}  // namespace

std::vector<std::string> new_check_lines(const InstrumentRecord& instrument, const CheckRecord& r,
                                         const calibration::Check& c,
                                         const std::vector<CheckRecord>& checks,
                                         const std::vector<std::string>& remarks, bool full) {
  const std::string unit = unit_of(instrument);
  std::vector<std::string> all{
      fmt::format("{} shows {}, it should show {}", instrument.name(),
                  shown(instrument, c.indication), text::value_text(c.expected, unit, full)),
      "it reads " + behaviour_text(c, unit)};
  if (instrument.thermometer() == nullptr && !r.temperature_c &&
      r.method != CheckMethod::certificate)
    all.emplace_back(
        "note: no temperature given: the scale's reference temperature assumed, ± 5 °C");
  if (!r.water && in_liquid(r.method))
    all.emplace_back(
        "note: nobody named the water: taken as pure, with the doubt of 0 to 0.6 g/L of solids; "
        "say --distilled or --tap with a check");
  for (const std::string& remark : remarks) all.push_back("note: " + remark);
  all.push_back(fmt::format("noted as check {} of {}", r.id, r.made_at.date()));
  all.push_back("next: " + next_check(instrument, checks));
  return all;
}

}  // namespace areo::wording
