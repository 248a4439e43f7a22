// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/physics/scale_name.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <optional>
#include <utility>

#include "areo/core/error.hpp"

namespace areo::physics {
namespace {

bool is_sixty_fahrenheit(double c) { return c == sixty_fahrenheit_c; }

// "20/20 °C", "60/60 °F"
std::string references(const Scale& s) {
  if (is_sixty_fahrenheit(s.sample_c) && is_sixty_fahrenheit(s.water_c)) return "60/60 °F";
  return fmt::format("{:g}/{:g} °C", s.sample_c, s.water_c);
}

std::string key_number(double c) {
  if (is_sixty_fahrenheit(c)) return "60f";
  std::string text = fmt::format("{:g}", c);
  std::replace(text.begin(), text.end(), '.', '_');
  return text;
}

// Also without the degree sign, and the raised o that some keyboards have in its place.
std::string lower_without_spaces(std::string_view text) {
  constexpr std::array<std::string_view, 3> left_out{"°", "º", "\u00a0"};
  struct Capital {
    std::string_view capital, small;
  };
  constexpr std::array capitals{Capital{"É", "é"}, Capital{"Ö", "ö"}};
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const std::string_view rest = text.substr(i);
    const auto begins = [&](std::string_view sign) { return rest.starts_with(sign); };
    const auto* sign = std::find_if(left_out.begin(), left_out.end(), begins);
    const auto* capital = std::find_if(capitals.begin(), capitals.end(),
                                       [&](const Capital& c) { return begins(c.capital); });
    if (sign != left_out.end()) {
      i += sign->size();
    } else if (capital != capitals.end()) {
      out += capital->small;
      i += capital->capital.size();
    } else {
      const auto c = static_cast<unsigned char>(text[i++]);
      if (std::isspace(c) == 0) out += static_cast<char>(std::tolower(c));
    }
  }
  return out;
}

struct Word {
  std::string_view word;
  Scale scale;
};
const std::array words{
    Word{"sg", sg_20_20},
    Word{"sg20/20", sg_20_20},
    Word{"sg15/15", specific_gravity_scale<Ref15_15>()},
    Word{"60/60", specific_gravity_scale<Ref60F>()},  // as stems say it, always of 60 °F
    Word{"sg60f", specific_gravity_scale<Ref60F>()},
    Word{"sg60/60f", specific_gravity_scale<Ref60F>()},
    Word{"sg20/4", specific_gravity_scale<Ref20_4>()},
    Word{"sgair", apparent_sg_20_20},
    Word{"kg/m3", density_20},
    Word{"kg/m³", density_20},
    Word{"density", density_20},
    Word{"p", plato_20},
    Word{"plato", plato_20},
    Word{"balling", plato_20},  // per cent of sucrose by mass, under the older name
    Word{"bx", brix_20},
    Word{"brix", brix_20},
    Word{"be", baume_scale<Modulus145>()},
    Word{"bé", baume_scale<Modulus145>()},
    Word{"baume", baume_scale<Modulus145>()},
    Word{"baumé", baume_scale<Modulus145>()},
    Word{"be144.3", baume_scale<Modulus144_3>()},
    Word{"bé144.3", baume_scale<Modulus144_3>()},
    Word{"oe", oechsle_20},
    Word{"oechsle", oechsle_20},
    Word{"öchsle", oechsle_20},
    Word{"g/l", sugar_g_l_20},
};

// "20C", "60F", "15": a temperature inside a scale's name.
std::optional<double> reference_c(std::string_view text) {
  bool fahrenheit = false;
  if (!text.empty() && (text.back() == 'c' || text.back() == 'f')) {
    fahrenheit = text.back() == 'f';
    text.remove_suffix(1);
  }
  double v = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), v);
  if (error != std::errc{} || end != text.data() + text.size() || text.empty()) return std::nullopt;
  if (!fahrenheit) return v;
  return v == 60 ? sixty_fahrenheit_c : fahrenheit_point(v).celsius();  // the last bit, too
}

// "17.5/17.5" as it is printed on stems, "sg17.5/17.5", "kg/m3@15c", "bx@17.5c"
std::optional<Scale> with_references(std::string_view word) {
  if (const auto at = word.find('@'); at != std::string_view::npos) {
    const auto c = reference_c(word.substr(at + 1));
    const auto* base = std::find_if(words.begin(), words.end(),
                                    [&](const Word& w) { return w.word == word.substr(0, at); });
    if (!c || base == words.end()) return std::nullopt;
    Scale s = base->scale;
    if (s.water_c != 0) return std::nullopt;  // a ratio of two temperatures is written 15/15
    s.sample_c = *c;
    return s;
  }
  if (word.starts_with("sg")) word.remove_prefix(2);
  const auto slash = word.find('/');
  if (slash == std::string_view::npos) return std::nullopt;
  const auto sample = reference_c(word.substr(0, slash));
  const auto water = reference_c(word.substr(slash + 1));
  if (!sample || !water) return std::nullopt;
  return Scale{ScaleKind::specific_gravity, *sample, *water};
}

}  // namespace

std::string scale_name(const Scale& s) {
  const std::string at = s.sample_c == 20
                             ? ""
                             : fmt::format(" at {}", is_sixty_fahrenheit(s.sample_c)
                                                         ? "60 °F"
                                                         : fmt::format("{:g} °C", s.sample_c));
  switch (s.kind) {
    case ScaleKind::specific_gravity: return "SG " + references(s);
    case ScaleKind::apparent_gravity: return "SG in air " + references(s);
    case ScaleKind::density: return fmt::format("density at {:g} °C", s.sample_c);
    case ScaleKind::plato: return "Plato" + at;
    case ScaleKind::brix: return "Brix" + at;
    case ScaleKind::baume: return fmt::format("Baumé ({:g}, {})", s.modulus, references(s));
    case ScaleKind::oechsle: return "Oechsle" + at;
    case ScaleKind::sugar_concentration: return "sugar" + at;
  }
  throw Error{Errc::domain, "unknown kind of scale"};
}

std::string scale_unit(const Scale& s) {
  switch (s.kind) {
    case ScaleKind::specific_gravity:
    case ScaleKind::apparent_gravity: return "";
    case ScaleKind::density: return "kg/m³";
    case ScaleKind::plato: return "°P";
    case ScaleKind::brix: return "°Bx";
    case ScaleKind::baume: return "°Bé";
    case ScaleKind::oechsle: return "°Oe";
    case ScaleKind::sugar_concentration: return "g/L";
  }
  throw Error{Errc::domain, "unknown kind of scale"};
}

std::string scale_key(const Scale& s) {
  const std::string at = s.sample_c == 20 ? "" : "_at_" + key_number(s.sample_c);
  switch (s.kind) {
    case ScaleKind::specific_gravity:
      return fmt::format("sg_{}_{}", key_number(s.sample_c), key_number(s.water_c));
    case ScaleKind::apparent_gravity: return "sg_in_air_20_20";
    case ScaleKind::density: return fmt::format("density_at_{}_c_kg_m3", key_number(s.sample_c));
    case ScaleKind::plato: return "plato" + at;
    case ScaleKind::brix: return "brix" + at;
    case ScaleKind::baume: return "baume_" + key_number(s.modulus);
    case ScaleKind::oechsle: return "oechsle" + at;
    case ScaleKind::sugar_concentration: return "sugar_g_l" + at;
  }
  throw Error{Errc::domain, "unknown kind of scale"};
}

const std::vector<Scale>& offered_scales() {
  static const std::vector<Scale> scales{sg_20_20,          specific_gravity_scale<Ref60F>(),
                                         apparent_sg_20_20, density_20,
                                         plato_20,          brix_20,
                                         sugar_g_l_20,      baume_scale<Modulus145>(),
                                         oechsle_20};
  return scales;
}

Scale scale_from_word(std::string_view text) {
  const std::string word = lower_without_spaces(text);
  const bool on_a_stem = word.find('/') != std::string::npos;  // "20/20" alone
  if (word == "sg60/60")
    throw ParseError{fmt::format("'{}' could be 60 °F or 60 °C", text), std::string{text}, 0,
                     text.size(), "write SG60/60F as on stems, or SG60C/60C"};
  for (const Word& w : words)
    if (w.word == word || (on_a_stem && w.word == "sg" + word)) return w.scale;
  for (const Word& w : words)
    if (scale_key(w.scale) == word || lower_without_spaces(scale_name(w.scale)) == word)
      return w.scale;
  if (const auto s = with_references(word)) return *s;
  throw ParseError{fmt::format("'{}' is not a scale", text), std::string{text}, 0, text.size(),
                   "scales: SG, SG15/15, SG60F, SG20/4, SGair, kg/m3, P, Bx, Be, Be144.3, Oe, g/L"};
}

}  // namespace areo::physics
