// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/converted.hpp"

#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"

namespace areo::entry {

Converted converted(const std::string& text, const std::vector<physics::Scale>& to) {
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
  return {measurement::convert(mark.scale, mark.value, mark.half_width, to), "unfermented",
          mark.echo};
}

}  // namespace areo::entry
