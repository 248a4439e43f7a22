// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The drink behind a present reading, with what the method itself leaves open, and the numbers that
// describe a drink, the same for every way to measure it.
#include <optional>
#include <vector>

#include "areo/ferment/balling.hpp"
#include "areo/ferment/culture.hpp"
#include "areo/instruments/reading.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/physics/liquid.hpp"
#include "areo/physics/refraction.hpp"
#include "areo/uncertainty/input.hpp"

namespace areo::measurement {

/// Balling's balance with what is not known of a ferment as inputs, the same at every place they
/// are used: how much extract its alcohol took, how much the yeast grew from before it, and, of a
/// mixed culture, which part of the sugar became acids instead of alcohol.
class DrinkMethod {
 public:
  explicit DrinkMethod(uncertainty::Inputs& inputs,
                       ferment::Culture culture = ferment::Culture::yeast);
  /// The drink of a hydrometer reading that came from `original`; its extract still gives the
  /// measured density, whatever the acids.
  /// @param excess  of the drink's density over that of its formula
  /// @throws Error{inconsistent} as ferment::fermented_to_density()
  [[nodiscard]] physics::Liquid drink(const uncertainty::Point& x, ExtractFraction original,
                                      const instruments::ReadingInputs& reading,
                                      Density excess) const;
  /// The original extract of a drink whose composition is known: the balance backwards.
  [[nodiscard]] ExtractFraction original(const uncertainty::Point& x,
                                         const physics::Liquid& drink) const;
  /// The same for a measured index.
  /// @throws Error{inconsistent} as ferment::fermented_to_index()
  [[nodiscard]] physics::Liquid drink(const uncertainty::Point& x, ExtractFraction original,
                                      RefractiveIndex n, ModelTemperature t,
                                      const physics::ExtractOptics& optics) const;
  /// The drink without extract that `original` becomes when all of it ferments.
  [[nodiscard]] physics::Liquid dry(const uncertainty::Point& x, ExtractFraction original) const;

 private:
  [[nodiscard]] ferment::Yield yield(const uncertainty::Point& x) const { return {x[yield_]}; }
  /// Share of the balance's ethanol that is not acids.
  [[nodiscard]] double kept(const uncertainty::Point& x) const {
    return acids_ ? 1 - x[*acids_] : 1;
  }
  /// What is left of the original for the balance, beside what the yeast grew from.
  [[nodiscard]] ExtractFraction balanced(const uncertainty::Point& x,
                                         ExtractFraction original) const {
    return ExtractFraction{original.value() - x[growth_]};
  }
  uncertainty::InputRef yield_, growth_;
  std::optional<uncertainty::InputRef> acids_;
};

/// What the formula of a drink's density leaves open, as one input.
class DrinkDensity {
 public:
  /// @param u  of the density, in kg/m³, at the drink in question
  DrinkDensity(uncertainty::Inputs& inputs, double u);
  /// By how much the drink is denser than physics::density() says, in kg/m³.
  [[nodiscard]] Density excess(const uncertainty::Point& x) const;

 private:
  uncertainty::InputRef excess_;
};

/// Labels of drink_outputs(), in its order.
[[nodiscard]] std::vector<Label> drink_labels();
/// @param oe     the original extract: read, or by Balling's balance from the drink
/// @param excess of the drink's density over that of its formula
[[nodiscard]] std::vector<double> drink_outputs(const uncertainty::Point& x,
                                                const SugarFormula& formula, ExtractFraction oe,
                                                const physics::Liquid& drink, Density excess);
/// No ferment leaves less than no extract. Adds a note if the real extract is below zero by more
/// than its expanded uncertainty.
/// @throws Error{inconsistent} if by more than four standard uncertainties, as one honest reading
///         of a dry drink in 30 000 is
void judge_real_extract(Result& drink);
/// Adds a note on the method to a strength beyond those at which it was compared with
/// distillation.
/// @throws Error{domain} above physics::strongest_covered
void judge_strength(Result& drink);
/// The drink that `original` became by Balling's balance.
/// @throws Error{domain} for a temperature beyond physics::drink_temperature_range;
///         Error{inconsistent} for a reading lower than fermenting all of `original` could make it,
///         with the lowest that the instrument could show
[[nodiscard]] physics::Liquid balance_behind(const Calibrated& instrument,
                                             const instruments::HydrometerReading& reading,
                                             const instruments::ReadingInputs& inputs,
                                             const uncertainty::Point& x, ExtractFraction original);

}  // namespace areo::measurement
