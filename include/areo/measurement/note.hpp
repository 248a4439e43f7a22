// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a reader of a result has to know, as a kind with what it is about. The words are made of it
// in `wording` (areo/wording/notes.hpp).
#include <cstdint>
#include <string>
#include <variant>

#include "areo/measurement/weighed.hpp"
#include "areo/physics/scale.hpp"

namespace areo::measurement {

namespace note {

/// In words already: how a text was understood, the remark of a calibration, a verdict.
struct Said {
  std::string words;
  friend bool operator==(const Said&, const Said&) = default;
};

/// Nobody said how warm it was.
struct AssumedTemperature {
  std::string of;  ///< the reading: "the original gravity"
  double celsius;  ///< what was assumed
  double half_width_c;
  friend bool operator==(const AssumedTemperature&, const AssumedTemperature&) = default;
};

/// A reading where its instrument was never checked; one place was if both ends are the same.
struct OutsideChecked {
  std::string instrument;
  double indication;
  double lo, hi;  ///< the checked part
  friend bool operator==(const OutsideChecked&, const OutsideChecked&) = default;
};
/// The same of a thermometer, in °C.
struct OutsideCheckedTemperatures {
  std::string thermometer;
  double indication_c;
  double lo_c, hi_c;
  friend bool operator==(const OutsideCheckedTemperatures&,
                         const OutsideCheckedTemperatures&) = default;
};

/// An instrument without a check: it may be wrong by a division.
struct NeverChecked {
  std::string instrument;
  double division;
  friend bool operator==(const NeverChecked&, const NeverChecked&) = default;
};
/// One with checks, of which none counts for this reading.
struct NotInForce {
  std::string instrument;
  std::string why;  ///< the correction's provenance
  double division;
  friend bool operator==(const NotInForce&, const NotInForce&) = default;
};

/// Read at the top of a meniscus that nobody measured.
struct TopOfMeniscus {
  std::string instrument;
  double divisions;  ///< added
  friend bool operator==(const TopOfMeniscus&, const TopOfMeniscus&) = default;
};

/// The original gravity was not read, but weighed in.
struct WeighedOriginal {
  WeighedSugar sugar;
  friend bool operator==(const WeighedOriginal&, const WeighedOriginal&) = default;
};

/// Salt or acid was added, which no yeast ferments.
struct SaltOrAcid {
  friend bool operator==(const SaltOrAcid&, const SaltOrAcid&) = default;
};

/// A hot sample: what hangs on its temperature and on its steam, on the instrument's own scale.
struct Hot {
  double celsius;
  double cool_below_c;  ///< nothing cools there while it is read
  double per_degree;
  double per_percent_of_steam;  ///< 0 where nothing to speak of is dissolved
  physics::Scale scale;
  friend bool operator==(const Hot&, const Hot&) = default;
};

/// A sample that is lighter than water, with no alcohol stated.
struct LighterThanWater {
  friend bool operator==(const LighterThanWater&, const LighterThanWater&) = default;
};
/// A mark lighter than water, on scales of sugar.
struct BelowSugarScales {
  friend bool operator==(const BelowSugarScales&, const BelowSugarScales&) = default;
};

/// The potential alcohol is that of a clean ferment to the end.
struct PotentialAlcohol {
  friend bool operator==(const PotentialAlcohol&, const PotentialAlcohol&) = default;
};

/// The present reading is lower than a drink without extract would show.
struct BelowDry {
  double extract_percent;  ///< below zero
  double expanded;
  friend bool operator==(const BelowDry&, const BelowDry&) = default;
};

/// Outside the strengths at which the method was compared with distillation.
struct BeyondComparison {
  double compared_percent_vol;  ///< the end of the comparison
  bool stronger;                ///< than that; else weaker
  friend bool operator==(const BeyondComparison&, const BeyondComparison&) = default;
};

/// Where the variance of a strength from refractometer and hydrometer comes from, as fractions.
struct Limits {
  double refractometer, hydrometer, models;
  friend bool operator==(const Limits&, const Limits&) = default;
};

/// Repeated readings of one sample that are far apart.
struct RepeatsApart {
  std::int64_t least, most;  ///< their numbers in the notebook
  double divisions;
  friend bool operator==(const RepeatsApart&, const RepeatsApart&) = default;
};

/// Read with bubbles in it.
struct NotDegassed {
  friend bool operator==(const NotDegassed&, const NotDegassed&) = default;
};

}  // namespace note

using Note = std::variant<note::Said, note::AssumedTemperature, note::OutsideChecked,
                          note::OutsideCheckedTemperatures, note::NeverChecked, note::NotInForce,
                          note::TopOfMeniscus, note::WeighedOriginal, note::SaltOrAcid, note::Hot,
                          note::LighterThanWater, note::BelowSugarScales, note::PotentialAlcohol,
                          note::BelowDry, note::BeyondComparison, note::Limits, note::RepeatsApart,
                          note::NotDegassed>;

}  // namespace areo::measurement
