// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/instrument_entry.hpp"

#include <fmt/format.h>

#include <optional>

#include "areo/core/error.hpp"
#include "areo/instruments/stem.hpp"
#include "areo/physics/scale.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/parse_refraction.hpp"

namespace areo::entry {
namespace {

// What the ends and the division are called on this scale: a bare "0.990", or "990kg/m3".
double on_scale(const std::string& text, const physics::Scale& scale, const char* what) {
  const text::TypedNumber n = text::number_with_unit(text, what);
  if (n.unit.empty()) return n.value;
  return text::mark_from_text(text, scale).value;
}

void require_scale(double lo, double hi, double division, const std::optional<double>& tolerance) {
  if (!(lo < hi) || !(division > 0) || !(division < hi - lo))
    throw Error{Errc::domain,
                fmt::format("a scale from {} to {} with division {} cannot be", lo, hi, division),
                "give --from the smaller and --to the larger end, e.g. 0.990 and 1.100"};
  if (tolerance && !(*tolerance > 0))
    throw Error{Errc::domain, "a maximum permissible error is above zero",
                "leave --tolerance out for one division"};
}

// "5mm", or a bare number in the unit that stands beside the option.
double above_zero(const std::string& text, const char* unit, const char* what) {
  const text::TypedNumber n = text::number_with_unit(text, what);
  if (!n.unit.empty() && n.unit != unit)
    throw ParseError{fmt::format("{} is in {}", what, unit), text, 0, text.size(),
                     fmt::format("write it like 5{}", unit)};
  if (!(n.value > 0))
    throw Error{Errc::domain, fmt::format("{} is above zero; got {}", what, text)};
  return n.value;
}

// What decides how hard a surface pulls: all of it may stay unknown.
void note_stem(instruments::Hydrometer& h, const TypedInstrument& o) {
  if (!o.stem.empty()) h.stem_diameter_mm = above_zero(o.stem, "mm", "the diameter of the stem");
  if (!o.mass.empty()) h.mass_g = above_zero(o.mass, "g", "the mass of the hydrometer");
  if (!o.made_for.empty()) h.made_for_mn_m = above_zero(o.made_for, "mN/m", "a surface tension");
  if (o.spacing.empty()) return;
  const double diameter_mm = instruments::stem_of(h).diameter_mm.value;
  const double height_mm = above_zero(o.spacing, "mm", "the height of a division");
  h.mass_g = instruments::mass_from_division_height(h, metres(diameter_mm / 1000),
                                                    metres(height_mm / 1000))
                 .value() *
             1000;
}

// A number on a refractometer's scale, bare or with its unit.
double on_refractometer(const std::string& text, const instruments::Refractometer& r) {
  return text::refraction_from_text(text, r).value;
}

}  // namespace

notebook::InstrumentRecord hydrometer_record(const TypedInstrument& o) {
  instruments::Hydrometer h;
  h.scale = o.scale.empty() ? physics::sg_20_20 : text::scale_from_text(o.scale);
  const instruments::Hydrometer usual = instruments::ordinary_hydrometer(h.scale);
  h.name = o.name;
  h.lo = o.from.empty() ? usual.lo : on_scale(o.from, h.scale, "the lower end");
  h.hi = o.to.empty() ? usual.hi : on_scale(o.to, h.scale, "the upper end");
  h.division = o.division.empty() ? usual.division : on_scale(o.division, h.scale, "the division");
  if (!o.glass.empty())
    h.glass_expansion_per_c = text::plain_number(o.glass, "the glass expansion") * 1e-6;
  if (!o.meniscus.empty()) h.meniscus_height = on_scale(o.meniscus, h.scale, "the meniscus");
  if (!o.tolerance.empty())
    h.tolerance = on_scale(o.tolerance, h.scale, "the maximum permissible error");
  require_scale(h.lo, h.hi, h.division, h.tolerance);
  note_stem(h, o);
  // A scale that cannot be computed at its ends is refused now, not at the first reading.
  for (const double end : {h.lo, h.hi}) (void)physics::density_from_mark(h.scale, end);
  notebook::InstrumentRecord r;
  r.instrument = h;
  return r;
}

notebook::InstrumentRecord refractometer_record(const TypedInstrument& o) {
  const bool index = text::says_index(o.scale);
  if (!index && !o.scale.empty() && !text::says_brix(o.scale))
    throw ParseError{"a refractometer shows Brix or a refractive index", o.scale, 0, o.scale.size(),
                     "write --scale Bx or --scale nD"};
  instruments::Refractometer r = instruments::ordinary_refractometer(
      index ? instruments::RefractometerScale::index : instruments::RefractometerScale::brix);
  r.name = o.name;
  r.compensated = o.compensated;
  if (!o.from.empty()) r.lo = on_refractometer(o.from, r);
  if (!o.to.empty()) r.hi = on_refractometer(o.to, r);
  if (!o.division.empty()) r.division = on_refractometer(o.division, r);
  if (!o.tolerance.empty()) r.tolerance = on_refractometer(o.tolerance, r);
  r.also_gravity = o.also_gravity;
  require_scale(r.lo, r.hi, r.division, r.tolerance);
  if (index && r.also_gravity)
    throw Error{Errc::inconsistent, "a gravity scale stands beside a Brix scale, not an index",
                "leave --gravity-scale out"};
  notebook::InstrumentRecord record;
  record.instrument = r;
  return record;
}

notebook::InstrumentRecord thermometer_record(const TypedInstrument& o) {
  instruments::Thermometer t;
  t.name = o.name;
  if (!o.from.empty()) t.lo_c = text::celsius_from_text(o.from);
  if (!o.to.empty()) t.hi_c = text::celsius_from_text(o.to);
  if (!o.division.empty()) t.division_c = text::celsius_difference_from_text(o.division);
  if (!(t.lo_c < t.hi_c))
    throw Error{Errc::domain, fmt::format("a scale from {} to {} °C cannot be", t.lo_c, t.hi_c)};
  notebook::InstrumentRecord r;
  r.instrument = t;
  return r;
}

}  // namespace areo::entry
