// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/parse_refraction.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "areo/core/error.hpp"
#include "areo/instruments/bare_number.hpp"
#include "areo/physics/scale.hpp"
#include "areo/text/parse.hpp"

namespace areo::text {
namespace {

using instruments::BareMeaning;
using instruments::Refractometer;
using instruments::RefractometerScale;

[[noreturn]] void refuse(std::string_view text, const TypedNumber& n, const std::string& why,
                         const std::string& hint) {
  const bool at_unit = !n.unit.empty();
  throw ParseError{why, std::string{text}, at_unit ? n.unit_position : 0,
                   at_unit ? n.unit.size() : text.size(), hint};
}

// Without capitals and the degree sign.
std::string plain(std::string_view text) {
  constexpr std::string_view degree = "°";
  std::string out{text.starts_with(degree) ? text.substr(degree.size()) : text};
  std::transform(out.begin(), out.end(), out.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return out;
}

// The Brix mark beside a gravity mark of a dual scale; in thousands too: 1050.
TypedRefraction from_gravity(const TypedNumber& n) {
  constexpr double most_in_ones = 2;
  const double unit = n.value > most_in_ones ? 1000 : 1;
  const auto brix = [](double sg) {
    return physics::liquid_from_mark(physics::sg_20_20, sg).extract.value() * 100;
  };
  TypedRefraction r;
  r.value = brix(n.value / unit);
  r.half_width =
      (brix((n.value + n.half_width) / unit) - brix((n.value - n.half_width) / unit)) / 2;
  r.echo = fmt::format("read on the gravity scale: taken as {:.2f} Brix", r.value);
  return r;
}

// What a number without a unit would be on the instrument, or on an ordinary Brix scale.
BareMeaning bare_meaning(const TypedNumber& n, const std::optional<Refractometer>& own) {
  const Refractometer r =
      own.value_or(instruments::ordinary_refractometer(RefractometerScale::brix));
  return instruments::meaning_of_bare({n.value, n.decimals}, instruments::marks_of(r)).meaning;
}

[[noreturn]] void refuse_gravity(std::string_view text, const TypedNumber& n,
                                 const Refractometer& own) {
  const bool brix = own.scale == RefractometerScale::brix;
  // With two decimals it may be Brix all the same.
  const bool maybe = brix && n.unit.empty() && n.decimals == 2;
  refuse(text, n,
         fmt::format("{} looks like a specific gravity; {} shows {}", text, own.name,
                     brix ? "Brix" : "a refractive index"),
         fmt::format("read its {} scale, or give a hydrometer reading with --gravity{}",
                     brix ? "Brix" : "own", maybe ? fmt::format("; or write {}Bx", text) : ""));
}

RefractometerScale scale_of(std::string_view text, const TypedNumber& n,
                            const std::optional<Refractometer>& own) {
  if (says_brix(n.unit)) return RefractometerScale::brix;
  if (says_index(n.unit)) return RefractometerScale::index;
  if (n.unit.starts_with('%'))
    refuse(text, n, "percent of what? sugar or alcohol", "a refractometer shows Brix: write 12Bx");
  if (!n.unit.empty())
    refuse(text, n, fmt::format("'{}' is not a unit of a refractometer", n.unit),
           "write 12.4Bx, or 1.3512nD for a refractive index");
  if (own) return own->scale;
  const BareMeaning bare = bare_meaning(n, own);
  if (bare == BareMeaning::gravity)
    refuse(text, n, fmt::format("{} looks like a specific gravity, a hydrometer's", text),
           "areo correct or areo alcohol takes it; a refractometer shows Brix: 12.4Bx");
  refuse(text, n, fmt::format("{} without a unit could be Brix or a refractive index", text),
         fmt::format("write {}{}", text, bare == BareMeaning::index ? "nD" : "Bx"));
}

}  // namespace

bool says_brix(std::string_view unit) { return plain(unit) == "bx" || plain(unit) == "brix"; }

bool says_index(std::string_view unit) { return plain(unit) == "nd" || plain(unit) == "n"; }

TypedRefraction refraction_from_text(std::string_view text,
                                     const std::optional<Refractometer>& own) {
  const TypedNumber n = number_with_unit(text, "a refractometer reading");
  const bool brix_scale = own && own->scale == RefractometerScale::brix;
  const BareMeaning bare = n.unit.empty() ? bare_meaning(n, own) : BareMeaning::mark;
  const bool gravity = plain(n.unit) == "sg" || bare == BareMeaning::gravity;
  if (own && own->also_gravity && gravity) return from_gravity(n);
  if ((brix_scale && gravity) || (own && bare == BareMeaning::gravity))
    refuse_gravity(text, n, *own);
  if (own && bare == BareMeaning::index)
    refuse(text, n, fmt::format("{} looks like a refractive index; {} shows Brix", text, own->name),
           "read its Brix scale");
  TypedRefraction r{scale_of(text, n, own), n.value, n.half_width,
                    n.decimal_comma ? fmt::format("read as {:.{}f}", n.value, n.decimals) : ""};
  if (own && r.scale != own->scale)
    refuse(text, n,
           fmt::format("{} shows {}", own->name, brix_scale ? "Brix" : "a refractive index"),
           "write what its scale shows");
  return r;
}

}  // namespace areo::text
