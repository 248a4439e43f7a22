// SPDX-License-Identifier: GPL-3.0-or-later
// Masses, volumes and pressures as people have them.
#include "areo/text/parse_amount.hpp"

#include <fmt/format.h>

#include <array>
#include <optional>
#include <string>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/text/parse.hpp"
#include "unit_words.hpp"

namespace areo::text {
namespace {

using Meaning = UnitWord::Meaning;

// In g, L or Pa.
struct Amount {
  double value, half_width;
};

struct Quantity {
  std::string_view what, hint;
  UnitWord (*unit)(std::string_view);
};
constexpr Quantity mass{"a mass", "write 500g or 1.2kg", mass_unit};
constexpr Quantity volume{"a volume", "write 0.75L or 750mL", volume_unit};
constexpr Quantity air_pressure{"a pressure", "write 98.2kPa, 982hPa or 982mbar", pressure_unit};
constexpr Quantity bottle_rating{"a rating", "write 6bar, 600kPa, 0.6MPa or 90psi", pressure_unit};

[[noreturn]] void refuse(std::string_view text, std::size_t at, std::size_t length,
                         const std::string& why, std::string hint) {
  throw ParseError{why, std::string{text}, at, length, std::move(hint)};
}

// "1½ L" is "1.5 L"; nothing if there is no such sign behind whole digits.
std::optional<std::string> with_decimals(std::string_view text) {
  struct Fraction {
    std::string_view sign, decimals;
  };
  for (const Fraction& f : {Fraction{"½", ".5"}, Fraction{"¼", ".25"}, Fraction{"¾", ".75"}}) {
    const auto at = text.find(f.sign);
    if (at == std::string_view::npos) continue;
    std::string number{text.substr(0, at)};
    while (!number.empty() && number.back() == ' ') number.pop_back();
    if (number.find_first_not_of("0123456789") != std::string::npos) return std::nullopt;
    return number + std::string{f.decimals} + std::string{text.substr(at + f.sign.size())};
  }
  return std::nullopt;
}

// Where the second number of "1 lb 4 oz" begins in the unit; nothing if there is none.
std::optional<std::size_t> second_number(const TypedNumber& n) {
  const auto at = n.unit.find_first_of("0123456789");
  if (at == std::string::npos || n.decimals != 0 || n.value < 0) return std::nullopt;
  const std::string_view first = std::string_view{n.unit}.substr(0, at);
  const auto letters = first.find_last_not_of(" \t");
  if (letters == std::string_view::npos) return std::nullopt;
  const double pound = mass_unit("lb").factor;
  if (mass_unit(first.substr(0, letters + 1)).factor != pound) return std::nullopt;
  return at;
}

[[noreturn]] void refuse_unit(std::string_view text, const TypedNumber& n, const Quantity& q,
                              const UnitWord& unit) {
  const std::size_t at = n.unit_position;
  const std::size_t length = n.unit.size();
  const auto with = [&](std::string_view word) {
    std::string number{text.substr(0, at)};
    while (!number.empty() && (number.back() == ' ' || number.back() == '\t')) number.pop_back();
    return fmt::format("{} {}", number.substr(number.find_first_not_of(" \t")), word);
  };
  if (n.unit.empty())
    refuse(text, 0, text.size(), fmt::format("{} needs a unit", q.what), std::string{q.hint});
  if (unit.meaning == Meaning::regional)
    refuse(text, at, length,
           fmt::format("'{}' is {:.4g} L in the US and {:.4g} L in the UK", n.unit, unit.us_factor,
                       unit.uk_factor),
           fmt::format("write {} or {}", with(unit.us), with(unit.uk)));
  const std::string why = fmt::format("'{}' is not a unit of {}", n.unit, q.what);
  const bool ounce =
      unit.meaning == Meaning::other_quantity && mass_unit(n.unit).factor == mass_unit("oz").factor;
  refuse(text, at, length, why,
         ounce ? fmt::format("an ounce is a mass; a fluid one is {} or {}", with("US fl oz"),
                             with("UK fl oz"))
               : std::string{q.hint});
}

Amount decimal_amount(std::string_view text, const Quantity& q) {
  const TypedNumber n = number_with_unit(text, q.what);
  const UnitWord unit = q.unit(n.unit);
  if (unit.meaning == Meaning::unit) return {n.value * unit.factor, n.half_width * unit.factor};
  const auto second = q.unit == mass_unit ? second_number(n) : std::nullopt;
  if (!second) refuse_unit(text, n, q, unit);
  const std::size_t at = n.unit_position + *second;
  const TypedNumber ounces = number_with_unit(text.substr(at), q.what);
  const double ounce = mass_unit("oz").factor;
  const double pound = mass_unit("lb").factor;
  if (mass_unit(ounces.unit).factor != ounce || !(ounces.value * ounce < pound))
    refuse(text, at, text.size() - at, "less than 16 oz stand behind pounds", "write 1 lb 4 oz");
  return {n.value * pound + ounces.value * ounce, ounces.half_width * ounce};
}

Amount amount(std::string_view text, const Quantity& q) {
  const auto decimal = with_decimals(text);
  if (!decimal) return decimal_amount(text, q);
  try {
    return decimal_amount(*decimal, q);
  } catch (const ParseError& e) {  // what is wrong is behind the number
    const std::size_t behind = decimal->size() - e.position;
    if (e.position == 0 || behind > text.size()) refuse(text, 0, text.size(), e.what(), e.hint);
    refuse(text, text.size() - behind, e.length, e.what(), e.hint);
  }
}

}  // namespace

AmountKind amount_kind(std::string_view text) {
  const std::string decimal = with_decimals(text).value_or(std::string{text});
  const TypedNumber n = number_with_unit(decimal, "an amount");
  if (mass_unit(n.unit).meaning == Meaning::unit || second_number(n)) return AmountKind::mass;
  const Meaning as_volume = volume_unit(n.unit).meaning;
  return as_volume == Meaning::unit || as_volume == Meaning::regional ? AmountKind::volume
                                                                      : AmountKind::unknown;
}

TypedMass mass_from_text(std::string_view text) {
  const Amount m = amount(text, mass);
  return {m.value, m.half_width};
}
double grams_from_text(std::string_view text) { return amount(text, mass).value; }
double litres_from_text(std::string_view text) { return amount(text, volume).value; }

Pressure pressure_from_text(std::string_view text) {
  return pascals(amount(text, air_pressure).value);
}

Pressure rating_from_text(std::string_view text) {
  const double pa = amount(text, bottle_rating).value;
  if (!(pa > 0))
    refuse(text, 0, text.size(), "a rating is above zero",
           "its maker says what a bottle is rated for");
  return pascals(pa);
}

}  // namespace areo::text
