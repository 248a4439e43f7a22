// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Several readings as inputs of one model: what instruments share is entered once, and the
// readings err together through it.
#include <string>
#include <variant>
#include <vector>

#include "areo/instruments/reading.hpp"
#include "areo/instruments/refractometer.hpp"

namespace areo::instruments {

/// An instrument of a model with the marks that were read on it.
struct InstrumentUse {
  std::variant<Hydrometer, Refractometer> instrument;
  CorrectionInputs correction;
  struct Mark {
    double indication;
    uncertainty::InputRef reading;  ///< the input that the eye's part of it is
  };
  std::vector<Mark> marks;
  /// Of a hydrometer: the surface tension that its scale was made for.
  std::optional<uncertainty::InputRef> made_for{};
};

class Readings {
 public:
  /// Adds a reading and, unless an earlier reading used the same instrument or thermometer, the
  /// inputs of these. Instruments and thermometers are the same by their identity, not by name. If
  /// one was calibrated anew between two readings, its corrections are inputs of their own and only
  /// glass, stem and meniscus are shared. A temperature without a thermometer counts anew for every
  /// reading.
  /// @param surface  what is known of the liquid's surface
  /// @throws Error{domain} if the indication is not on the scale; Error{inconsistent} if one
  ///         instrument is described in two ways
  [[nodiscard]] ReadingInputs add(const Hydrometer& h, const Correction& correction,
                                  const HydrometerReading& reading, const std::string& of,
                                  LiquidSurface surface = LiquidSurface::drink);
  [[nodiscard]] RefractionInputs add(const Refractometer& r, const Correction& correction,
                                     const RefractometerReading& reading, const std::string& of);
  [[nodiscard]] const std::vector<InstrumentUse>& uses() const noexcept { return uses_; }
  uncertainty::Inputs inputs;

 private:
  struct KnownThermometer {
    Thermometer thermometer;
    CorrectionInputs correction;
  };
  [[nodiscard]] HydrometerInputs hydrometer(const Hydrometer& h, const Correction& correction);
  [[nodiscard]] RefractometerInputs refractometer(const Refractometer& r,
                                                  const Correction& correction);
  [[nodiscard]] std::optional<CorrectionInputs> thermometer(const TemperatureReading& t) const;

  void remember(const TemperatureReading& t, const std::optional<CorrectionInputs>& used);
  void note_use(const std::variant<Hydrometer, Refractometer>& instrument,
                const CorrectionInputs& correction, const InstrumentUse::Mark& mark,
                const std::optional<uncertainty::InputRef>& made_for = std::nullopt);

  std::vector<HydrometerInputs> hydrometers_;
  std::vector<RefractometerInputs> refractometers_;
  std::vector<KnownThermometer> thermometers_;
  std::vector<InstrumentUse> uses_;
};

}  // namespace areo::instruments
