// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/said_once.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "characters.hpp"

namespace areo::text {
namespace {

// Digits behind a letter belong to a name or a unit, and so do those behind its hyphen.
bool belongs_to_word(const std::string& text, std::size_t at) {
  const auto is_part = [&](std::size_t i) {
    const auto c = static_cast<unsigned char>(text[i]);
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '_' || c >= 0x80;
  };
  if (at == 0) return false;
  if (is_part(at - 1)) return true;
  return text[at - 1] == '-' && at > 1 && is_part(at - 2);
}

std::string without_numbers(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    if (!is_digit(text[i])) {
      out += text[i++];
      continue;
    }
    const std::size_t end = std::min(text.find_first_not_of("0123456789.,", i), text.size());
    out += belongs_to_word(text, i) ? text.substr(i, end - i) : "0";
    i = end;
  }
  return out;
}

}  // namespace

void SaidOnce::add(std::size_t line, const std::string& message, const std::string& hint) {
  const bool full = kinds_.size() > most_kinds;
  const std::string form = without_numbers(message);
  auto kind =
      std::find_if(kinds_.begin(), kinds_.end(), [&](const Kind& k) { return k.form == form; });
  if (kind == kinds_.end() && full) kind = kinds_.end() - 1;
  if (kind == kinds_.end()) {
    if (kinds_.size() < most_kinds)
      kinds_.push_back({form, line, message, hint});
    else
      kinds_.push_back({"", line, "other errors", ""});
    return;
  }
  kind->alike = kind->alike && kind->message == message;
  ++kind->more;
  auto& stretches = kind->stretches;
  if (!stretches.empty() && kind->all_listed && stretches.back().second + 1 >= line)
    stretches.back().second = line;
  else if (stretches.size() < most_stretches)
    stretches.emplace_back(line, line);
  else
    kind->all_listed = false;
}

SaidOnce::Reported SaidOnce::reported(const Kind& k) {
  if (k.more == 0) return {k.line, k.message, k.hint};
  std::string lines;
  for (const auto& [first, last] : k.stretches)
    lines +=
        fmt::format("{}{}", lines.empty() ? "" : ", ",
                    first == last ? std::to_string(first) : fmt::format("{} to {}", first, last));
  return {k.line,
          fmt::format("{}, and {} more line{}{}: {}{}", k.message, k.more, k.more == 1 ? "" : "s",
                      k.alike ? "" : " like it", lines, k.all_listed ? "" : ", ..."),
          k.hint};
}

std::vector<SaidOnce::Reported> SaidOnce::reported() const {
  std::vector<Reported> all;
  for (const Kind& k : kinds_) all.push_back(reported(k));
  return all;
}

}  // namespace areo::text
