// SPDX-License-Identifier: GPL-3.0-or-later
// What to add to a hydrometer's reading at each temperature.
#include <fmt/format.h>

#include <algorithm>

#include "areo/paper/tables.hpp"
#include "areo/physics/scale_name.hpp"
#include "temperature_grid.hpp"

namespace areo::paper {
namespace {

constexpr int marks_a_scale = 8;  // and one
constexpr const char* usual_readings = "1.000,1.010,1.020,1.030,1.040,1.050,1.060,1.080,1.100";

// Of a correction: a reading has fewer digits than a conversion.
int correction_decimals(const physics::Scale& s) { return std::max(2, most_decimals(s) - 1); }

}  // namespace

Grid temperature_table(const TemperatureTable& t, Shape shape) {
  const auto& named = t.instrument;
  const std::string readings =
      !t.readings.empty() ? t.readings
      : named             ? possible_marks(marks_of({.lo = named->hydrometer.lo,
                                                     .hi = named->hydrometer.hi,
                                                     .division = named->hydrometer.division,
                                                     .length = named->hydrometer.scale_length(),
                                                     .maximum_permissible_error = 0},
                                                    marks_a_scale),
                                           named->hydrometer.scale)
                          : usual_readings;
  const MarkAxis top =
      listed_marks(readings, named ? std::optional{named->hydrometer.scale} : std::nullopt);
  instruments::Hydrometer ideal = instruments::ordinary_hydrometer(top.scale);
  ideal.lo = top.axis.listed.front();
  ideal.hi = top.axis.listed.back();
  const measurement::Calibrated instrument = named ? *named : measurement::without_error(ideal);
  const TemperatureAxis side = temperature_axis(
      {t.coldest, t.warmest, t.step}, {"10C", "35C", "1C"}, {"50F", "96F", "2F"}, top.scale);
  const StrengthByVolume alcohol = strength_from_text(t.alcohol);

  const std::string whose = !named ? "an instrument without error"
                            : named->correction.checks > 0
                                ? named->hydrometer.name + " with its own correction"
                                : named->hydrometer.name + ", whose own correction nobody knows";
  Grid g = temperature_grid(instrument, side, top, alcohol, correction_decimals(top.scale));
  if (shape == Shape::for_people) g.rows.name = "liquid";  // ten columns then fit
  g.title = fmt::format("What to add to a reading on {}, by the temperature of the liquid",
                        physics::scale_name(top.scale));
  g.lines = {fmt::format("{}; {}: plus is added, minus taken off",
                         alcohol.value() > 0
                             ? fmt::format("a drink with {:g} % vol", alcohol.value())
                             : "sugar liquids without alcohol",
                         whose)};
  g.doubt = named ? "of its calibration, its glass and the formulas; not of the reading"
                  : "of glass and formulas; not of the instrument, not of the reading";
  g.notes = instrument.correction.remarks;
  return g;
}

}  // namespace areo::paper
