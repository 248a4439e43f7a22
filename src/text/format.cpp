// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/format.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "character_width.hpp"
#include "utf8.hpp"

namespace areo::text {
namespace {

std::string behind(std::string_view unit) { return unit.empty() ? "" : fmt::format(" {}", unit); }

int interval_decimals(const uncertainty::Interval& i, bool full) {
  return last_place((i.hi - i.lo) / 2) + (full ? further_digits : 0);
}

}  // namespace

int last_place(double expanded) {
  if (!(expanded > 0) || !std::isfinite(expanded)) return 0;
  // fmt rounds to two significant digits first, so that 0.0996 counts as 0.10.
  const std::string two_digits = fmt::format("{:.1e}", expanded);
  return 1 - std::stoi(two_digits.substr(two_digits.find('e') + 1));
}

int supported_decimals(double expanded) { return std::max(0, last_place(expanded)); }

std::string fixed(double value, int decimals) {
  if (decimals < 0) {
    const double unit = std::pow(10.0, -decimals);
    value = std::round(value / unit) * unit;
  }
  std::string text = fmt::format("{:.{}f}", value, std::max(0, decimals));
  const bool negative_zero =
      text.starts_with('-') && text.find_first_not_of("-0.") == std::string::npos;
  return negative_zero ? text.substr(1) : text;
}

std::string rounded_up(double bound, int decimals, const std::optional<double>& limit) {
  constexpr int all = 15;
  for (;; ++decimals) {
    const double step = std::pow(10.0, -decimals);
    // What is round but for its last bit stays as it is.
    std::string text = fixed(std::ceil(bound / step - 1e-9) * step, decimals);
    if (!limit || decimals >= all || (bound <= *limit) == (std::stod(text) <= *limit)) return text;
  }
}

std::string rounded_down(double bound, int decimals) {
  const double step = std::pow(10.0, -decimals);
  return fixed(std::floor(bound / step + 1e-9) * step, decimals);
}

std::string value_text(const uncertainty::Value& v, std::string_view unit, bool full) {
  const double expanded = v.expanded();
  // Adding zero turns "-0" into "0".
  if (!(expanded > 0)) return fmt::format("{:.10g}{}", v.estimate + 0.0, behind(unit));
  const int decimals = last_place(expanded) + (full ? further_digits : 0);
  return fmt::format("{} ± {}{}", fixed(v.estimate, decimals), fixed(expanded, decimals),
                     behind(unit));
}

std::string interval_text(double estimate, const uncertainty::Interval& i, std::string_view unit,
                          bool full) {
  const int decimals = interval_decimals(i, full);
  return fmt::format("{} ({} to {}){}", fixed(estimate, decimals), fixed(i.lo, decimals),
                     fixed(i.hi, decimals), behind(unit));
}

std::string interval_text(const uncertainty::Interval& i, std::string_view unit, bool full) {
  const int decimals = interval_decimals(i, full);
  return fmt::format("{} to {}{}", fixed(i.lo, decimals), fixed(i.hi, decimals), behind(unit));
}

std::string count_text(std::size_t count) {
  std::string text = std::to_string(count);
  for (std::size_t i = text.size(); i > 3; i -= 3) text.insert(i - 3, " ");
  return text;
}

namespace {

// Nothing, if that is what is left of it as printed.
struct Instructed {
  std::string size;
  bool nothing, add;
};
Instructed instructed(double correction, int decimals) {
  std::string size = fixed(std::abs(correction), decimals);
  const bool nothing = size.find_first_not_of("0.") == std::string::npos;
  return {std::move(size), nothing, nothing || correction > 0};
}

}  // namespace

std::string instruction(double correction, int decimals, std::string_view unit) {
  const Instructed i = instructed(correction, decimals);
  if (i.nothing) return "ADD NOTHING";
  return fmt::format("{} {}{}{}", i.add ? "ADD" : "SUBTRACT", i.size, unit.empty() ? "" : " ",
                     unit);
}

std::string instruction(double correction, int decimals, std::string_view unit,
                        std::string_view reading) {
  return fmt::format("{} {} {}", instruction(correction, decimals, unit),
                     instructed(correction, decimals).add ? "to" : "from", reading);
}

std::string printable(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t length = utf8_length(text);
    const auto c = static_cast<unsigned char>(text[0]);
    const bool c1 = length == 2 && c == 0xC2 &&  // U+0080 .. U+009F, controls as well
                    static_cast<unsigned char>(text[1]) < 0xA0;
    if (length == 0 || c < 0x20 || c == 0x7F || c1)
      out += "\uFFFD";
    else
      out += text.substr(0, length);
    text.remove_prefix(std::max<std::size_t>(length, 1));
  }
  return out;
}

std::size_t display_width(std::string_view utf8) {
  std::size_t columns = 0;
  while (!utf8.empty()) {
    const std::size_t length = utf8_length(utf8);
    columns += length == 0 ? 1 : character_width(utf8_character(utf8));
    utf8.remove_prefix(std::max<std::size_t>(length, 1));
  }
  return columns;
}

std::string sentence(std::string_view words) {
  std::string out{words};
  if (!out.empty() && out[0] >= 'a' && out[0] <= 'z')
    out[0] = static_cast<char>(out[0] - 'a' + 'A');
  return out + ".";
}

std::string shortened(std::string_view utf8, std::size_t most) {
  if (display_width(utf8) <= most) return std::string{utf8};
  std::string out;
  for (std::size_t room = most; !utf8.empty();) {
    const std::size_t length = std::max<std::size_t>(utf8_length(utf8), 1);
    const std::size_t columns = display_width(utf8.substr(0, length));
    if (columns >= room) break;  // the ellipsis takes one
    room -= columns;
    out += utf8.substr(0, length);
    utf8.remove_prefix(length);
  }
  return out + "…";
}

int decimals_of_step(double step) {
  return std::max(0, static_cast<int>(std::ceil(-std::log10(step) - 1e-9)));
}

std::string indication_text(double indication, double division) {
  constexpr int most = 6;
  // A reading between two lines, or a division like 0.25, needs more than the power of ten says.
  const auto fits = [](double v, int decimals) {
    const double scaled = v * std::pow(10.0, decimals);
    return std::abs(scaled - std::round(scaled)) < 1e-6 * std::max(1.0, std::abs(scaled));
  };
  int decimals = 0;
  while (decimals < most && !(fits(division, decimals) && fits(indication, decimals))) ++decimals;
  return fixed(indication, decimals);
}

std::string celsius_text(double c) {
  return fmt::format("{:g} °C", std::round(c * 100) / 100 + 0.0);  // no "-0"
}

}  // namespace areo::text
