// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as a number with a unit, as people type it: refused, or a value that is the same when
// it is printed and read again.
#include <fmt/format.h>

#include <cmath>
#include <cstdint>
#include <functional>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "areo/physics/scale_name.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/parse_hydrometer.hpp"
#include "areo/text/parse_refraction.hpp"
#include "refusal.hpp"

namespace areo::fuzz {
namespace {

using physics::Scale;
using physics::ScaleKind;
using text::TypedMark;

constexpr std::size_t most_characters = 17;  // of a number that is read

// Two doubles that came by different ways of correctly rounded steps from one number.
bool same(double a, double b) {
  return std::abs(a - b) <= 4 * std::numeric_limits<double>::epsilon() * std::abs(a);
}

int decimals_of(double half_width) {
  return std::max(0, static_cast<int>(std::lround(-std::log10(2 * half_width))));
}

// With as many decimals as are read, without a zero in front of the mark; nothing if it is too
// long.
struct Printed {
  std::string text;
  int decimals;
};
std::optional<Printed> printed(double value, int decimals) {
  for (; decimals >= 0; --decimals) {
    std::string text = text::fixed(value, decimals);
    if (const auto zero = text.find("0."); zero == 0 || (zero == 1 && text[0] == '-'))
      text.erase(zero, 1);
    if (text.size() <= most_characters) return Printed{text, decimals};
  }
  return std::nullopt;
}

void check_number(const std::string& text) {
  text::TypedNumber n;
  if (!accepts([&] { n = text::number_with_unit(text, "a number"); })) return;
  require(std::isfinite(n.value) && n.half_width > 0, "a number is finite and as sharp as typed");
  require(n.unit_position + n.unit.size() <= text.size() &&
              text.substr(n.unit_position, n.unit.size()) == n.unit,
          "the unit is where it is said to be", text);
  const auto p = printed(n.value, n.decimals);
  if (!p || p->decimals != n.decimals) return;
  // A tab between: behind a space three digits would be thousands.
  const auto again = text::number_with_unit(p->text + "\t" + n.unit, "a number");
  require(again.value == n.value && again.decimals == n.decimals && again.unit == n.unit,
          "a number printed and read again is the same", p->text);
}

// A reader of one quantity: its value in its own unit, printed and read again.
void check_quantity(const std::string& text, const char* unit, double factor,
                    const std::function<double(std::string_view)>& read) {
  double value = 0;
  if (!accepts([&] { value = read(text); })) return;
  require(std::isfinite(value), "a quantity is finite", text);
  const auto p = printed(value / factor, 12);
  if (!p || p->text.find_first_of("123456789") == std::string::npos) return;
  double again = 0;
  // Rounded up beyond its limit it may be refused: of the values it is the last.
  if (!accepts([&] { again = read(p->text + unit); })) return;
  const double digit = std::pow(10.0, -p->decimals) * factor;
  require(std::abs(again - value) <= digit || same(again, value),
          "a quantity printed and read again is the same", p->text + unit);
}

void check_quantities(const std::string& text) {
  check_quantity(text, "C", 1, text::celsius_from_text);
  check_quantity(text, "C", 1, text::liquid_celsius_from_text);
  check_quantity(text, "C", 1, text::celsius_difference_from_text);
  check_quantity(text, "g", 1, text::grams_from_text);
  check_quantity(text, "L", 1, text::litres_from_text);
  check_quantity(text, "g/L", 1, text::carbonation_from_text);
  check_quantity(text, "%", 0.01, [](auto t) { return text::headspace_from_text(t).value; });
  check_quantity(text, "hPa", 100, [](auto t) { return text::pressure_from_text(t).value(); });
  check_quantity(text, "kPa", 1000, [](auto t) { return text::rating_from_text(t).value(); });
  check_quantity(text, "m", 1, [](auto t) { return text::altitude_from_text(t).value(); });
  check_quantity(text, "", 1, [](auto t) { return text::plain_number(t, "a number"); });
}

void check_temperature(const std::string& text) {
  double liquid = 0;
  const bool as_liquid = accepts([&] { liquid = text::liquid_celsius_from_text(text); });
  if (as_liquid)
    require(text::celsius_half_width(text) > 0 && text::celsius_from_text(text) == liquid,
            "the temperature of a liquid is a temperature", text);
  for (const bool original : {false, true}) {
    double sample = 0;
    if (accepts([&] { sample = text::sample_celsius_from_text(text, original); }))
      require(as_liquid && sample == liquid, "the temperature of a sample is one of a liquid",
              text);
  }
}

// What is read as this scale.
std::string word_of(const Scale& s) {
  switch (s.kind) {
    case ScaleKind::specific_gravity: return fmt::format("SG{}/{}", s.sample_c, s.water_c);
    case ScaleKind::apparent_gravity: return "SGair";
    case ScaleKind::density: return fmt::format("kg/m3@{}C", s.sample_c);
    case ScaleKind::plato: return fmt::format("P@{}C", s.sample_c);
    case ScaleKind::brix: return fmt::format("Bx@{}C", s.sample_c);
    case ScaleKind::baume: return s.modulus == 145 ? "Be" : "Be144.3";
    case ScaleKind::oechsle: return "Oe";
    case ScaleKind::sugar_concentration: return fmt::format("g/L@{}C", s.sample_c);
  }
  return "";
}

void check_scale(const std::string& text) {
  std::optional<Scale> scale;
  if (!accepts([&] { scale = text::scale_from_text(text); })) return;
  require(text::scale_from_text(word_of(*scale)) == *scale, "a scale named again is the same",
          text);
  require(!physics::scale_key(*scale).empty() && !physics::scale_name(*scale).empty(),
          "a scale has a key and a name", text);
}

void check_mark(const std::string& text, const std::optional<Scale>& on,
                const std::function<TypedMark(std::string_view)>& read) {
  std::optional<TypedMark> m;
  if (!accepts([&] { m = read(text); })) return;
  require(std::isfinite(m->value) && m->half_width > 0, "a mark is finite and as sharp as typed");
  if (on) require(m->scale == *on, "a mark read on an instrument is on its scale", text);
  const auto p = printed(m->value, decimals_of(m->half_width));
  if (p && p->decimals == decimals_of(m->half_width)) {
    const TypedMark again = read(p->text + word_of(m->scale));
    require(again.scale == m->scale && same(again.value, m->value),
            "a mark printed and read again is the same", p->text + word_of(m->scale));
  }
  constexpr std::string_view read_as = "read as ";
  if (m->echo.empty()) return;
  require(m->echo.starts_with(read_as), "an echo says how a mark was read", m->echo);
  const std::string said = m->echo.substr(read_as.size());
  if (said.size() > most_characters) return;
  require(same(read(said + word_of(m->scale)).value, m->value), "a mark is what its echo says",
          m->echo);
}

void check_marks(const std::string& text) {
  check_mark(text, std::nullopt, [](auto t) { return text::mark_from_text(t); });
  for (const Scale& scale : physics::offered_scales())
    check_mark(text, scale, [&](auto t) { return text::mark_from_text(t, scale); });
  for (const Scale& scale : {physics::sg_20_20, physics::plato_20, physics::density_20}) {
    instruments::Hydrometer h = instruments::ordinary_hydrometer(scale);
    h.name = "stem-1";
    check_mark(text, scale, [&](auto t) { return text::mark_from_text(t, h); });
  }
}

void check_steps(const std::string& text) {
  for (const char* from : {"1.048", "1048", "12.5P", "6Be"}) {
    const TypedMark mark = text::mark_from_text(from);
    text::TypedStep step{};
    if (accepts([&] { step = text::step_from_text(text, mark); }))
      require(step.value > 0 && std::isfinite(step.value) && step.decimals >= 0, "a step goes up",
              text);
  }
}

void check_refraction(const std::string& text,
                      const std::optional<instruments::Refractometer>& own) {
  text::TypedRefraction r;
  if (!accepts([&] { r = text::refraction_from_text(text, own); })) return;
  require(std::isfinite(r.value) && r.half_width > 0,
          "a refractometer's mark is finite and as sharp as typed", text);
  if (own) require(r.scale == own->scale, "a refractometer shows its own scale", text);
  const auto p = printed(r.value, 12);
  if (!p) return;
  const bool brix = r.scale == instruments::RefractometerScale::brix;
  const auto again = text::refraction_from_text(p->text + (brix ? "Bx" : "nD"), own);
  require(std::abs(again.value - r.value) <= std::pow(10.0, -p->decimals),
          "a refractometer's mark printed and read again is the same", p->text);
}

void check_refractions(const std::string& text) {
  using instruments::RefractometerScale;
  check_refraction(text, std::nullopt);
  for (const RefractometerScale scale : {RefractometerScale::brix, RefractometerScale::index})
    for (const bool also_gravity : {false, true}) {
      instruments::Refractometer r = instruments::ordinary_refractometer(scale);
      r.name = "prism-1";
      r.also_gravity = also_gravity && scale == RefractometerScale::brix;
      check_refraction(text, r);
    }
}

void check_list(const std::string& text) {
  std::string joined;
  int parts = 0;
  text::each_part(text,
                  [&](const std::string& part) { joined += (parts++ > 0 ? "," : "") + part; });
  require(joined == text, "the parts of a list are the list", text);
  std::vector<Scale> scales;
  (void)accepts([&] {
    text::each_part(text, [&](auto part) { scales.push_back(text::scale_from_text(part)); });
  });
}

}  // namespace
}  // namespace areo::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace areo::fuzz;
  const std::string text{reinterpret_cast<const char*>(data), size};
  check_number(text);
  check_quantities(text);
  check_temperature(text);
  check_scale(text);
  check_marks(text);
  check_steps(text);
  check_refractions(text);
  check_list(text);
  return 0;
}
