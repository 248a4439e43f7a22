// SPDX-License-Identifier: GPL-3.0-or-later
#include "table_axis.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/instruments/hydrometer.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/parse_refraction.hpp"
#include "areo/text/parse_temperature.hpp"
#include "areo/text/temperature_text.hpp"

namespace areo::paper {
namespace {

constexpr int most_typed = 9;

int decimals_of(double half_width) {
  return static_cast<int>(std::lround(-std::log10(2 * half_width)));
}

// As fine as an ordinary hydrometer of that scale is graduated.
text::TypedStep usual_step(const physics::Scale& scale) {
  const double division = instruments::ordinary_hydrometer(scale).division;
  return {division, text::last_place(division * 10)};
}

Axis axis_of(const physics::Scale& scale, int decimals) {
  return {physics::scale_key(scale), physics::scale_name(scale), physics::scale_unit(scale),
          std::clamp(decimals, 0, most_typed)};
}

void require_one_scale(const text::TypedMark& a, const text::TypedMark& b) {
  if (a.scale != b.scale)
    throw Error{Errc::inconsistent,
                fmt::format("a side of the table is on two scales, {} and {}",
                            physics::scale_name(a.scale), physics::scale_name(b.scale)),
                "write all of it on one scale"};
}

}  // namespace

MarkAxis mark_axis(const std::string& from_text, const std::string& to_text,
                   const std::string& typed_step, const std::optional<physics::Scale>& own,
                   const std::string& gravity_step) {
  const text::TypedMark from = text::mark_from_text(from_text, own);
  const text::TypedMark to = text::mark_from_text(to_text, own);
  require_one_scale(from, to);
  const bool gravity = from.scale.kind == physics::ScaleKind::specific_gravity;
  const std::string step_text =
      typed_step.empty() && gravity && !from.in_thousands ? gravity_step : typed_step;
  // Only where both ends are typed as 1048 is a step of 2 one of 0.002.
  const text::TypedStep step = step_text.empty()
                                   ? usual_step(from.scale)
                                   : text::step_from_text(step_text, from.in_thousands ? to : from);
  return {from.scale,
          even_axis(axis_of(from.scale, std::max(decimals_of(from.half_width), step.decimals)),
                    from.value, to.value, step.value)};
}

MarkAxis listed_marks(const std::string& marks, const std::optional<physics::Scale>& own) {
  std::optional<text::TypedMark> first;
  std::vector<double> all;
  int decimals = 0;
  text::each_part(marks, [&](const std::string& part) {
    const text::TypedMark mark = text::mark_from_text(part, own);
    if (!first) first = mark;
    require_one_scale(*first, mark);
    decimals = std::max(decimals, decimals_of(mark.half_width));
    all.push_back(mark.value);
  });
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  Axis axis = axis_of(first->scale, decimals);
  axis.listed = all;
  return {first->scale, axis};
}

double brix_from_text(const std::string& text, const char* what) {
  const text::TypedNumber n = text::number_with_unit(text, what);
  if (!n.unit.empty() && !text::says_brix(n.unit))
    throw ParseError{fmt::format("{} is in Brix here", what), text, n.unit_position, n.unit.size(),
                     "write 12 or 12Bx"};
  return n.value;
}

Axis listed_brix(const std::string& list, Axis axis, const char* what) {
  text::each_part(list, [&](const std::string& part) {
    axis.listed.push_back(brix_from_text(part, what));
    axis.decimals = std::max(axis.decimals, text::number_with_unit(part, what).decimals);
  });
  std::sort(axis.listed.begin(), axis.listed.end());
  axis.listed.erase(std::unique(axis.listed.begin(), axis.listed.end()), axis.listed.end());
  return axis;
}

Temperature TemperatureAxis::at(double entry) const {
  return fahrenheit ? fahrenheit_point(entry) : celsius_point(entry);
}

TemperatureAxis temperature_axis(const std::string& from, const std::string& to,
                                 const std::string& step, Heat heat) {
  const auto says_fahrenheit = [](const std::string& text) {
    return text::temperature_unit_of(text) == text::TemperatureUnit::fahrenheit;
  };
  const bool fahrenheit = says_fahrenheit(from);
  for (const std::string* text : {&to, &step})
    if (says_fahrenheit(*text) != fahrenheit)
      throw Error{Errc::inconsistent,
                  fmt::format("the temperatures {}, {} and {} are not in one unit", from, to, step),
                  "write all of them in °C or all in °F: 10C to 30C by 1C, 50F to 86F by 2F"};
  // Read as temperatures for their checks, and kept in the unit that they were typed in.
  for (const std::string* text : {&from, &to})
    (void)(heat == Heat::any ? text::celsius_from_text(*text)
                             : text::liquid_celsius_from_text(*text));
  (void)text::celsius_difference_from_text(step);
  const text::TypedNumber lo = text::number_with_unit(from, "a temperature"),
                          hi = text::number_with_unit(to, "a temperature"),
                          by = text::number_with_unit(step, "a step");
  const int decimals = std::max({lo.decimals, by.decimals});
  return {even_axis({fahrenheit ? "temperature_f" : "temperature_c", "temperature",
                     fahrenheit ? "°F" : "°C", std::clamp(decimals, 0, most_typed)},
                    lo.value, hi.value, by.value),
          fahrenheit};
}

TemperatureAxis temperature_axis(const TypedTemperatures& stated, const TypedTemperatures& usual_c,
                                 const TypedTemperatures& usual_f, const physics::Scale& scale) {
  using text::TemperatureUnit;
  TypedTemperatures typed = stated;
  const std::array parts{&TypedTemperatures::coldest, &TypedTemperatures::warmest,
                         &TypedTemperatures::step};
  TemperatureUnit unit = text::reference_unit(scale);
  for (const auto part : parts)
    if (!(typed.*part).empty()) unit = text::temperature_unit_of(typed.*part);
  const TypedTemperatures& usual = unit == TemperatureUnit::fahrenheit ? usual_f : usual_c;
  for (const auto part : parts)
    if ((typed.*part).empty()) typed.*part = usual.*part;
  return temperature_axis(typed.coldest, typed.warmest, typed.step);
}

text::TypedNumber strength_number(const std::string& text) {
  text::TypedNumber n = text::number_with_unit(text, "a strength");
  if (!n.unit.empty() && n.unit != "%vol")
    throw ParseError{fmt::format("'{}' is not a unit of a strength", n.unit), text, n.unit_position,
                     n.unit.size(), "write 5 or 5%vol"};
  if (n.value < 0)
    throw ParseError{"a strength is not below zero", text, 0, text.size(), "write 5 or 5%vol"};
  return n;
}

int most_decimals(const physics::Scale& s) {
  switch (s.kind) {
    case physics::ScaleKind::specific_gravity:
    case physics::ScaleKind::apparent_gravity: return 5;
    case physics::ScaleKind::density:
    case physics::ScaleKind::baume: return 3;
    case physics::ScaleKind::plato:
    case physics::ScaleKind::brix:
    case physics::ScaleKind::oechsle:
    case physics::ScaleKind::sugar_concentration: return 2;
  }
  return 0;
}

}  // namespace areo::paper
