#pragma once
// The drink that a present gravity stands for, with what the method itself leaves open.
#include "areo/instruments/reading.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/physics/liquid.hpp"
#include "areo/uncertainty/input.hpp"

namespace areo::measurement {

/// Balling's balance and the density of the drink as an uncertain input, the same at every place
/// they are used: the true strength differs from the balance's by a factor.
class DrinkMethod {
 public:
  explicit DrinkMethod(uncertainty::Inputs& inputs);
  /// The drink of density rho at t that came from `original`; its extract still gives the measured
  /// density, whatever the factor.
  /// @throws Error{inconsistent} as ferment::fermented_to_density()
  [[nodiscard]] physics::Liquid drink(const uncertainty::Point& x, ExtractFraction original,
                                      Density rho, Temperature t) const;

 private:
  uncertainty::InputRef factor_;
};

/// @throws Error{inconsistent} for a reading lower than fermenting all of `original` could make it,
///         with the lowest that the instrument could show
void require_fermentable(const Calibrated& instrument,
                         const instruments::HydrometerReading& reading,
                         const instruments::ReadingInputs& inputs, const uncertainty::Point& x,
                         ExtractFraction original);

}  // namespace areo::measurement
