#include "readings.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/physics/mixture.hpp"

namespace areo::measurement {
namespace {

bool same_instrument(const instruments::Hydrometer& a, const instruments::Hydrometer& b) {
  return a.name == b.name && a.scale == b.scale;
}

std::string checked_part(const instruments::Correction& c) {
  return c.checked_lo == c.checked_hi ? fmt::format("{:g} only", c.checked_lo)
                                      : fmt::format("{:g} to {:g}", c.checked_lo, c.checked_hi);
}

void add_once(std::vector<std::string>& notes, std::string note) {
  if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(std::move(note));
}

}  // namespace

instruments::ReadingInputs Readings::add(const Calibrated& instrument,
                                         const instruments::HydrometerReading& reading,
                                         const std::string& of) {
  if (!hydrometer_ || !same_instrument(hydrometer_->hydrometer, instrument.hydrometer))
    hydrometer_ = add_hydrometer(inputs, instrument.hydrometer, instrument.correction);
  const auto& thermometer = reading.temperature.thermometer;
  if (!thermometer || thermometer->name != thermometer_name_) thermometer_.reset();
  instruments::ReadingInputs added{inputs, *hydrometer_, reading, of, thermometer_};
  thermometer_ = added.temperature_inputs().correction;
  thermometer_name_ = thermometer ? thermometer->name : "";
  return added;
}

ExtractFraction extract_at(const instruments::ReadingInputs& reading, const uncertainty::Point& x) {
  return physics::extract_from_density(reading.density(x), reading.temperature(x));
}

void require_sugar_liquid(const Calibrated& instrument,
                          const instruments::HydrometerReading& reading,
                          const instruments::ReadingInputs& inputs, const uncertainty::Point& x) {
  const Temperature t = inputs.temperature(x);
  const Density rho = inputs.density(x);
  const Range& range = physics::mixture_extract_range;
  const Density least = physics::density({ExtractFraction{range.lo}}, t);
  const Density most = physics::density({ExtractFraction{range.hi}}, t);
  if (rho >= least && rho <= most) return;
  const instruments::Hydrometer& h = instrument.hydrometer;
  throw Error{
      Errc::domain,
      fmt::format("{} of {}, corrected {:.4g}, at {:g} °C is no sugar liquid: they go from {:.4g} "
                  "to {:.4g} [{}]",
                  reading.indication, h.name, inputs.corrected_indication(x), t.celsius(),
                  ideal_indication(h, least, t), ideal_indication(h, most, t), range.source),
      "check the reading, its temperature and the instrument's calibration"};
}

void add_notes(std::vector<std::string>& notes, const Calibrated& instrument,
               const instruments::HydrometerReading& reading, const std::string& of) {
  const instruments::Correction& c = instrument.correction;
  const std::string& name = instrument.hydrometer.name;
  if (reading.temperature.assumed)
    add_once(notes, fmt::format("no temperature for {}: {:g} °C assumed, ± 5 °C", of,
                                reading.temperature.indication_c));
  if (c.checks == 0)
    add_once(notes,
             fmt::format("{} was never checked: its error is taken as within one division ({:g})",
                         name, instrument.hydrometer.division));
  if (c.beyond(reading.indication) != 0)
    add_once(notes, fmt::format("{:g} is outside the checked part of {} ({}): the correction is "
                                "used with growing uncertainty",
                                reading.indication, name, checked_part(c)));
  if (reading.meniscus == instruments::Meniscus::top && !instrument.hydrometer.meniscus_height)
    add_once(notes, fmt::format("top of the meniscus: 1.4 divisions added (from memory); measure "
                                "it in a clear liquid and state it for {}",
                                name));
}

}  // namespace areo::measurement
