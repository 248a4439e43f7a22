// SPDX-License-Identifier: GPL-3.0-or-later
#include "card_grid.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/text/format.hpp"
#include "card_places.hpp"
#include "temperature_grid.hpp"
#include "wording/result_value.hpp"

namespace areo::paper {
namespace {

std::string or_usual(const std::string& typed, const std::string& usual) {
  return typed.empty() ? usual : typed;
}

TemperatureAxis side_of(const CardSides& o, const TypedTemperatures& usual_c,
                        const TypedTemperatures& usual_f, const physics::Scale& scale) {
  return temperature_axis({o.coldest, o.warmest, o.step}, usual_c, usual_f, scale);
}

int most_decimals_of(const CardSubject& s) {
  return text::supported_decimals(s.record.graduation().division);
}

// What of the instrument itself is in the numbers.
std::string included(const CardSubject& s) {
  return s.corrected() ? fmt::format("the correction of {} is in it", s.record.name())
                       : "no correction of its own is in it";
}

Grid hydrometer_grid(const CardSubject& s, const CardSides& o) {
  const instruments::Hydrometer& h = *s.record.hydrometer();
  const StrengthByVolume alcohol = strength_from_text(o.alcohol);
  const std::string usual = places_on(s.record.graduation(), usual_places(h.scale));
  Grid g = temperature_grid(measurement::Calibrated{h, s.correction},
                            side_of(o, {"10C", "34C", "2C"}, {"50F", "94F", "4F"}, h.scale),
                            listed_marks(or_usual(o.readings, usual), h.scale), alcohol,
                            most_decimals_of(s));
  g.rows.name = "liquid";
  g.lines = {fmt::format("What to add to a reading on {} (minus is taken off), for {}; {}.",
                         physics::scale_name(h.scale),
                         alcohol.value() > 0
                             ? fmt::format("a drink with {:g} % vol", alcohol.value())
                             : "liquids without alcohol",
                         included(s))};
  g.doubt = "of calibration, glass and formulas; not of the reading";
  g.cautions = {
      "A broken hydrometer in the drink means glass and shot in the drink: throw the drink away."};
  return g;
}

// Readings down the side, what to add and what it then is beside them.
// @param correction  Result of a reading, the correction and the corrected value
template <class Correction>
Grid grid_by_reading(Axis side, std::vector<GridQuantity> quantities,
                     const Correction& correction) {
  Grid g;
  g.rows = std::move(side);
  g.quantities = std::move(quantities);
  g.cells = [=](double reading, double) {
    const measurement::Result r = correction(reading);
    return std::vector{GridCell{r.quantities[0].value}, GridCell{r.quantities[1].value}};
  };
  g.json = [=](double reading, double) -> std::optional<std::string> {
    return wording::json_line(correction(reading), {{"reading", text::number_json(reading)}});
  };
  return g;
}

Grid compensated_grid(const CardSubject& s, const Axis& top, const measurement::ExtractKind& kind) {
  const measurement::CalibratedRefractometer prism{*s.record.refractometer(), s.correction};
  for (const double mark : top.listed) instruments::require_on_scale(prism.refractometer, mark);
  // Where its compensation is known least; what to add is the same everywhere.
  const Temperature warmest = celsius_point(physics::index_temperature_range.hi);
  Axis side = top;
  side.key = "reading_brix";
  Grid g = grid_by_reading(
      side,
      {{"correction", "add", "Brix", most_decimals_of(s), true},
       {"extract_percent", "then it is", "% mass", most_decimals_of(s)}},
      [=](double mark) { return measurement::temperature_correction(prism, mark, warmest, kind); });
  g.lines = {fmt::format("What to add to a reading (minus is taken off), from 10 °C to 30 °C; {}.",
                         included(s))};
  g.models = {of_index};
  return g;
}

Grid refractometer_grid(const CardSubject& s, const CardSides& o,
                        const measurement::ExtractKind& kind) {
  const instruments::Refractometer& r = *s.record.refractometer();
  if (r.scale != instruments::RefractometerScale::brix)
    throw Error{Errc::inconsistent, "a card is for Brix scales",
                fmt::format("areo refract READING --temp TEMP --instrument {} says what one shows",
                            shell_word(s.record.name()))};
  const Axis top = listed_brix(
      or_usual(o.readings, places_on(s.record.graduation(), usual_places(physics::brix_20))),
      {"brix", "shown", "Brix"}, "a reading");
  Grid g;
  if (r.compensated) {
    g = compensated_grid(s, top, kind);
  } else {
    g = temperature_grid(measurement::CalibratedRefractometer{r, s.correction},
                         side_of(o, {"10C", "30C", "2C"}, {"50F", "86F", "4F"}, physics::brix_20),
                         top, kind, most_decimals_of(s));
    g.rows.name = "prism";
    g.lines = {
        fmt::format("What to add to a reading in Brix (minus is taken off), by the temperature of "
                    "the prism; {}.",
                    included(s))};
  }
  g.doubt = fmt::format("of calibration, formula and extract ({}); not of the reading", kind.name);
  g.notes = kind.remarks;
  g.cautions = {fmt::format(
      "While it ferments a reading is no Brix, and this card is not for it: alcohol refracts too. "
      "For what it means then, use areo refract or areo table refractometer --instrument {}.",
      shell_word(s.record.name()))};
  return g;
}

Axis thermometer_side(const CardSubject& s, const CardSides& o) {
  constexpr double step_c = 10, coldest_c = 0, warmest_c = 100;
  constexpr double short_parts = 4;
  if (!o.coldest.empty() || !o.warmest.empty() || !o.step.empty()) {
    const TemperatureAxis side = temperature_axis(
        or_usual(o.coldest, "0C"), or_usual(o.warmest, "100C"), or_usual(o.step, "10C"), Heat::any);
    if (side.fahrenheit)
      throw Error{Errc::inconsistent, "what a thermometer is off by is in °C here",
                  "write all of them in °C: 0C to 100C by 10C"};
    return side.axis;
  }
  const notebook::Graduation scale = s.record.graduation();
  const Axis named{"reading", "shown", "°C"};
  const double from = std::max(coldest_c, std::ceil(scale.lo / step_c) * step_c);
  const double to = std::min(warmest_c, std::floor(scale.hi / step_c) * step_c);
  if (to > from) return even_axis(named, from, to, step_c);
  Axis own = named;
  own.decimals = text::supported_decimals((scale.hi - scale.lo) / short_parts);
  return even_axis(own, scale.lo, scale.hi, (scale.hi - scale.lo) / short_parts);
}

Grid thermometer_grid(const CardSubject& s, const CardSides& o) {
  Axis side = thermometer_side(s, o);
  side.key = "reading";
  side.name = "shown";
  for (const double end : {side.at(0), side.at(static_cast<double>(side.size()) - 1)})
    instruments::require_on_scale(*s.record.thermometer(), end);
  Grid g = grid_by_reading(
      side,
      {{"correction", "add", "°C", most_decimals_of(s), true},
       {"temperature_c", "then it is", "°C", most_decimals_of(s)}},
      [thermometer = *s.record.thermometer(), correction = s.correction](double shown_c) {
        return measurement::temperature_correction(thermometer, correction, shown_c);
      });
  g.lines = {fmt::format("What to add to what it shows (minus is taken off); {}.", included(s))};
  g.doubt = "of its calibration; not of the reading";
  g.cautions = {"A broken glass thermometer in the drink: throw the drink away."};
  return g;
}

}  // namespace

Grid card_grid(const CardSubject& s, const CardSides& o, const measurement::ExtractKind& kind) {
  if (s.record.hydrometer() != nullptr) return hydrometer_grid(s, o);
  return s.record.refractometer() != nullptr ? refractometer_grid(s, o, kind)
                                             : thermometer_grid(s, o);
}

std::vector<CardOffset> card_offsets(const CardSubject& s, const measurement::ExtractKind& kind,
                                     const std::vector<double>& readings) {
  const auto* r = s.record.refractometer();
  if (r == nullptr) return offsets_at(s, readings);
  const measurement::CalibratedRefractometer prism{*r, s.correction};
  // A compensated one shows at all temperatures what it shows at 20 °C, and least surely far away.
  const Temperature t = celsius_point(r->compensated ? physics::index_temperature_range.hi : 20);
  std::vector<CardOffset> all;
  all.reserve(readings.size());
  for (const double mark : readings)
    all.push_back(
        {mark, measurement::temperature_correction(prism, mark, t, kind).at("correction").value});
  return condensed(s, all);
}

std::vector<double> readings_of(const Grid& g) {
  const Axis& axis = g.columns ? *g.columns : g.rows;
  std::vector<double> all;
  for (std::size_t i = 0; i < axis.size(); ++i) all.push_back(axis.at(static_cast<double>(i)));
  return all;
}

}  // namespace areo::paper
