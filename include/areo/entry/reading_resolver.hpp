// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Names and typed texts turned into instruments and readings, the same way for every command.
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "areo/core/identity.hpp"
#include "areo/core/moment.hpp"
#include "areo/entry/extract_kind.hpp"
#include "areo/entry/notebook_on_demand.hpp"
#include "areo/instruments/reading.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/measurement/refract.hpp"
#include "areo/notebook/store.hpp"
#include "areo/text/parse.hpp"

namespace areo::entry {

/// Options that say with what, and how, a reading was made.
struct ReadingOptions {
  std::string instrument, thermometer, temperature_accuracy, division, at;
  bool top = false;
  bool refractometer = false;  ///< the instrument is one
  bool interpolate = false;    ///< between the calibrations before and after the reading
  bool compensated = false;    ///< an unnamed refractometer with temperature compensation
};

/// A reading together with the instrument it was made with.
struct TakenReading {
  measurement::Calibrated instrument;
  instruments::HydrometerReading reading;
  std::string echo;  ///< how the text was understood, if not as typed
};

/// The same for a refractometer.
struct TakenRefraction {
  measurement::RefractometerSample sample;
  std::string echo;
  bool compensation_assumed = false;  ///< the echo says so: nobody stated it
};

/// A reading of its own: what another result has in common with it is the instrument, and not what
/// the eye and the thermometer were off by this once.
template <class Reading>
[[nodiscard]] Reading one_reading(Reading r) {
  r.identity = Identity{};
  r.temperature.identity = r.identity;
  return r;
}

/// Looks up what the options name, and remembers it.
class ReadingResolver {
 public:
  /// @throws ParseError, Error{store} for options that make every reading impossible
  ReadingResolver(SharedNotebook book, const ReadingOptions& options);

  /// @param reading      as typed
  /// @param temperature  as typed; empty = not given
  /// @throws ParseError, Error{domain}, Error{store}
  [[nodiscard]] TakenReading take(const std::string& reading, const std::string& temperature);
  [[nodiscard]] TakenRefraction take_refraction(const std::string& reading,
                                                const std::string& temperature);
  /// @throws as extract_from_word() and extract_of_liquid()
  [[nodiscard]] measurement::ExtractKind extract(const ExtractWords& words);
  [[nodiscard]] instruments::TemperatureReading temperature(const std::string& typed,
                                                            Temperature reference);
  /// @throws as of_kind()
  [[nodiscard]] const measurement::Calibrated& hydrometer(const std::string& name);
  /// @throws as of_kind()
  [[nodiscard]] const measurement::CalibratedRefractometer& refractometer(const std::string& name);
  [[nodiscard]] const notebook::Notebook& notebook() { return book_->get(); }
  [[nodiscard]] const SharedNotebook& book() const { return book_; }

 private:
  [[nodiscard]] instruments::Correction correction(const notebook::InstrumentRecord& record);
  void look_up_thermometer();
  // Nobody names what they have one of: the same at each call.
  [[nodiscard]] instruments::Hydrometer unnamed_hydrometer(const physics::Scale& scale);
  [[nodiscard]] instruments::Refractometer unnamed_refractometer(
      instruments::RefractometerScale scale);
  SharedNotebook book_;
  ReadingOptions options_;
  Moment at_;
  std::optional<double> division_, accuracy_c_;  // as stated
  std::map<std::string, measurement::Calibrated> hydrometers_;
  std::map<std::string, measurement::CalibratedRefractometer> refractometers_;
  std::vector<instruments::Hydrometer> unnamed_hydrometers_;
  std::vector<instruments::Refractometer> unnamed_refractometers_;
  std::optional<std::pair<instruments::Thermometer, instruments::Correction>> thermometer_;
};

/// What every row of a file would stumble over is refused before the first one.
/// @throws as liquid_celsius_from_text(), unless the text is empty
void require_temperature(const std::string& typed);

}  // namespace areo::entry
