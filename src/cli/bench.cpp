#include "bench.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/physics/scale_name.hpp"

namespace areo::cli {
namespace {

constexpr double usual_accuracy_c = 0.5;

}  // namespace

void add_reading_options(CLI::App& command, ReadingOptions& o) {
  command.add_option("--instrument", o.instrument, "hydrometer in the notebook")->type_name("NAME");
  command.add_option("--thermometer", o.thermometer, "thermometer in the notebook")
      ->type_name("NAME");
  command
      .add_option("--temp-accuracy", o.temperature_accuracy,
                  "how far the temperature may be off, ±; 0.5C unless stated")
      ->type_name("0.2C");
  command
      .add_option("--division", o.division,
                  "smallest division of an unnamed hydrometer; 0.002 unless stated")
      ->type_name("0.001");
  command.add_flag("--top", o.top, "cloudy liquid: read at the top of the meniscus");
  command.add_option("--at", o.at, "moment of the reading: the calibration in force then is used")
      ->type_name("DATE");
}

std::string notebook_path(const Session& session) {
  return session.notebook.empty() ? notebook::default_path() : session.notebook;
}

std::vector<physics::Scale> scales_from_text(const std::string& text,
                                             const std::vector<physics::Scale>& fallback) {
  if (text.empty()) return fallback;
  std::vector<physics::Scale> scales;
  for (std::size_t begin = 0; begin <= text.size();) {
    const std::size_t end = std::min(text.find(',', begin), text.size());
    try {
      scales.push_back(physics::scale_from_word(text.substr(begin, end - begin)));
    } catch (const ParseError& e) {
      throw ParseError{e.what(), text, begin, end - begin, e.hint};
    }
    begin = end + 1;
  }
  return scales;
}

Bench::Bench(const Session& session, const ReadingOptions& options)
    : session_{&session},
      options_{options},
      at_{options.at.empty() ? now() : past_moment_from_text(options.at, now())} {}

notebook::Notebook& Bench::notebook() {
  if (!notebook_) notebook_.emplace(notebook_path(*session_));
  return *notebook_;
}

const measurement::Calibrated& Bench::hydrometer(const std::string& name) {
  const auto known = hydrometers_.find(name);
  if (known != hydrometers_.end()) return known->second;
  const notebook::InstrumentRecord record = notebook().instrument(name);
  const auto* h = record.hydrometer();
  if (h == nullptr)
    throw Error{Errc::store, fmt::format("{} is a thermometer, not a hydrometer", name),
                "areo instrument list shows what there is"};
  return hydrometers_
      .emplace(name,
               measurement::Calibrated{*h, notebook::correction_in_force(notebook(), record, at_)})
      .first->second;
}

instruments::TemperatureReading Bench::temperature(const std::string& typed,
                                                   Temperature reference) {
  if (typed.empty()) return instruments::assumed_temperature(reference);
  instruments::TemperatureReading t;
  t.indication_c = celsius_from_text(typed);
  if (!options_.thermometer.empty()) {
    if (!thermometer_) {
      const auto record = notebook().instrument(options_.thermometer);
      if (record.thermometer() == nullptr)
        throw Error{Errc::store,
                    fmt::format("{} is a hydrometer, not a thermometer", options_.thermometer),
                    "areo instrument list shows what there is"};
      thermometer_.emplace(*record.thermometer(),
                           notebook::correction_in_force(notebook(), record, at_));
    }
    t.thermometer = thermometer_->first;
    t.correction = thermometer_->second;
    t.half_width_c = std::max(thermometer_->first.division_c / 2, celsius_half_width(typed));
    t.provenance = "read to half a division of " + options_.thermometer;
  } else {
    t.half_width_c = usual_accuracy_c;
  }
  if (!options_.temperature_accuracy.empty()) {
    t.half_width_c = celsius_difference_from_text(options_.temperature_accuracy);
    t.provenance = "accuracy as stated";
  }
  return t;
}

TakenReading Bench::take(const std::string& reading, const std::string& typed_temperature) {
  TakenReading taken;
  if (!options_.instrument.empty()) {
    taken.instrument = hydrometer(options_.instrument);
  }
  const TypedMark mark = options_.instrument.empty()
                             ? mark_from_text(reading)
                             : mark_from_text(reading, taken.instrument.hydrometer.scale);
  if (options_.instrument.empty()) {
    instruments::Hydrometer h = instruments::ordinary_hydrometer(mark.scale);
    if (!options_.division.empty()) {
      h.division = plain_number(options_.division, "a division");
      if (!(h.division > 0))
        throw ParseError{"a division is above zero", options_.division, 0, options_.division.size(),
                         "write 0.001"};
    }
    taken.instrument = measurement::Calibrated::never_checked(h);
  }
  taken.echo = mark.echo;
  instruments::HydrometerReading& r = taken.reading;
  r.indication = mark.value;
  // Typed more coarsely than the eye reads: the digits that are missing count.
  if (mark.half_width > taken.instrument.hydrometer.division / 2) r.half_width = mark.half_width;
  r.meniscus = options_.top ? instruments::Meniscus::top : instruments::Meniscus::level;
  r.temperature = temperature(typed_temperature, taken.instrument.hydrometer.scale.reference());
  return taken;
}

}  // namespace areo::cli
