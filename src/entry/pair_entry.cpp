// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/pair_entry.hpp"

#include <fmt/format.h>

#include <cstdlib>
#include <tuple>

#include "areo/entry/noted.hpp"
#include "areo/text/parse.hpp"

namespace areo::entry {

using notebook::InstrumentRecord;
using notebook::LiquidPairRecord;

namespace {

notebook::PairHalf half_of(const std::string& typed, const InstrumentRecord& instrument,
                           const std::string& temperature) {
  const NotedMark m = noted_mark(typed, instrument);
  notebook::PairHalf half{instrument.id, typed, m.value, m.half_width, temperature, {}};
  if (!temperature.empty()) half.temperature_c = text::liquid_celsius_from_text(temperature);
  return half;
}

}  // namespace

LiquidPairRecord pair_record(const TypedPair& o, const notebook::Notebook& book) {
  LiquidPairRecord r;
  r.liquid = o.liquid;
  r.made_at = o.on.empty() ? now() : past_moment_from_text(o.on, now());
  r.note = o.note;
  const InstrumentRecord prism = of_kind(book, o.refractometer, "refractometer");
  const InstrumentRecord stem = of_kind(book, o.hydrometer, "hydrometer");
  r.refraction = half_of(o.refraction, prism, o.temperature);
  r.gravity = half_of(o.gravity, stem,
                      o.gravity_temperature.empty() ? o.temperature : o.gravity_temperature);
  r.meniscus = o.top ? instruments::Meniscus::top : instruments::Meniscus::level;
  // Both temperatures come from one thermometer; either stands for its accuracy.
  const NotedTemperature t =
      noted_temperature(o.temperature.empty() ? o.gravity_temperature : o.temperature,
                        o.thermometer, o.temperature_accuracy, true, book);
  r.thermometer = t.thermometer;
  r.temperature_half_width_c = t.half_width_c;
  return r;
}

batch::Doubts doubts_about(const LiquidPairRecord& r, const notebook::Notebook& book) {
  const auto of = [](const notebook::PairHalf& h) {
    return std::tie(h.instrument, h.reading, h.temperature_c);
  };
  for (const LiquidPairRecord& there : book.liquid_pairs(r.liquid))
    if (of(there.refraction) == of(r.refraction) && of(there.gravity) == of(r.gravity) &&
        there.note == r.note &&
        std::abs(there.made_at.seconds - r.made_at.seconds) <= batch::typed_twice_s)
      return {fmt::format("{} and {} are pair {} already: typed twice?", r.refraction.typed,
                          r.gravity.typed, there.id)};
  return {};
}

}  // namespace areo::entry
