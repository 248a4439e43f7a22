// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/bottle_entry.hpp"

#include <algorithm>

#include "areo/core/range.hpp"
#include "areo/physics/carbon_dioxide.hpp"
#include "areo/text/parse.hpp"

namespace areo::entry {

using measurement::BottlePlan;

BottlePlan bottle_plan(const TypedBottlePlan& o) {
  BottlePlan plan;
  if (!o.storage.empty()) {
    plan.storage_c = text::celsius_from_text(o.storage);
    require(physics::solubility_temperature_range, plan.storage_c);
    plan.storage_half_width_c = std::max(instruments::TemperatureReading{}.half_width_c,
                                         text::celsius_half_width(o.storage));
  }
  if (!o.headspace.empty()) {
    const text::TypedShare share = text::headspace_from_text(o.headspace);
    plan.headspace = share.value;
    plan.headspace_half_width = share.half_width;
  }
  plan.expected_sg = text::expected_end_from_text(o.expected);
  if (!o.carbonation.empty()) plan.carbonation = text::carbonation_from_text(o.carbonation);
  if (!o.volume.empty()) plan.volume_l = text::litres_from_text(o.volume);
  return plan;
}

instruments::TemperatureReading closing_temperature(batch::Batch& batch, const batch::Point& p,
                                                    const std::string& typed) {
  if (typed.empty()) {
    const auto& first = p.sample.first();
    return batch.shelf().temperature(celsius_point(20), first.temperature_c,
                                     first.temperature_half_width_c, first.thermometer,
                                     first.made_at);
  }
  instruments::TemperatureReading t;
  t.indication_c = text::liquid_celsius_from_text(typed);
  t.half_width_c = std::max(t.half_width_c, text::celsius_half_width(typed));
  return t;
}

}  // namespace areo::entry
