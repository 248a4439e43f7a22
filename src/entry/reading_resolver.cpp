// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/reading_resolver.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/entry/noted.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/text/parse_hydrometer.hpp"
#include "areo/text/parse_refraction.hpp"

namespace areo::entry {
namespace {

constexpr double usual_accuracy_c = 0.5;

}  // namespace

void require_temperature(const std::string& typed) {
  if (!typed.empty()) (void)text::liquid_celsius_from_text(typed);
}

ReadingResolver::ReadingResolver(SharedNotebook book, const ReadingOptions& options)
    : book_{std::move(book)},
      options_{options},
      at_{options.at.empty() ? now() : past_day_end_from_text(options.at, now())} {
  if (!options.division.empty()) {
    division_ = text::plain_number(options.division, "a division");
    if (!(*division_ > 0))
      throw ParseError{"a division is above zero", options.division, 0, options.division.size(),
                       "write 0.001"};
  }
  if (!options.temperature_accuracy.empty())
    accuracy_c_ = text::celsius_difference_from_text(options.temperature_accuracy);
  if (!options.instrument.empty()) {
    if (options.refractometer)
      (void)refractometer(options.instrument);
    else
      (void)hydrometer(options.instrument);
  }
  if (!options.thermometer.empty()) look_up_thermometer();
}

instruments::Correction ReadingResolver::correction(const notebook::InstrumentRecord& record) {
  return options_.interpolate ? notebook::interpolated_correction(notebook(), record, at_)
                              : notebook::correction_in_force(notebook(), record, at_);
}

const measurement::Calibrated& ReadingResolver::hydrometer(const std::string& name) {
  const auto known = hydrometers_.find(name);
  if (known != hydrometers_.end()) return known->second;
  const auto record = of_kind(notebook(), name, "hydrometer");
  return hydrometers_
      .emplace(name, measurement::Calibrated{*record.hydrometer(), correction(record)})
      .first->second;
}

const measurement::CalibratedRefractometer& ReadingResolver::refractometer(
    const std::string& name) {
  const auto known = refractometers_.find(name);
  if (known != refractometers_.end()) return known->second;
  const auto record = of_kind(notebook(), name, "refractometer");
  return refractometers_
      .emplace(name,
               measurement::CalibratedRefractometer{*record.refractometer(), correction(record)})
      .first->second;
}

void ReadingResolver::look_up_thermometer() {
  const auto record = of_kind(notebook(), options_.thermometer, "thermometer");
  thermometer_.emplace(*record.thermometer(), correction(record));
}

instruments::TemperatureReading ReadingResolver::temperature(const std::string& typed,
                                                             Temperature reference) {
  if (typed.empty()) return instruments::assumed_temperature(reference);
  instruments::TemperatureReading t;
  t.indication_c = text::liquid_celsius_from_text(typed);
  t.half_width_c = usual_accuracy_c;
  if (thermometer_) {
    instruments::require_on_scale(thermometer_->first, t.indication_c);
    t.thermometer = thermometer_->first;
    t.correction = thermometer_->second;
    t.half_width_c = std::max(thermometer_->first.division_c / 2, text::celsius_half_width(typed));
    t.provenance = "read to half a division of " + options_.thermometer;
  }
  if (accuracy_c_) {
    t.half_width_c = *accuracy_c_;
    t.provenance = "accuracy as stated";
  }
  return t;
}

instruments::Hydrometer ReadingResolver::unnamed_hydrometer(const physics::Scale& scale) {
  for (const instruments::Hydrometer& known : unnamed_hydrometers_)
    if (known.scale == scale) return known;
  instruments::Hydrometer h = instruments::ordinary_hydrometer(scale);
  if (!division_) return unnamed_hydrometers_.emplace_back(h);
  // A scale with fewer divisions than this is none that anybody reads.
  constexpr double least_divisions = 10;
  if (*division_ * least_divisions > h.hi - h.lo)
    throw ParseError{
        fmt::format("a division of {} is too coarse for {}", options_.division,
                    physics::scale_name(scale)),
        options_.division, 0, options_.division.size(),
        fmt::format("it is in the unit of the scale; {:g} is usual there", h.division)};
  h.division = *division_;
  return unnamed_hydrometers_.emplace_back(h);
}

instruments::Refractometer ReadingResolver::unnamed_refractometer(
    instruments::RefractometerScale scale) {
  for (const instruments::Refractometer& known : unnamed_refractometers_)
    if (known.scale == scale) return known;
  instruments::Refractometer r = instruments::ordinary_refractometer(scale);
  r.compensated = options_.compensated;
  if (division_) r.division = *division_;
  return unnamed_refractometers_.emplace_back(r);
}

TakenReading ReadingResolver::take(const std::string& reading,
                                   const std::string& typed_temperature) {
  TakenReading taken;
  if (!options_.instrument.empty()) {
    taken.instrument = hydrometer(options_.instrument);
  }
  const text::TypedMark mark = options_.instrument.empty()
                                   ? text::mark_from_text(reading)
                                   : text::mark_from_text(reading, taken.instrument.hydrometer);
  if (options_.instrument.empty())
    taken.instrument = measurement::Calibrated::never_checked(unnamed_hydrometer(mark.scale));
  taken.echo = mark.echo;
  if (options_.instrument.empty() && mark.scale.kind == physics::ScaleKind::brix &&
      mark.echo.empty())
    taken.echo = "taken as read with a hydrometer in Brix; a refractometer's go to areo refract";
  instruments::HydrometerReading& r = taken.reading;
  r.indication = mark.value;
  // Typed more coarsely than the eye reads: the digits that are missing count.
  if (mark.half_width > taken.instrument.hydrometer.division / 2) r.half_width = mark.half_width;
  r.meniscus = options_.top ? instruments::Meniscus::top : instruments::Meniscus::level;
  r.temperature = temperature(typed_temperature, taken.instrument.hydrometer.scale.reference());
  return taken;
}

TakenRefraction ReadingResolver::take_refraction(const std::string& reading,
                                                 const std::string& typed_temperature) {
  TakenRefraction taken;
  text::TypedRefraction typed;
  if (options_.instrument.empty()) {
    typed = text::refraction_from_text(reading);
    taken.sample.instrument =
        measurement::CalibratedRefractometer::never_checked(unnamed_refractometer(typed.scale));
  } else {
    taken.sample.instrument = refractometer(options_.instrument);
    typed = text::refraction_from_text(reading, taken.sample.instrument.refractometer);
  }
  taken.echo = typed.echo;
  if (options_.instrument.empty() && !options_.compensated && typed.echo.empty()) {
    taken.compensation_assumed = true;
    taken.echo = "taken as read without temperature compensation; with it, say --atc";
  }
  instruments::RefractometerReading& r = taken.sample.reading;
  r.indication = typed.value;
  if (typed.half_width > taken.sample.instrument.refractometer.division / 2)
    r.half_width = typed.half_width;
  r.temperature = temperature(typed_temperature, celsius_point(20));
  return taken;
}

measurement::ExtractKind ReadingResolver::extract(const ExtractWords& words) {
  return words.liquid.empty() ? extract_from_word(words.extract)
                              : extract_of_liquid(notebook(), words.liquid);
}

}  // namespace areo::entry
