// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/strength.hpp"

#include <algorithm>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/parse_amount.hpp"

namespace areo::entry {

using measurement::AlcoholResult;
using measurement::note::Said;

// One volume of two: what is understood with the other would be another gravity.
measurement::WeighedSugar weighed_sugar(const TypedSugar& o) {
  const bool water = !o.water.empty();
  const std::string& volume = water ? o.water : o.made_up_to;
  using measurement::WeighedSugar;
  constexpr double usual_division_g = 1;
  const text::TypedMass sugar = text::mass_from_text(o.sugar);
  const WeighedSugar w{sugar.value, std::max(usual_division_g, sugar.half_width),
                       text::litres_from_text(volume),
                       water ? WeighedSugar::Volume::of_water : WeighedSugar::Volume::made_up_to};
  for (const auto& [value, text] : {std::pair{w.sugar_g, &o.sugar}, {w.volume_l, &volume}})
    if (!(value > 0))
      throw ParseError{"weighed sugar and its volume are above zero", *text, 0, text->size()};
  return w;
}

TakenOriginal taken_original(const TakenReading& t) {
  return {{.readings = {measurement::HydrometerSample{t.instrument, t.reading}}}, t.echo};
}

AlcoholResult strength(const TakenOriginal& original, const TakenReading& present,
                       ferment::Culture culture) {
  AlcoholResult a = measurement::alcohol(
      measurement::HydrometerSample{present.instrument, one_reading(present.reading)},
      original.original, culture);
  auto& notes = a.result.notes;
  if (!present.echo.empty()) notes.insert(notes.begin(), Said{"present gravity " + present.echo});
  if (!original.echo.empty())
    notes.insert(notes.begin(), Said{"original gravity " + original.echo});
  return a;
}

}  // namespace areo::entry
