// SPDX-License-Identifier: GPL-3.0-or-later
#include "unit_words.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <span>
#include <string>

namespace areo::text {
namespace {

constexpr double pound_g = 453.59237;
constexpr double inch_m = 0.0254;
constexpr double cubic_inch_l = 2.54 * 2.54 * 2.54 / 1000;
constexpr double us_gallon_l = 231 * cubic_inch_l;
constexpr double uk_gallon_l = 4.54609;
constexpr double psi_pa = pound_g / 1000 * 9.80665 / (inch_m * inch_m);

struct Unit {
  std::string_view word;
  double factor;
};

// As metric signs are: capitals matter.
constexpr std::array metric_masses{Unit{"g", 1}, Unit{"kg", 1000}, Unit{"mg", 0.001}};
constexpr std::array metric_volumes{
    Unit{"L", 1},     Unit{"l", 1},    Unit{"mL", 1e-3}, Unit{"ml", 1e-3}, Unit{"cL", 1e-2},
    Unit{"cl", 1e-2}, Unit{"dL", 0.1}, Unit{"dl", 0.1},  Unit{"hL", 100},  Unit{"hl", 100}};
constexpr std::array pressures{Unit{"Pa", 1},       Unit{"hPa", 100},   Unit{"kPa", 1000},
                               Unit{"MPa", 1e6},    Unit{"mbar", 100},  Unit{"bar", 1e5},
                               Unit{"psi", psi_pa}, Unit{"PSI", psi_pa}};

// In words, as folded() leaves them.
constexpr std::array masses_in_words{Unit{"gram", 1},
                                     Unit{"grams", 1},
                                     Unit{"kilogram", 1000},
                                     Unit{"kilograms", 1000},
                                     Unit{"oz", pound_g / 16},
                                     Unit{"ounce", pound_g / 16},
                                     Unit{"ounces", pound_g / 16},
                                     Unit{"lb", pound_g},
                                     Unit{"lbs", pound_g},
                                     Unit{"pound", pound_g},
                                     Unit{"pounds", pound_g}};
constexpr std::array volumes_in_words{Unit{"litre", 1},         Unit{"litres", 1},
                                      Unit{"liter", 1},         Unit{"liters", 1},
                                      Unit{"millilitre", 1e-3}, Unit{"millilitres", 1e-3},
                                      Unit{"milliliter", 1e-3}, Unit{"milliliters", 1e-3}};

// Volumes that have one name and two sizes: the words, and how much of a gallon.
struct Regional {
  std::array<std::string_view, 3> words;
  std::string_view us, uk;
  double us_gallons, uk_gallons;
};
constexpr std::array regional{
    Regional{{"gal", "gallon", "gallons"}, "US gal", "UK gal", 1, 1},
    Regional{{"qt", "quart", "quarts"}, "US qt", "UK qt", 1.0 / 4, 1.0 / 4},
    Regional{{"pt", "pint", "pints"}, "US pt", "UK pt", 1.0 / 8, 1.0 / 8},
    Regional{{"floz", "fluidounce", "fluidounces"}, "US fl oz", "UK fl oz", 1.0 / 128, 1.0 / 160}};

const Unit* found(std::string_view word, std::span<const Unit> units) {
  const auto at =
      std::find_if(units.begin(), units.end(), [&](const Unit& u) { return u.word == word; });
  return at == units.end() ? nullptr : &*at;
}

// Small letters without spaces and full stops: "fl. oz" is "floz".
std::string folded(std::string_view word) {
  std::string out;
  for (const char c : word)
    if (c != ' ' && c != '\t' && c != '.')
      out += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

// Takes the name of a country off the front.
bool take(std::string& word, std::span<const std::string_view> names) {
  for (const std::string_view name : names)
    if (word.starts_with(name)) {
      word.erase(0, name.size());
      return true;
    }
  return false;
}

UnitWord unit(const Unit& u) { return {UnitWord::Meaning::unit, u.factor}; }

bool is_metric_or_word(std::string_view word, std::span<const Unit> metric,
                       std::span<const Unit> words) {
  return found(word, metric) != nullptr || found(folded(word), words) != nullptr;
}

UnitWord regional_volume(std::string word) {
  constexpr std::array<std::string_view, 1> american{"us"};
  constexpr std::array<std::string_view, 3> british{"uk", "imperial", "imp"};
  const bool us = take(word, american);
  const bool uk = !us && take(word, british);
  for (const Regional& r : regional) {
    if (std::find(r.words.begin(), r.words.end(), word) == r.words.end()) continue;
    const double us_l = r.us_gallons * us_gallon_l;
    const double uk_l = r.uk_gallons * uk_gallon_l;
    if (us || uk) return {UnitWord::Meaning::unit, us ? us_l : uk_l};
    return {UnitWord::Meaning::regional, 0, r.us, r.uk, us_l, uk_l};
  }
  return {};
}

}  // namespace

UnitWord mass_unit(std::string_view word) {
  if (const Unit* u = found(word, metric_masses)) return unit(*u);
  if (const Unit* u = found(folded(word), masses_in_words)) return unit(*u);
  if (is_metric_or_word(word, metric_volumes, volumes_in_words) ||
      regional_volume(folded(word)).meaning != UnitWord::Meaning::unknown)
    return {UnitWord::Meaning::other_quantity};
  return {};
}

UnitWord volume_unit(std::string_view word) {
  if (const Unit* u = found(word, metric_volumes)) return unit(*u);
  if (const Unit* u = found(folded(word), volumes_in_words)) return unit(*u);
  if (is_metric_or_word(word, metric_masses, masses_in_words))
    return {UnitWord::Meaning::other_quantity};
  return regional_volume(folded(word));
}

UnitWord pressure_unit(std::string_view word) {
  const Unit* u = found(word, pressures);
  return u == nullptr ? UnitWord{} : unit(*u);
}

}  // namespace areo::text
