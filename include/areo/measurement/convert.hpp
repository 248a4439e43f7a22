#pragma once
// From one scale to others, for an unfermented liquid.
#include <span>

#include "areo/measurement/result.hpp"
#include "areo/physics/scale.hpp"

namespace areo::measurement {

/// The density formulas as uncertain inputs, the same at every place they are used: a relative
/// error of the sugar's share of the density, its drift with temperature, and the water.
class SugarFormula {
 public:
  /// @param about  the extract in question, for the size of the uncertainty
  SugarFormula(uncertainty::Inputs& inputs, ExtractFraction about);
  /// The unfermented liquid of density rho at t.
  [[nodiscard]] ExtractFraction extract(const uncertainty::Point& x, Density rho,
                                        Temperature t) const;
  [[nodiscard]] physics::Liquid liquid(const uncertainty::Point& x, const physics::Scale& scale,
                                       double mark) const;
  /// What `scale` shows for the unfermented liquid.
  [[nodiscard]] double mark(const uncertainty::Point& x, const physics::Scale& scale,
                            ExtractFraction extract) const;

 private:
  [[nodiscard]] double relative_error(const uncertainty::Point& x, Temperature t) const;
  uncertainty::InputRef error_, drift_, water_;
};

/// Label of a value on a scale.
[[nodiscard]] Label label_of(const physics::Scale& scale);
/// The same for a drink with alcohol: a sugar scale shows its apparent extract there, and the name
/// says so.
[[nodiscard]] Label apparent_label_of(const physics::Scale& scale);

/// A value on one scale, on others.
/// @param half_width  of what was typed (rectangular), in the unit of `from`; 0 = exact
/// @param to          scales; quantities come in this order
/// @return            one quantity per scale; a note if the liquid is lighter than water
/// @throws            Error{domain} outside the scales' and models' ranges
[[nodiscard]] Result convert(const physics::Scale& from, double mark, double half_width,
                             std::span<const physics::Scale> to);

/// Alcoholic strength of an ethanol-water mixture: % vol to % mass and g/L, or back.
/// @param half_width of what was typed, in percent
[[nodiscard]] Result convert_strength(StrengthByVolume strength, double half_width);
[[nodiscard]] Result convert_strength(StrengthByMass strength, double half_width);

}  // namespace areo::measurement
