// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/parse.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/instruments/bare_number.hpp"
#include "areo/physics/carbon_dioxide.hpp"
#include "areo/physics/mixture.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/physics/water.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse_hydrometer.hpp"
#include "characters.hpp"

namespace areo::text {
namespace {

using physics::Scale;
using physics::ScaleKind;

[[noreturn]] void refuse(std::string_view text, std::size_t at, std::size_t length,
                         const std::string& why, std::string hint) {
  throw ParseError{why, std::string{text}, at, length, std::move(hint)};
}
[[noreturn]] void refuse(std::string_view text, const std::string& why, std::string hint) {
  refuse(text, 0, text.size(), why, std::move(hint));
}

struct Unit {
  std::string_view word;
  double factor;
};

double with_unit(std::string_view text, std::string_view what, std::span<const Unit> units,
                 std::string hint) {
  const TypedNumber n = number_with_unit(text, what);
  for (const Unit& u : units)
    if (n.unit == u.word) return n.value * u.factor;
  if (n.unit.empty()) refuse(text, fmt::format("{} needs a unit", what), std::move(hint));
  refuse(text, n.unit_position, n.unit.size(),
         fmt::format("'{}' is not a unit of {}", n.unit, what), std::move(hint));
}

// Where a number without a unit was read: on an instrument, or on a scale alone.
struct Place {
  Scale scale;
  instruments::Marks marks;
  std::string name = {};  // of the instrument
};

// A usual mark of a scale, with its unit.
std::string example_of(const Scale& scale) {
  switch (scale.kind) {
    case ScaleKind::density: return "1048kg/m³";
    case ScaleKind::baume: return "6.5°Bé";
    case ScaleKind::oechsle: return "48°Oe";
    case ScaleKind::sugar_concentration: return "120g/L";
    default: return "12.5" + physics::scale_unit(scale);
  }
}

[[noreturn]] void refuse_bare(std::string_view text, const TypedNumber& n, const Place& place,
                              const instruments::Bare& bare) {
  using instruments::BareMeaning;
  const std::string_view typed = trimmed(text);
  const auto degrees = [&] { return fmt::format("{0}P, {0}Bx", typed); };
  const std::string meant = fixed(bare.value, bare.decimals);
  switch (bare.meaning) {
    case BareMeaning::gravity:
      refuse(text,
             fmt::format("{} looks like a specific gravity; {} shows {}", typed, place.name,
                         physics::scale_name(place.scale)),
             fmt::format("name the hydrometer that showed it, or write what {} shows with its "
                         "unit, as {}",
                         place.name, example_of(place.scale)));
    case BareMeaning::one:
      refuse(text, "1 without decimals is not clear", "write 1.000 for water, or 1P, 1Bx");
    case BareMeaning::whole:
      refuse(text, fmt::format("{:g} without a unit could be points, Brix or Plato", n.value),
             n.value > 0 && n.value < 200
                 ? fmt::format("write {} for a specific gravity, or {:g}P, {:g}Bx, {:g}Oe", meant,
                               n.value, n.value, n.value)
                 : "write a specific gravity as 1.048 or 1048, or add a unit: 12P, 12Bx");
    case BareMeaning::slipped:
      refuse(text, "the decimal point seems to have slipped",
             fmt::format("did you mean {}? degrees need their unit: {}", meant, degrees()));
    default:
      refuse(text, "a number without a unit is read as a specific gravity, and this is not one",
             fmt::format("specific gravities lie between 0.900 and 1.200; degrees need their unit: "
                         "{}, {}Oe",
                         degrees(), typed));
  }
}

// A number without a unit: 1.048, 1048, 1,048, .998; 12 on a scale of Plato.
TypedMark bare_mark(std::string_view text, const TypedNumber& n, const Place& place) {
  const auto bare = instruments::meaning_of_bare({n.value, n.decimals}, place.marks);
  const std::string read_as = "read as " + fixed(bare.value, bare.decimals);
  if (bare.meaning == instruments::BareMeaning::thousands)
    return {place.scale, bare.value, n.half_width / 1000, read_as, true};
  if (bare.meaning != instruments::BareMeaning::mark) refuse_bare(text, n, place, bare);
  const bool gravity = place.marks.shows == instruments::Marks::Shows::gravity;
  const bool as_typed = !n.decimal_comma && (!gravity || is_digit(trimmed(text).front()));
  return {place.scale, n.value, n.half_width, as_typed ? "" : read_as};
}

std::optional<Scale> scale_of_unit(std::string_view text, const TypedNumber& n,
                                   const std::optional<Scale>& own) {
  if (n.unit.starts_with('%'))
    refuse(text, n.unit_position, n.unit.size(), "percent of what? sugar or alcohol",
           "write 12P or 12Bx for sugar, 12%vol or 12%mass for alcohol (areo convert)");
  try {
    const Scale s = scale_from_text(n.unit);
    // Plain "SG" names the kind; which one is the instrument's business.
    const bool own_gravity = own && (own->kind == ScaleKind::specific_gravity ||
                                     own->kind == ScaleKind::apparent_gravity);
    if (own_gravity && s == physics::sg_20_20 && n.unit.size() == 2) return own;
    return s;
  } catch (const ParseError& e) {
    refuse(text, n.unit_position, n.unit.size(), e.what(), e.hint);
  }
}

// A density as laboratories write it becomes kg/m³.
void use_kilograms(TypedNumber& n) {
  if (!is_grams_per_volume(n.unit)) return;
  n.value *= 1000;
  n.half_width *= 1000;
  n.decimals -= 3;
  n.unit = "kg/m3";
}

// A sugar liquid ends where the density formula does; said on the scale that was typed.
void require_possible(std::string_view text, const TypedMark& mark) {
  const auto end = [&](double extract) {
    return physics::mark_from_liquid(mark.scale, {ExtractFraction{extract}});
  };
  const double lo = end(physics::mixture_extract_range.lo);
  const double hi = end(physics::mixture_extract_range.hi);
  const double rounding = 1e-9 * (hi - lo);
  if (mark.value >= lo - rounding && mark.value <= hi + rounding) return;
  const bool grams_per_cm3 =
      mark.scale.kind == ScaleKind::density && instruments::may_be_gravity(mark.value);
  throw Error{Errc::domain,
              fmt::format("{} is not a sugar liquid: {} [{}]", trimmed(text),
                          reach_text(mark.scale, lo, hi), physics::mixture_extract_range.source),
              grams_per_cm3 ? fmt::format("did you mean {:g}kg/m3, which is {:g}g/cm3?",
                                          1000 * mark.value, mark.value)
                            : "check the digits and the unit"};
}

TypedMark typed_mark(std::string_view text, const std::optional<Place>& own) {
  TypedNumber n = number_with_unit(text, "a reading");
  if (n.unit.empty())
    return bare_mark(
        text, n, own.value_or(Place{physics::sg_20_20, instruments::marks_of(physics::sg_20_20)}));
  const std::size_t unit_length = n.unit.size();  // as typed
  use_kilograms(n);
  const Scale scale = *scale_of_unit(text, n, own ? std::optional{own->scale} : std::nullopt);
  if (own && scale != own->scale)
    refuse(text, n.unit_position, unit_length,
           fmt::format("the instrument is graduated in {}, not in {}",
                       physics::scale_name(own->scale), physics::scale_name(scale)),
           "write what its scale shows; areo convert changes between scales");
  return {scale, n.value, n.half_width,
          n.decimal_comma ? "read as " + fixed(n.value, std::max(0, n.decimals)) : ""};
}

TypedMark possible_mark(std::string_view text, const std::optional<Place>& own) {
  TypedMark mark = typed_mark(text, own);
  require_possible(text, mark);
  return mark;
}

}  // namespace

TypedMark mark_from_text(std::string_view text, const std::optional<Scale>& own) {
  if (!own) return possible_mark(text, std::nullopt);
  return possible_mark(text, Place{*own, instruments::marks_of(*own)});
}

TypedMark mark_from_text(std::string_view text, const instruments::Hydrometer& own) {
  return possible_mark(text, Place{own.scale, instruments::marks_of(own),
                                   own.name.empty() ? "the hydrometer" : own.name});
}

std::optional<double> expected_end_from_text(const std::string& text) {
  if (text.empty()) return std::nullopt;
  const TypedMark m = mark_from_text(text);
  return physics::mark_from_liquid(physics::sg_20_20, physics::liquid_from_mark(m.scale, m.value));
}

TypedStep step_from_text(std::string_view text, const TypedMark& mark) {
  TypedNumber n = number_with_unit(text, "a step");
  if (!n.unit.empty()) {
    const std::size_t unit_length = n.unit.size();  // as typed
    use_kilograms(n);
    const Scale scale = *scale_of_unit(text, n, mark.scale);
    if (scale != mark.scale)
      refuse(text, n.unit_position, unit_length,
             fmt::format("a step in {} on a table in {}", physics::scale_name(scale),
                         physics::scale_name(mark.scale)),
             "leave the unit out, or write that of the ends");
  }
  if (!(n.value > 0)) refuse(text, "a step is above zero", "e.g. --step 0.001");
  // A step of 0.002 between 1000 and 1010 is meant on the scale: nobody counts in thousandths
  // there.
  constexpr double least_in_thousands = 0.1;
  const bool thousands = mark.in_thousands && n.unit.empty() && n.value >= least_in_thousands;
  return {thousands ? n.value / 1000 : n.value,
          std::max(0, thousands ? n.decimals + 3 : n.decimals)};
}

std::string reach_text(const Scale& scale, double lo, double hi) {
  const bool ratio =
      scale.kind == ScaleKind::specific_gravity || scale.kind == ScaleKind::apparent_gravity;
  const int decimals = ratio ? 3 : 0;
  const double unit = std::pow(10.0, -decimals);
  // Rounded inwards: what is said to be possible is.
  const std::string behind =
      physics::scale_unit(scale).empty() ? "" : " " + physics::scale_unit(scale);
  return fmt::format("{} goes from {} to {}{}", physics::scale_name(scale),
                     fixed(std::ceil(lo / unit - 1e-6) * unit, decimals),
                     fixed(std::floor(hi / unit + 1e-6) * unit, decimals), behind);
}

bool is_grams_per_volume(std::string_view unit) {
  return unit == "g/cm3" || unit == "g/ml" || unit == "g/mL" || unit == "g/cm³";
}

Scale scale_from_text(std::string_view text) {
  const Scale s = physics::scale_from_word(text);
  const Range& range = physics::mixture_temperature_range;
  const bool divides_by_water = s.water_c != 0;
  if (!range.contains(s.sample_c) || (divides_by_water && !range.contains(s.water_c)))
    refuse(text, fmt::format("'{}' refers to a temperature at which no density is known", text),
           fmt::format("densities are known from {:g} °C to {:g} °C [{}]", range.lo, range.hi,
                       range.source));
  return s;
}

double celsius_difference_from_text(std::string_view text) {
  static constexpr std::array units{Unit{"C", 1}, Unit{"°C", 1}, Unit{"K", 1}, Unit{"F", 1 / 1.8},
                                    Unit{"°F", 1 / 1.8}};
  const double v = with_unit(text, "a difference of temperature", units, "write 0.5C or 1F");
  if (!(v > 0)) refuse(text, "an accuracy is above zero", "write 0.5C or 1F");
  return v;
}

double carbonation_from_text(std::string_view text) {
  static constexpr std::array units{Unit{"g/L", 1}, Unit{"g/l", 1},
                                    Unit{"vol", physics::carbon_dioxide_g_per_volume}};
  const double g_l = with_unit(text, "a carbonation", units, "write 5g/L or 2.5vol");
  if (!(g_l > 0)) refuse(text, "a wanted carbonation is above zero", "write 5g/L or 2.5vol");
  return g_l;
}

TypedShare headspace_from_text(std::string_view text) {
  static constexpr std::array units{Unit{"%", 0.01}};
  const double share = with_unit(text, "a headspace", units, "write 4%, of the bottle's volume");
  if (!(share > 0) || share > physics::most_headspace)
    refuse(text, "a headspace is above nothing, to half of the bottle",
           "a drink expands as it warms and needs some; 4% is usual");
  return {share, std::min(0.01 * number_with_unit(text, "a headspace").half_width, share)};
}

Length altitude_from_text(std::string_view text) {
  static constexpr std::array units{Unit{"m", 1}, Unit{"ft", 0.3048}};
  return metres(with_unit(text, "an altitude", units, "write 300m"));
}

double plain_number(std::string_view text, std::string_view what) {
  const TypedNumber n = number_with_unit(text, what);
  if (!n.unit.empty())
    refuse(text, n.unit_position, n.unit.size(), fmt::format("{} is a plain number", what),
           "leave the unit out");
  return n.value;
}

void each_part(const std::string& list, const std::function<void(const std::string&)>& read) {
  for (std::size_t begin = 0; begin <= list.size();) {
    const std::size_t end = std::min(list.find(',', begin), list.size());
    try {
      read(list.substr(begin, end - begin));
    } catch (const ParseError& e) {
      throw ParseError{e.what(), list, begin + e.position, e.length, e.hint};
    }
    begin = end + 1;
  }
}

std::vector<Scale> scales_from_text(const std::string& text, const std::vector<Scale>& fallback) {
  if (text.empty()) return fallback;
  std::vector<Scale> scales;
  each_part(text, [&](const std::string& word) {
    const Scale scale = scale_from_text(word);
    // Named twice, it is shown once.
    if (std::find(scales.begin(), scales.end(), scale) == scales.end()) scales.push_back(scale);
  });
  return scales;
}

}  // namespace areo::text
