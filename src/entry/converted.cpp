// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/converted.hpp"

#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/parse_refraction.hpp"

namespace areo::entry {

using measurement::Beside;

ConvertTo convert_to_from_text(const std::string& text) {
  if (text.empty())
    return {physics::offered_scales(), {Beside::refractive_index, Beside::potential_alcohol}};
  ConvertTo to;
  to.stated = true;
  const auto once = [](auto& all, const auto& one) {
    if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
  };
  text::each_part(text, [&](const std::string& word) {
    if (text::says_index(word)) {
      once(to.beside, Beside::refractive_index);
    } else if (word == "potential") {
      once(to.beside, Beside::potential_alcohol);
    } else {
      try {
        once(to.scales, text::scale_from_text(word));
      } catch (const ParseError& e) {
        throw ParseError{e.what(), e.text, e.position, e.length, e.hint + "; and nD, potential"};
      }
    }
  });
  return to;
}

Converted converted(const std::string& text, const ConvertTo& to) {
  const text::TypedNumber n = text::number_with_unit(text, "a value");
  const char* mixture = "ethanol and water at 20 °C";
  const std::string echo =
      n.decimal_comma ? "read as " + text::fixed(n.value, n.decimals) : std::string{};
  if (n.unit == "%vol")
    return {measurement::convert_strength(StrengthByVolume{n.value}, n.half_width), mixture, echo,
            true};
  if (n.unit == "%mass")
    return {measurement::convert_strength(StrengthByMass{n.value}, n.half_width), mixture, echo,
            true};
  const text::TypedMark mark = text::mark_from_text(text);
  return {measurement::convert(mark.scale, mark.value, mark.half_width, to.scales, to.beside),
          "unfermented", mark.echo};
}

}  // namespace areo::entry
