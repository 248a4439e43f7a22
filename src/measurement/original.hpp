// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The original liquid as inputs of a model, however it was read and whatever went in later.
#include <functional>
#include <string>
#include <vector>

#include "areo/measurement/convert.hpp"
#include "areo/measurement/original.hpp"
#include "index_model.hpp"
#include "readings.hpp"

namespace areo::measurement {

inline constexpr const char* the_original = "the original gravity";

/// What a step of the mass balance adds.
struct Part {
  double mass_g, extract_g;
};
/// Index model and formula may be null: then without the uncertainty of the models.
using PartAt =
    std::function<Part(const uncertainty::Point&, const IndexModel*, const SugarFormula*)>;

class OriginalInputs {
 public:
  /// @throws as original_gravity()
  OriginalInputs(Readings& readings, const Original& original,
                 const std::string& of = the_original);

  /// Without the uncertainty of the models: what it is about.
  [[nodiscard]] ExtractFraction estimate() const { return estimate_; }
  /// Whether a refractometer had a part in it, so that at() needs an index model.
  [[nodiscard]] bool refracted() const { return refracted_; }
  /// Of the hydrometer readings in it; 20 °C if there are none.
  [[nodiscard]] Temperature warmest() const { return warmest_; }
  /// @param index  may be null unless refracted()
  [[nodiscard]] ExtractFraction at(const uncertainty::Point& x, const IndexModel* index,
                                   const SugarFormula& formula) const;

 private:
  struct Step {
    std::optional<uncertainty::InputRef> into_l;
    PartAt part;
  };
  [[nodiscard]] ExtractFraction read(const uncertainty::Point& x, const IndexModel* index,
                                     const SugarFormula* formula) const;
  [[nodiscard]] ExtractFraction balanced(const uncertainty::Point& x, const IndexModel* index,
                                         const SugarFormula* formula) const;
  [[nodiscard]] ExtractFraction weighed(const uncertainty::Point& x,
                                        const SugarFormula* formula) const;
  void add(Readings& readings, const WeighedSugar& weighed);
  void add(Readings& readings, const Addition& addition, const Original& original);
  [[nodiscard]] PartAt part_of(Readings& readings, const Addition& addition);
  [[nodiscard]] PartAt add_drink(Readings& readings, const Addition& addition);

  ExtractKind kind_;
  std::vector<instruments::ReadingInputs> densities_;
  std::vector<instruments::RefractionInputs> refractions_;
  struct Weighed {
    WeighedSugar::Volume volume;
    uncertainty::InputRef sugar_g, volume_l, sucrose;
  };
  std::optional<Weighed> weighed_;  ///< instead of both
  std::optional<uncertainty::InputRef> volume_;
  std::vector<Step> steps_;
  bool refracted_ = false;
  Temperature warmest_ = celsius_point(20);
  ExtractFraction estimate_{0};
};

[[nodiscard]] AlcoholResult alcohol_of(const HydrometerSample& present, const Original& original,
                                       ferment::Culture culture, const std::string& of);
[[nodiscard]] AlcoholResult alcohol_of(const RefractometerSample& present, const Original& original,
                                       ferment::Culture culture, const std::string& of);

/// Gives a mixed culture's result with a strength the one of clean yeast
/// (AlcoholResult::clean_yeast).
/// @param as_yeast  computes it
void add_clean_yeast(AlcoholResult& drink, ferment::Culture culture,
                     const std::function<AlcoholResult()>& as_yeast);

/// What a reader of the result has to know about the original.
void add_notes(std::vector<Note>& notes, const Original& original);

}  // namespace areo::measurement
