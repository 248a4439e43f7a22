// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/noted.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/text/parse_hydrometer.hpp"
#include "areo/text/parse_refraction.hpp"

namespace areo::entry {
namespace {

// Typed more coarsely than the eye reads: the digits that are missing count.
double coarse(double typed_half_width, const notebook::InstrumentRecord& instrument) {
  return typed_half_width > instrument.graduation().division / 2 ? typed_half_width : 0;
}

}  // namespace

NotedMark noted_mark(const std::string& typed, const notebook::InstrumentRecord& instrument) {
  if (const auto* h = instrument.hydrometer()) {
    const text::TypedMark m = text::mark_from_text(typed, *h);
    return {m.value, coarse(m.half_width, instrument), m.echo};
  }
  const text::TypedRefraction t = text::refraction_from_text(typed, *instrument.refractometer());
  return {t.value, coarse(t.half_width, instrument), t.echo};
}

NotedTemperature noted_temperature(const std::string& typed, const std::string& thermometer,
                                   const std::string& accuracy, bool of_a_liquid,
                                   const notebook::Notebook& book) {
  NotedTemperature t;
  if (typed.empty()) return t;
  t.celsius = of_a_liquid ? text::liquid_celsius_from_text(typed) : text::celsius_from_text(typed);
  if (!thermometer.empty()) {
    const notebook::InstrumentRecord named = of_kind(book, thermometer, "thermometer");
    t.thermometer = named.id;
    t.half_width_c = std::max(named.graduation().division / 2, text::celsius_half_width(typed));
  }
  if (!accuracy.empty()) t.half_width_c = text::celsius_difference_from_text(accuracy);
  return t;
}

notebook::InstrumentRecord of_kind(const notebook::Notebook& book, const std::string& name,
                                   std::string_view kind) {
  notebook::InstrumentRecord r = book.instrument(name);
  if (r.kind() != kind)
    throw Error{Errc::inconsistent, fmt::format("{} is a {}, not a {}", name, r.kind(), kind),
                kind == "hydrometer" && r.refractometer() != nullptr
                    ? "its readings go to: areo refract"
                    : "areo instrument list shows what there is"};
  return r;
}

void require_name(const char* what, const std::string& name, const char* example) {
  if (name.empty())
    throw Error{Errc::domain, fmt::format("{} needs a name", what),
                fmt::format("e.g. {}", example)};
  if (name.starts_with('-'))
    throw Error{Errc::domain, "a name that begins with - would be taken for an option",
                fmt::format("choose another one, e.g. {}", example)};
}

}  // namespace areo::entry
