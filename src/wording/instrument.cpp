// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/instrument.hpp"

#include <fmt/format.h>

#include "areo/physics/scale_name.hpp"
#include "areo/text/format.hpp"

namespace areo::wording {
namespace {

std::string scale_name(const instruments::Refractometer& r) {
  if (r.scale == instruments::RefractometerScale::index) return "refractive index";
  return r.also_gravity ? "Brix and gravity" : "Brix";
}

}  // namespace

std::string instrument_text(const notebook::InstrumentRecord& r) {
  if (const auto* h = r.hydrometer())
    return fmt::format("hydrometer, {}, {} to {}, division {:g}", physics::scale_name(h->scale),
                       text::indication_text(h->lo, h->division),
                       text::indication_text(h->hi, h->division), h->division);
  if (const auto* p = r.refractometer())
    return fmt::format("refractometer, {}, {} to {}, division {:g}, {}", scale_name(*p),
                       text::indication_text(p->lo, p->division),
                       text::indication_text(p->hi, p->division), p->division,
                       p->compensated ? "temperature-compensated" : "not compensated");
  const auto* t = r.thermometer();
  return fmt::format("thermometer, {:g} to {:g} °C, division {:g} °C", t->lo_c, t->hi_c,
                     t->division_c);
}

std::string unit_of(const notebook::InstrumentRecord& r) {
  if (const auto* h = r.hydrometer()) return physics::scale_unit(h->scale);
  if (const auto* p = r.refractometer())
    return p->scale == instruments::RefractometerScale::brix ? "Brix" : "";
  return "°C";
}

std::string shown(const notebook::InstrumentRecord& r, double indication) {
  if (r.thermometer() != nullptr) return text::celsius_text(indication);
  const std::string unit = unit_of(r);
  return text::indication_text(indication, r.graduation().division) +
         (unit.empty() ? "" : " " + unit);
}

bool checked_at_one_place(const instruments::Correction& c) {
  return c.u_slope == 0 || c.checked_lo == c.checked_hi;  // no slope is fitted to one place
}

std::string checked_text(const notebook::InstrumentRecord& r, const instruments::Correction& c) {
  const std::string lo = shown(r, c.checked_lo);
  const std::string hi = shown(r, c.checked_hi);
  return (lo == hi ? "at " + lo : fmt::format("from {} to {}", lo, hi)) +
         (checked_at_one_place(c) ? " only" : "");
}

std::string instruction_where_checked(const notebook::InstrumentRecord& r,
                                      const instruments::Correction& c, double correction,
                                      int decimals, const std::string& condition) {
  const std::string unit = unit_of(r);
  if (!checked_at_one_place(c))
    return text::instruction(correction, decimals, unit,
                             fmt::format("every reading between {} and {}", shown(r, c.checked_lo),
                                         shown(r, c.checked_hi))) +
           condition;
  return fmt::format("{}{}, checked {}", text::instruction(correction, decimals, unit), condition,
                     checked_text(r, c));
}

}  // namespace areo::wording
