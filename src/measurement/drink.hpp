#pragma once
// The drink behind a present reading, with what the method itself leaves open, and the numbers that
// a drink is described by, the same for every way to get at it.
#include <optional>
#include <vector>

#include "areo/ferment/culture.hpp"
#include "areo/instruments/reading.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/physics/liquid.hpp"
#include "areo/physics/refraction.hpp"
#include "areo/uncertainty/input.hpp"

namespace areo::measurement {

/// Balling's balance and the property of the drink as an uncertain input, the same at every place
/// they are used: the true strength differs from the balance's by a factor, and a mixed culture
/// makes acids instead of alcohol from part of the sugar.
class DrinkMethod {
 public:
  explicit DrinkMethod(uncertainty::Inputs& inputs,
                       ferment::Culture culture = ferment::Culture::yeast);
  /// The drink of density rho at t that came from `original`; its extract still gives the measured
  /// density, whatever the factor.
  /// @throws Error{inconsistent} as ferment::fermented_to_density()
  [[nodiscard]] physics::Liquid drink(const uncertainty::Point& x, ExtractFraction original,
                                      Density rho, ModelTemperature t) const;
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
  [[nodiscard]] EthanolFraction ethanol(const uncertainty::Point& x,
                                        const physics::Liquid& balance) const;
  uncertainty::InputRef factor_;
  std::optional<uncertainty::InputRef> acids_;
};

/// Labels of drink_outputs(), in its order.
[[nodiscard]] std::vector<Label> drink_labels();
/// @param oe the original extract: read, or by Balling's balance from the drink
[[nodiscard]] std::vector<double> drink_outputs(const uncertainty::Point& x,
                                                const SugarFormula& formula, ExtractFraction oe,
                                                const physics::Liquid& drink);
/// No ferment leaves less than no extract. Adds a note if the real extract is below zero by more
/// than its expanded uncertainty.
/// @throws Error{inconsistent} if by more than four standard uncertainties, as one honest reading
///         of a dry drink in 30 000 is
void judge_real_extract(Result& drink);
/// Adds a note to a strength above those that the method was compared with distillation at.
void note_strong(Result& drink);
/// @throws Error{domain} for a temperature beyond physics::drink_temperature_range;
///         Error{inconsistent} for a reading lower than fermenting all of `original` could make it,
///         with the lowest that the instrument could show
void require_fermentable(const Calibrated& instrument,
                         const instruments::HydrometerReading& reading,
                         const instruments::ReadingInputs& inputs, const uncertainty::Point& x,
                         ExtractFraction original);

}  // namespace areo::measurement
