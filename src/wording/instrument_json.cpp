// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "areo/physics/scale_name.hpp"
#include "areo/text/json.hpp"
#include "areo/wording/instrument.hpp"

namespace areo::wording {

std::string instrument_json(const notebook::InstrumentRecord& r,
                            const std::optional<notebook::Retirement>& retired) {
  std::string out = fmt::format(
      R"({{"name":{},"description":{},"maker":{},"serial":{},"added_at":"{}","note":{},)"
      R"("retired_at":{},"retired_reason":{})",
      text::json_string(r.name()), text::json_string(instrument_text(r)),
      text::json_string(r.maker), text::json_string(r.serial), r.added_at.text(),
      text::json_string(r.note), retired ? text::json_string(retired->at.text()) : "null",
      retired ? text::json_string(retired->reason) : "null");
  if (const auto* h = r.hydrometer())
    out += fmt::format(R"(,"kind":"hydrometer","scale":"{}","from":{},"to":{},"division":{},)"
                       R"("glass_expansion_per_c":{},"meniscus_height":{},"stem_diameter_mm":{},)"
                       R"("mass_g":{},"made_for_mn_m":{},"tolerance":{})",
                       physics::scale_key(h->scale), h->lo, h->hi, h->division,
                       h->glass_expansion_per_c, text::json_number(h->meniscus_height),
                       text::json_number(h->stem_diameter_mm), text::json_number(h->mass_g),
                       text::json_number(h->made_for_mn_m), h->maximum_permissible_error());
  else if (const auto* p = r.refractometer())
    out += fmt::format(
        R"(,"kind":"refractometer","scale":"{}","from":{},"to":{},"division":{},)"
        R"("compensated":{},"gravity_scale":{},"tolerance":{})",
        p->scale == instruments::RefractometerScale::brix ? "brix" : "refractive_index", p->lo,
        p->hi, p->division, p->compensated, p->also_gravity, p->maximum_permissible_error());
  else
    out += fmt::format(R"(,"kind":"thermometer","from_c":{},"to_c":{},"division_c":{})",
                       r.thermometer()->lo_c, r.thermometer()->hi_c, r.thermometer()->division_c);
  return out + "}";
}

}  // namespace areo::wording
