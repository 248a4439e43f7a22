// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Instruments by the scale that they show, and the readings that they make.
//
//   const Hydrometer<Gravity> stem{.name = "stem-1", .division = {0.001}};
//   const auto wort = stem.read(1.048_sg, 27_degC);
//
// The scale is part of the type: a gravity cannot be read on a stem that shows Plato. Which
// instrument it is says its identity. A copy is the same instrument, and readings on it err
// together; another one made alike, of whatever name, is another one.
//
// A reading is one event: a copy of it is the same reading, and another one with the same numbers
// is another one.
#include <initializer_list>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "areo/core/identity.hpp"
#include "areo/front/by_name.hpp"
#include "areo/front/unit_of.hpp"
#include "areo/instruments/hydrometer.hpp"
#include "areo/instruments/reading.hpp"
#include "areo/instruments/refractometer.hpp"
#include "areo/instruments/thermometer.hpp"
#include "areo/measurement/refract.hpp"
#include "areo/uncertainty/repeatability.hpp"

namespace areo {

using instruments::Meniscus;

/// A temperature as it was read.
class TemperatureReading {
 public:
  /// With a kitchen thermometer of which nothing is known: ± 0.5 °C.
  // NOLINTNEXTLINE(google-explicit-constructor): every temperature can be read so
  TemperatureReading(Temperature t) { reading_.indication_c = t.celsius(); }
  /// Within ± `half_width`, nothing else known: `{27_degC, 0.2_K}`.
  /// @throws Error{domain} where it is used, for a half-width below zero
  TemperatureReading(Temperature t, const TemperatureDelta& half_width);
  /// For Thermometer.
  explicit TemperatureReading(instruments::TemperatureReading reading)
      : reading_{std::move(reading)} {}
  [[nodiscard]] const instruments::TemperatureReading& inner() const noexcept { return reading_; }

 private:
  instruments::TemperatureReading reading_;
};

/// A thermometer. Its error is taken as within one division until it is calibrated.
struct Thermometer {
  detail::ByName by_name{};
  std::string name{};  ///< for people
  Temperature lo = celsius(-10), hi = celsius(110);
  TemperatureDelta division = celsius_delta(1);
  std::optional<instruments::Correction> correction{};  ///< set by calibrate()
  Identity identity{};

  /// Read to half a division.
  /// @throws Error{domain} if it is not on the scale
  [[nodiscard]] TemperatureReading read(Temperature t) const;
  [[nodiscard]] double maximum_permissible_error() const { return number(division); }
  [[nodiscard]] instruments::Thermometer inner() const;
  /// Its correction, or what is known of one that nobody checked.
  [[nodiscard]] instruments::Correction correction_or_unchecked() const;
};

/// A hydrometer reading, whatever its scale. Made by Hydrometer::read().
class HydrometerReading {
 public:
  /// For Hydrometer.
  HydrometerReading(const measurement::Calibrated& instrument,
                    const instruments::HydrometerReading& reading,
                    const std::optional<TemperatureReading>& t);
  [[nodiscard]] const measurement::HydrometerSample& sample() const noexcept { return sample_; }
  [[nodiscard]] const Identity& identity() const { return *sample_.reading.identity; }

 private:
  measurement::HydrometerSample sample_;
};
/// The same with its scale known to the compiler.
template <class Mark>
class ReadingOf : public HydrometerReading {
 public:
  using HydrometerReading::HydrometerReading;
  /// What was read.
  [[nodiscard]] Mark mark() const { return Mark{sample().reading.indication}; }
};

/// A refractometer reading, whatever its scale. Made by Refractometer::read().
class RefractometerReading {
 public:
  /// For Refractometer.
  RefractometerReading(const measurement::CalibratedRefractometer& instrument,
                       const instruments::RefractometerReading& reading,
                       const std::optional<TemperatureReading>& t);
  [[nodiscard]] const measurement::RefractometerSample& sample() const noexcept { return sample_; }
  [[nodiscard]] const Identity& identity() const { return *sample_.reading.identity; }

 private:
  measurement::RefractometerSample sample_;
};
template <class Mark>
class RefractionOf : public RefractometerReading {
 public:
  using RefractometerReading::RefractometerReading;
  [[nodiscard]] Mark mark() const { return Mark{sample().reading.indication}; }
};

/// A reading with either.
using SampleReading = std::variant<HydrometerReading, RefractometerReading>;

namespace detail {
/// Several readings of one sample become their mean, with what their scatter says.
template <class InnerReading, class Mark>
void take_mean(InnerReading& reading, std::initializer_list<Mark> several, double division) {
  std::vector<double> marks;
  for (const Mark m : several) marks.push_back(m.value());
  const double half_width = reading.half_width > 0 ? reading.half_width : division / 2;
  const std::vector<double> samples[]{marks};
  reading.repeated =
      instruments::mean_of(marks, half_width, uncertainty::pooled_repeatability(samples));
  reading.indication = reading.repeated->mean;
}
}  // namespace detail

/// How a hydrometer was read, where it was not the usual way.
template <class Mark>
struct HowRead {
  detail::ByName by_name{};
  DifferenceOf<Mark> half_width{0};     ///< by eye; 0 = half a division
  Meniscus meniscus = Meniscus::level;  ///< `top` for a liquid too cloudy to see through
};

/// A hydrometer whose scale shows Mark: Gravity, Plato, Oechsle, Density20, ...
template <DensityMark Mark>
struct Hydrometer {
  using Difference = DifferenceOf<Mark>;

  detail::ByName by_name{};
  std::string name{};  ///< for people; may be empty
  /// Ends of the scale, and its smallest division; unless stated, those of an ordinary kitchen
  /// instrument (instruments::ordinary_hydrometer()).
  Mark lo{ordinary().lo}, hi{ordinary().hi};
  Difference division{ordinary().division};
  /// What is not stated is taken as usual, as instruments::Hydrometer says.
  std::optional<Difference> meniscus_height{}, tolerance{};
  std::optional<Length> stem_diameter{};
  std::optional<Mass> mass{};
  double glass_expansion_per_c = instruments::conventional_glass_expansion_per_c;
  /// Set by calibrate(); without it its error is taken as within one division.
  std::optional<instruments::Correction> correction{};
  Identity identity{};

  /// @param t  of the liquid
  /// @throws Error{domain} where the reading is used, if it is off the scale
  [[nodiscard]] ReadingOf<Mark> read(Mark mark, const TemperatureReading& t,
                                     const HowRead<Mark>& how = {}) const {
    return {calibrated(), as_read(mark, how), t};
  }
  /// Nobody took the temperature: the reference temperature of the scale, ± 5 °C.
  [[nodiscard]] ReadingOf<Mark> read(Mark mark, const HowRead<Mark>& how = {}) const {
    return {calibrated(), as_read(mark, how), std::nullopt};
  }
  /// Several readings of one sample: their mean, by their scatter (instruments::mean_of()).
  [[nodiscard]] ReadingOf<Mark> read(std::initializer_list<Mark> several,
                                     const TemperatureReading& t,
                                     const HowRead<Mark>& how = {}) const {
    auto reading = as_read(Mark{0}, how);
    detail::take_mean(reading, several, division.value);
    return {calibrated(), reading, t};
  }

  [[nodiscard]] double maximum_permissible_error() const {
    return tolerance.value_or(division).value;
  }
  [[nodiscard]] instruments::Hydrometer inner() const;
  [[nodiscard]] measurement::Calibrated calibrated() const {
    const instruments::Hydrometer h = inner();
    return correction ? measurement::Calibrated{h, *correction}
                      : measurement::Calibrated::never_checked(h);
  }

 private:
  [[nodiscard]] static instruments::Hydrometer ordinary() {
    return instruments::ordinary_hydrometer(physics::scale_of<Mark>::value);
  }
  [[nodiscard]] static instruments::HydrometerReading as_read(Mark mark, const HowRead<Mark>& how) {
    instruments::HydrometerReading r;
    r.indication = mark.value();
    r.half_width = how.half_width.value;
    r.meniscus = how.meniscus;
    return r;
  }
};

template <DensityMark Mark>
instruments::Hydrometer Hydrometer<Mark>::inner() const {
  instruments::Hydrometer h = ordinary();
  if (!name.empty()) h.name = name;
  h.lo = lo.value();
  h.hi = hi.value();
  h.division = division.value;
  h.length = instruments::usual_length(h);
  h.glass_expansion_per_c = glass_expansion_per_c;
  if (meniscus_height) h.meniscus_height = meniscus_height->value;
  if (tolerance) h.tolerance = tolerance->value;
  if (stem_diameter) h.stem_diameter_mm = stem_diameter->value() * 1000;
  if (mass) h.mass_g = number(*mass);
  h.identity = identity;
  return h;
}

/// A refractometer whose scale shows Brix or RefractiveIndex.
template <class Mark>
requires std::is_same_v<Mark, Brix> || std::is_same_v<Mark, RefractiveIndex>
struct Refractometer {
  using Difference = DifferenceOf<Mark>;

  detail::ByName by_name{};
  std::string name{};
  /// As instruments::ordinary_refractometer() unless stated.
  Mark lo{ordinary().lo}, hi{ordinary().hi};
  Difference division{ordinary().division};
  bool compensated = false;  ///< with automatic temperature compensation
  std::optional<Difference> tolerance{};
  std::optional<instruments::Correction> correction{};  ///< set by calibrate()
  Identity identity{};

  /// @param t  of prism and liquid
  /// @throws Error{domain} where the reading is used, if it is off the scale
  [[nodiscard]] RefractionOf<Mark> read(Mark mark, const TemperatureReading& t) const {
    return {calibrated(), as_read(mark), t};
  }
  /// Nobody took the temperature: 20 °C ± 5 °C.
  [[nodiscard]] RefractionOf<Mark> read(Mark mark) const {
    return {calibrated(), as_read(mark), std::nullopt};
  }
  [[nodiscard]] RefractionOf<Mark> read(std::initializer_list<Mark> several,
                                        const TemperatureReading& t) const {
    auto reading = as_read(Mark{0});
    detail::take_mean(reading, several, division.value);
    return {calibrated(), reading, t};
  }

  [[nodiscard]] double maximum_permissible_error() const {
    return tolerance.value_or(division).value;
  }
  [[nodiscard]] instruments::Refractometer inner() const {
    instruments::Refractometer r = ordinary();
    if (!name.empty()) r.name = name;
    r.lo = lo.value();
    r.hi = hi.value();
    r.division = division.value;
    r.compensated = compensated;
    if (tolerance) r.tolerance = tolerance->value;
    r.identity = identity;
    return r;
  }
  [[nodiscard]] measurement::CalibratedRefractometer calibrated() const {
    const instruments::Refractometer r = inner();
    return correction ? measurement::CalibratedRefractometer{r, *correction}
                      : measurement::CalibratedRefractometer::never_checked(r);
  }

 private:
  [[nodiscard]] static instruments::RefractometerReading as_read(Mark mark) {
    instruments::RefractometerReading r;
    r.indication = mark.value();
    return r;
  }
  [[nodiscard]] static instruments::Refractometer ordinary() {
    return instruments::ordinary_refractometer(std::is_same_v<Mark, Brix>
                                                   ? instruments::RefractometerScale::brix
                                                   : instruments::RefractometerScale::index);
  }
};

}  // namespace areo
