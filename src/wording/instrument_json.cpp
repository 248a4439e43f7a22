// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/physics/scale_name.hpp"
#include "areo/wording/instrument.hpp"
#include "text/json_dump.hpp"

namespace areo::wording {
namespace {

void add_hydrometer(text::Json& to, const instruments::Hydrometer& h) {
  to["kind"] = "hydrometer";
  to["scale"] = physics::scale_key(h.scale);
  to["from"] = text::number_json(h.lo);
  to["to"] = text::number_json(h.hi);
  to["division"] = text::number_json(h.division);
  to["glass_expansion_per_c"] = text::number_json(h.glass_expansion_per_c);
  to["meniscus_height"] = text::number_json(h.meniscus_height);
  to["stem_diameter_mm"] = text::number_json(h.stem_diameter_mm);
  to["mass_g"] = text::number_json(h.mass_g);
  to["made_for_mn_m"] = text::number_json(h.made_for_mn_m);
  to["tolerance"] = text::number_json(h.maximum_permissible_error());
}

void add_refractometer(text::Json& to, const instruments::Refractometer& p) {
  to["kind"] = "refractometer";
  to["scale"] = p.scale == instruments::RefractometerScale::brix ? "brix" : "refractive_index";
  to["from"] = text::number_json(p.lo);
  to["to"] = text::number_json(p.hi);
  to["division"] = text::number_json(p.division);
  to["compensated"] = p.compensated;
  to["gravity_scale"] = p.also_gravity;
  to["tolerance"] = text::number_json(p.maximum_permissible_error());
}

void add_thermometer(text::Json& to, const instruments::Thermometer& t) {
  to["kind"] = "thermometer";
  to["from_c"] = text::number_json(t.lo_c);
  to["to_c"] = text::number_json(t.hi_c);
  to["division_c"] = text::number_json(t.division_c);
}

}  // namespace

std::string instrument_json(const notebook::InstrumentRecord& r,
                            const std::optional<notebook::Retirement>& retired) {
  text::Json j{{"name", r.name()},
               {"description", instrument_text(r)},
               {"maker", r.maker},
               {"serial", r.serial},
               {"added_at", r.added_at.text()},
               {"note", r.note},
               {"retired_at", retired ? text::Json(retired->at.text()) : text::Json()},
               {"retired_reason", retired ? text::Json(retired->reason) : text::Json()}};
  if (const auto* h = r.hydrometer())
    add_hydrometer(j, *h);
  else if (const auto* p = r.refractometer())
    add_refractometer(j, *p);
  else
    add_thermometer(j, *r.thermometer());
  return text::dump(j);
}

}  // namespace areo::wording
