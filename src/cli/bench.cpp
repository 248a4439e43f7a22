#include "bench.hpp"

#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>
#include <csignal>

#include "areo/core/error.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/text/parse_hydrometer.hpp"
#include "areo/text/parse_refraction.hpp"
#include "failure.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

constexpr double usual_accuracy_c = 0.5;

}  // namespace

void add_common_options(const Command& command, ReadingOptions& o) {
  command.add_option("--thermometer", o.thermometer, "thermometer in the notebook")
      .type_name("NAME");
  command
      .add_option("--temp-accuracy", o.temperature_accuracy,
                  "how far the temperature may be off, ±; 0.5C unless stated")
      .type_name("0.2C");
  command.add_option("--at", o.at, "moment of the reading: the calibration in force then is used")
      .type_name("DATE");
  command.add_flag("--interpolate", o.interpolate,
                   "with --at: between two calibrations, on a straight line in time");
}

void add_reading_options(const Command& command, ReadingOptions& o) {
  command.add_option("--instrument", o.instrument, "hydrometer in the notebook").type_name("NAME");
  add_common_options(command, o);
  command
      .add_option("--division", o.division,
                  "smallest division of an unnamed hydrometer; 0.002 unless stated")
      .type_name("0.001");
  command.add_flag("--top", o.top, "cloudy liquid: read at the top of the meniscus");
}

void check_reading_options(const ReadingOptions& o) {
  refuse_together(!o.division.empty(), "--division", !o.instrument.empty(), "--instrument",
                  "leave --division out: the notebook has that of the instrument");
}

void check_temperature_options(const ReadingOptions& o, bool temperature_given,
                               const std::string& temperature_options) {
  if (temperature_given) return;
  for (const auto& [given, name] : {std::pair{!o.thermometer.empty(), "--thermometer"},
                                    std::pair{!o.temperature_accuracy.empty(), "--temp-accuracy"}})
    if (given)
      throw UsageError{
          fmt::format("{} without {}: there is no temperature", name, temperature_options),
          fmt::format("give the temperature too, e.g. 20C, or leave {} out", name)};
}

void require_temperature(const std::string& typed) {
  if (!typed.empty()) (void)text::liquid_celsius_from_text(typed);
}

namespace {

// What is written from a notebook that only its owner may read is the owner's alone, too.
void keep_private(const std::string& notebook) {
  struct stat there {};
  if (::stat(notebook.c_str(), &there) != 0) return;
  const mode_t mask = ::umask(077);
  const mode_t group = (there.st_mode & S_IRGRP) == 0 ? S_IRWXG : 0;
  const mode_t others = (there.st_mode & S_IROTH) == 0 ? S_IRWXO : 0;
  ::umask(mask | group | others);
}

}  // namespace

notebook::Notebook open_notebook(const Session& session, notebook::Open how) {
  keep_private(notebook_path(session));
  return notebook::Notebook{
      notebook_path(session),
      how,
      {[json = session.json](const std::string& what) { warn(what + "; it is passed over", json); },
       [noted = session.noted] {
         *noted = true;
         // From now on a reader that is gone is told, and ends nothing.
         std::signal(SIGPIPE, SIG_IGN);
       }}};
}

std::string notebook_path(const Session& session) {
  return session.notebook.empty() ? notebook::default_path() : session.notebook;
}

std::vector<physics::Scale> scales_from_text(const std::string& text,
                                             const std::vector<physics::Scale>& fallback) {
  if (text.empty()) return fallback;
  std::vector<physics::Scale> scales;
  text::each_part(text, [&](const std::string& word) {
    const physics::Scale scale = text::scale_from_text(word);
    // Named twice, it is shown once.
    if (std::find(scales.begin(), scales.end(), scale) == scales.end()) scales.push_back(scale);
  });
  return scales;
}

Bench::Bench(const Session& session, const ReadingOptions& options)
    : session_{&session},
      options_{options},
      at_{options.at.empty() ? now() : past_day_end_from_text(options.at, now())} {
  if (!options.at.empty() && options.instrument.empty() && options.thermometer.empty())
    throw UsageError{"--at without --instrument or --thermometer: nothing depends on the day",
                     "name the instrument in the notebook, or leave --at out"};
  if (options.interpolate && options.at.empty())
    throw UsageError{"--interpolate without --at: after the last calibration there is no next one",
                     "say with --at when the reading was made, or leave --interpolate out"};
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

const notebook::Notebook& Bench::notebook() {
  if (!notebook_) notebook_.emplace(open_notebook(*session_, notebook::Open::read));
  return *notebook_;
}

notebook::InstrumentRecord Bench::look_up(const std::string& name, std::string_view kind) {
  notebook::InstrumentRecord record = notebook().instrument(name);
  if (record.kind() != kind)
    throw Error{Errc::store, fmt::format("{} is a {}, not a {}", name, record.kind(), kind),
                kind == "hydrometer" && record.refractometer() != nullptr
                    ? "its readings go to: areo refract"
                    : "areo instrument list shows what there is"};
  return record;
}

instruments::Correction Bench::correction(const notebook::InstrumentRecord& record) {
  return options_.interpolate ? notebook::interpolated_correction(notebook(), record, at_)
                              : notebook::correction_in_force(notebook(), record, at_);
}

const measurement::Calibrated& Bench::hydrometer(const std::string& name) {
  const auto known = hydrometers_.find(name);
  if (known != hydrometers_.end()) return known->second;
  const auto record = look_up(name, "hydrometer");
  return hydrometers_
      .emplace(name, measurement::Calibrated{*record.hydrometer(), correction(record)})
      .first->second;
}

const measurement::CalibratedRefractometer& Bench::refractometer(const std::string& name) {
  const auto known = refractometers_.find(name);
  if (known != refractometers_.end()) return known->second;
  const auto record = look_up(name, "refractometer");
  return refractometers_
      .emplace(name,
               measurement::CalibratedRefractometer{*record.refractometer(), correction(record)})
      .first->second;
}

void Bench::look_up_thermometer() {
  const auto record = look_up(options_.thermometer, "thermometer");
  thermometer_.emplace(*record.thermometer(), correction(record));
}

instruments::TemperatureReading Bench::temperature(const std::string& typed,
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

instruments::Hydrometer Bench::unnamed_hydrometer(const physics::Scale& scale) {
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

instruments::Refractometer Bench::unnamed_refractometer(instruments::RefractometerScale scale) {
  for (const instruments::Refractometer& known : unnamed_refractometers_)
    if (known.scale == scale) return known;
  instruments::Refractometer r = instruments::ordinary_refractometer(scale);
  r.compensated = options_.compensated;
  if (division_) r.division = *division_;
  return unnamed_refractometers_.emplace_back(r);
}

TakenReading Bench::take(const std::string& reading, const std::string& typed_temperature) {
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

TakenRefraction Bench::take_refraction(const std::string& reading,
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
  if (options_.instrument.empty() && !options_.compensated && typed.echo.empty())
    taken.echo = "taken as read without temperature compensation; with it, say --atc";
  instruments::RefractometerReading& r = taken.sample.reading;
  r.indication = typed.value;
  if (typed.half_width > taken.sample.instrument.refractometer.division / 2)
    r.half_width = typed.half_width;
  r.temperature = temperature(typed_temperature, celsius_point(20));
  return taken;
}

}  // namespace areo::cli
