#include "areo/report/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace areo::report {
namespace {

// Bytes of the character that the text begins with; 0 if it is no UTF-8.
std::size_t utf8_length(std::string_view text) {
  const auto byte = [&](std::size_t i) -> unsigned { return static_cast<unsigned char>(text[i]); };
  const unsigned first = byte(0);
  if (first < 0x80) return 1;
  if (first < 0xC2 || first > 0xF4) return 0;
  const std::size_t length = first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
  if (text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte(i) & 0xC0U) != 0x80U) return 0;
  // Longer than it need be, half of a pair, or beyond the last character.
  const unsigned second = byte(1);
  if ((first == 0xE0 && second < 0xA0) || (first == 0xED && second >= 0xA0) ||
      (first == 0xF0 && second < 0x90) || (first == 0xF4 && second >= 0x90))
    return 0;
  return length;
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

std::string value_text(const uncertainty::Value& v, std::string_view unit, bool full) {
  const std::string behind = unit.empty() ? "" : fmt::format(" {}", unit);
  const double expanded = v.expanded();
  // Adding zero turns "-0" into "0".
  if (!(expanded > 0)) return fmt::format("{:.10g}{}", v.estimate + 0.0, behind);
  const int decimals = last_place(expanded) + (full ? further_digits : 0);
  return fmt::format("{} ± {}{}", fixed(v.estimate, decimals), fixed(expanded, decimals), behind);
}

std::string instruction(double correction, int decimals) {
  const std::string size = fixed(std::abs(correction), decimals);
  if (size.find_first_not_of("0.") == std::string::npos) return "ADD NOTHING";
  return fmt::format("{} {}", correction > 0 ? "ADD" : "SUBTRACT", size);
}

std::string instruction(double correction, int decimals, std::string_view unit,
                        std::string_view reading) {
  const std::string what = instruction(correction, decimals);
  const bool nothing = what == "ADD NOTHING";
  return fmt::format("{}{}{} {} {}", what, nothing || unit.empty() ? "" : " ", nothing ? "" : unit,
                     what.starts_with("SUBTRACT") ? "from" : "to", reading);
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
  return static_cast<std::size_t>(std::count_if(utf8.begin(), utf8.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
}

std::vector<std::string> aligned(const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows) {
    widths.resize(std::max(widths.size(), row.size()));
    for (std::size_t i = 0; i < row.size(); ++i)
      widths[i] = std::max(widths[i], display_width(row[i]));
  }
  std::vector<std::string> lines;
  lines.reserve(rows.size());
  for (const auto& row : rows) {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i) {
      line += row[i];
      if (i + 1 < row.size()) line.append(widths[i] - display_width(row[i]) + 2, ' ');
    }
    line.erase(line.find_last_not_of(' ') + 1);
    lines.push_back(std::move(line));
  }
  return lines;
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

}  // namespace areo::report
