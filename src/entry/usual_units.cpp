// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/usual_units.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/core/nearest.hpp"
#include "areo/entry/pair_entry.hpp"
#include "areo/text/header_words.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/parse_sample.hpp"
#include "areo/text/temperature_text.hpp"

namespace areo::entry {
namespace {

using notebook::SettingKind;
using notebook::Settings;

// The unit of a bare number.
std::string unit_of(Quantity of, const Settings& s) {
  switch (of) {
    case Quantity::temperature: return s.temperature.empty() ? "" : "°" + s.temperature;
    case Quantity::mass: return s.mass;
    case Quantity::volume: return s.volume;
    case Quantity::pressure: return s.pressure;
    case Quantity::date: return "";
  }
  return "";
}

bool is_unclear(const std::string& date) {
  try {
    (void)iso_from_table(date, {});
    return false;
  } catch (const ParseError&) {
    return true;
  }
}

Completed completed_date(const std::string& typed, DateOrder order) {
  if (order == DateOrder::unknown || !is_unclear(typed)) return {typed, ""};
  try {
    const std::string iso = iso_from_table(typed, {order, DateOrder::day_first});
    return {iso, fmt::format("{} read as {}", typed, iso)};
  } catch (const ParseError&) {  // no date in this order either: whoever reads it says so
    return {typed, ""};
  }
}

std::string joined(const std::vector<std::string>& words) {
  return fmt::format("{}", fmt::join(words, " "));
}

// @param elsewhere  what an option says
void require_unsaid(const std::string& behind, const std::string& elsewhere) {
  if (behind.empty() || elsewhere.empty()) return;
  throw ParseError{fmt::format("the temperature is {} or {}: it was said twice", behind, elsewhere),
                   behind, 0, behind.size(), "leave one out"};
}

std::string lower(std::string text) {
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return text;
}

// Other ways to write a word that is kept.
std::string kept_word(const SettingKind& kind, const std::string& typed) {
  for (const std::string_view word : kind.words)
    if (!word.empty() && lower(std::string{word}) == lower(typed)) return std::string{word};
  if (kind.place == &Settings::temperature) {
    const auto unit = text::temperature_unit(typed);
    if (unit == text::TemperatureUnit::celsius) return "C";
    if (unit == text::TemperatureUnit::fahrenheit) return "F";
  }
  if (kind.place == &Settings::dates)
    if (const auto order = text::date_order_from_word(typed); order && *order != DateOrder::unknown)
      return *order == DateOrder::day_first ? "day first" : "month first";
  if (kind.place == &Settings::volume) {
    // By what it holds: "imperial gallon" is the UK's.
    for (const std::string_view word : kind.words) try {
        if (text::litres_from_text("1 " + typed) ==
            text::litres_from_text("1 " + std::string{word}))
          return std::string{word};
      } catch (const ParseError&) {
      }
  }
  return "";
}

std::string words_of(const SettingKind& kind) {
  std::string all;
  for (const std::string_view word : kind.words)
    if (!word.empty()) all += fmt::format("{}{}", all.empty() ? "" : ", ", word);
  return all + " or none";
}

}  // namespace

Completed completed(const std::string& typed, Quantity of, const Settings& settings) {
  if (of == Quantity::date) return completed_date(typed, date_order(settings));
  const std::string unit = unit_of(of, settings);
  if (unit.empty() || !text::is_bare_number(typed)) return {typed, ""};
  return {fmt::format("{} {}", typed, unit), fmt::format("{0} read as {0} {1}", typed, unit)};
}

text::TemperatureUnit temperature_unit(const Settings& settings) {
  return text::temperature_unit(settings.temperature);
}

DateOrder date_order(const Settings& settings) {
  return text::date_order_from_word(settings.dates).value_or(DateOrder::unknown);
}

std::string setting_from_text(const std::string& name, const std::vector<std::string>& words) {
  const std::string value = joined(words);
  std::vector<std::string> names;
  for (const SettingKind& kind : notebook::setting_kinds()) {
    names.emplace_back(kind.name);
    if (kind.name != name) continue;
    if (value == "none") return "";
    if (std::string word = kept_word(kind, value); !word.empty()) return word;
    throw ParseError{fmt::format("'{}' is none of the settings of {}", value, name), value, 0,
                     value.size(), fmt::format("{}: {}", name, words_of(kind))};
  }
  const std::string near = nearest(name, names);
  throw ParseError{fmt::format("there is no setting '{}'", name), name, 0, name.size(),
                   near.empty() ? fmt::format("one of {}", fmt::join(names, ", "))
                                : fmt::format("did you mean '{}'?", near)};
}

const Settings& UsualUnits::settings() {
  if (!settings_) {
    settings_.emplace();
    try {
      *settings_ = book_->get().settings();
    } catch (const Error&) {
    }
  }
  return *settings_;
}

std::string UsualUnits::read(const std::string& typed, Quantity of) {
  // Only what lacks something needs the notebook.
  const bool lacks = of == Quantity::date ? is_unclear(typed) : text::is_bare_number(typed);
  if (!lacks) return typed;
  const Completed c = completed(typed, of, settings());
  if (!c.echo.empty() && std::find(echoes_.begin(), echoes_.end(), c.echo) == echoes_.end())
    echoes_.push_back(c.echo);
  return c.text;
}

void UsualUnits::take_reading(const std::vector<std::string>& words, std::string& reading,
                              std::string& temperature) {
  const auto typed = text::reading_from_text(joined(words), bare_temperature());
  require_unsaid(typed.temperature, temperature);
  reading = typed.shown;
  if (!typed.temperature.empty()) temperature = typed.temperature;
}

void UsualUnits::take_readings(std::vector<std::string>& words, std::string& both,
                               std::string& first, std::string& second) {
  constexpr std::size_t most = 2;
  const std::string text = joined(words);
  const auto typed = text::readings_together_from_text(text, most, bare_temperature());
  if (typed.size() > most)
    throw ParseError{fmt::format("{} readings are too many: {}", typed.size(), typed[most].shown),
                     text, 0, text.size(), "two readings, and a temperature with its unit: 20C"};
  words.clear();
  for (const text::ShownAt& r : typed) words.push_back(r.shown);
  if (typed.empty()) return;
  const std::string& last = typed.back().temperature;
  require_unsaid(last, both + first + second);
  if (typed.front().temperature == last) {
    if (!last.empty()) both = last;
    return;
  }
  first = typed.front().temperature;
  second = last;
}

void UsualUnits::take_pair(std::vector<std::string> words, TypedPair& pair) {
  const std::string text = joined(words);
  std::string refraction_temperature;
  take_readings(words, pair.temperature, refraction_temperature, pair.gravity_temperature);
  if (words.size() != 2)
    throw ParseError{"a pair is two readings of one sample", text, 0, text.size(),
                     "write 12.6Bx 1.050 20C"};
  pair.refraction = words[0];
  pair.gravity = words[1];
  if (!refraction_temperature.empty()) pair.temperature = refraction_temperature;
}

std::string UsualUnits::told(double celsius) {
  return text::temperature_text(celsius, temperature_unit(settings()));
}

}  // namespace areo::entry
