// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/parse_sample.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <optional>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/parse_temperature.hpp"
#include "characters.hpp"

namespace areo::text {
namespace {

// A stretch of the text: a number with what belongs to it.
struct Stretch {
  std::size_t begin = 0, end = 0;
  [[nodiscard]] std::string_view of(std::string_view text) const {
    return text.substr(begin, end - begin);
  }
};

[[noreturn]] void refuse(std::string_view text, const Stretch& at, const std::string& why,
                         std::string hint) {
  throw ParseError{why, std::string{text}, at.begin, at.end - at.begin, std::move(hint)};
}

// "20/20", "60°/60°F": two temperatures of a scale, and no number of its own.
bool is_quotient(std::string_view word) {
  const auto slash = word.find('/');
  return slash != std::string_view::npos && slash + 1 < word.size() && is_digit(word[slash + 1]);
}

bool begins_number(std::string_view word) {
  constexpr std::string_view minus_sign = "\u2212";
  if (word.starts_with(minus_sign))
    word.remove_prefix(minus_sign.size());
  else if (word.starts_with('-') || word.starts_with('+'))
    word.remove_prefix(1);
  if (word.starts_with('.') || word.starts_with(',')) word.remove_prefix(1);
  return !word.empty() && is_digit(word.front()) && !is_quotient(word);
}

bool is_space(char c) { return c == ' ' || c == '\t'; }

// Numbers with what stands behind each; what stands in front of the first one belongs to it.
std::vector<Stretch> stretches(std::string_view text) {
  std::vector<Stretch> all;
  for (std::size_t i = 0; i < text.size();) {
    if (is_space(text[i])) {
      ++i;
      continue;
    }
    const auto stop =
        std::find_if(text.begin() + static_cast<std::ptrdiff_t>(i), text.end(), is_space);
    const auto end = static_cast<std::size_t>(stop - text.begin());
    if (all.empty() || begins_number(text.substr(i, end - i)))
      all.push_back({i, end});
    else
      all.back().end = end;
    i = end;
  }
  return all;
}

std::string unit_of(std::string_view text) {
  try {
    return number_with_unit(text, "a number").unit;
  } catch (const ParseError&) {
    return "?";  // no number, so neither a temperature nor bare
  }
}

bool is_bare(std::string_view text) { return unit_of(text).empty(); }

bool is_temperature(std::string_view text) {
  return temperature_unit_of(text) != TemperatureUnit::unknown;
}

// "1.018@23C": behind a bare number only, as Bx@17.5C is a scale.
void part_at_sign(std::string_view text, std::vector<Stretch>& all) {
  for (std::size_t k = 0; k < all.size(); ++k) {
    const auto sign = all[k].of(text).find('@');
    if (sign == std::string_view::npos || sign == 0) continue;
    const Stretch reading{all[k].begin, all[k].begin + sign};
    const Stretch behind{reading.end + 1, all[k].end};
    if (!is_bare(reading.of(text)) || !is_temperature(behind.of(text))) continue;
    all[k] = reading;
    all.insert(all.begin() + static_cast<std::ptrdiff_t>(k) + 1, behind);
  }
}

// In front of a temperature: "1.018 at 23C", "1.018, 23C", "1.018 @ 23C".
std::string without_joint(std::string_view shown) {
  const auto drop_spaces = [&] {
    while (!shown.empty() && is_space(shown.back())) shown.remove_suffix(1);
  };
  drop_spaces();
  for (const std::string_view joint : {" at", "@", ",", ";"})
    if (shown.size() > joint.size() && shown.ends_with(joint)) {
      shown.remove_suffix(joint.size());
      drop_spaces();
      break;
    }
  return std::string{shown};
}

std::vector<Stretch> parted(std::string_view text) {
  auto all = stretches(text);
  part_at_sign(text, all);
  return all;
}

std::vector<ShownAt> readings(std::string_view text, const std::vector<Stretch>& all) {
  std::vector<ShownAt> found;
  for (const Stretch& s : all) {
    const std::string_view words = s.of(text);
    if (!is_temperature(words)) {
      found.push_back({std::string{words}, ""});
      continue;
    }
    if (found.empty())
      refuse(text, s, fmt::format("{} is a temperature: no reading stands in front of it", words),
             fmt::format("write 1.048 {}", words));
    if (!found.back().temperature.empty())
      refuse(text, s,
             fmt::format("{} has two temperatures, {} and {}", found.back().shown,
                         found.back().temperature, words),
             "leave one out");
    found.back().shown = without_joint(found.back().shown);
    found.back().temperature = words;
  }
  return found;
}

// "1 048" is a number with a mark of thousands, which its reader refuses.
bool is_thousands(std::string_view first, std::string_view second) {
  return first.find_first_of(".,") == std::string_view::npos && second.size() == 3;
}

// The last one of them, if it is a bare number behind so many readings, and its unit is known.
std::optional<std::string> with_usual_unit(std::string_view text, const std::vector<Stretch>& all,
                                           std::size_t readings, const BareTemperature& bare) {
  if (!bare || all.size() != readings + 1 || !is_bare(all.back().of(text))) return std::nullopt;
  const std::string typed{all.back().of(text)};
  std::string with_unit = bare(typed);
  if (with_unit == typed) return std::nullopt;
  return with_unit;
}

}  // namespace

std::vector<ShownAt> readings_from_text(std::string_view text) {
  return readings(text, parted(text));
}

ShownAt reading_from_text(std::string_view text, const BareTemperature& bare) {
  const auto all = parted(text);
  const auto found = readings(text, all);
  if (all.size() < 2) return {std::string{text}, ""};
  const std::string_view second = all[1].of(text);
  if (is_bare(second) && !is_thousands(all[0].of(text), second)) {
    if (const auto t = with_usual_unit(text, all, 1, bare)) return {found.front().shown, *t};
    refuse(text, all[1], fmt::format("{} stands behind the reading and has no unit", second),
           fmt::format("a temperature? write {0}F or {0}C; one reading belongs here", second));
  }
  if (found.size() == 1) return found.front();
  // Whoever reads it says what is wrong with it.
  return {std::string{text}, ""};
}

std::vector<ShownAt> readings_together_from_text(std::string_view text, std::size_t most,
                                                 const BareTemperature& bare) {
  const auto all = parted(text);
  auto found = readings(text, all);
  if (found.empty()) return found;
  if (const auto t = with_usual_unit(text, all, most, bare); most > 0 && t) {
    found.pop_back();
    found.back().temperature = *t;
  }
  const std::string& last = found.back().temperature;
  const auto has_own = [](const ShownAt& r) { return !r.temperature.empty(); };
  if (std::all_of(found.begin(), found.end(), has_own)) return found;
  const auto first = std::find_if(found.begin(), found.end() - 1, has_own);
  if (first != found.end() - 1)
    throw ParseError{fmt::format("{} stands behind {}, and not every reading has a temperature",
                                 first->temperature, first->shown),
                     std::string{text}, 0, text.size(),
                     "one that holds for all stands at the end; else each reading needs its own"};
  for (ShownAt& r : found) r.temperature = last;
  return found;
}

}  // namespace areo::text
