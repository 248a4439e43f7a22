// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// From one scale to others, for an unfermented liquid.
#include <optional>
#include <span>
#include <string>

#include "areo/core/model_temperature.hpp"
#include "areo/measurement/result.hpp"
#include "areo/physics/scale.hpp"

namespace areo::measurement {

/// The density formulas as uncertain inputs, the same at every place they are used: a relative
/// error of the sugar's share of the density, its drift with temperature, the water, and above 40
/// °C what is known less of a hot liquid.
class SugarFormula {
 public:
  /// @param about    the extract in question, for the size of the uncertainty
  /// @param warmest  of what extract() is asked for
  SugarFormula(uncertainty::Inputs& inputs, ExtractFraction about,
               Temperature warmest = celsius_point(20));
  /// The unfermented liquid of density rho at t.
  [[nodiscard]] ExtractFraction extract(const uncertainty::Point& x, Density rho,
                                        ModelTemperature t) const;
  [[nodiscard]] physics::Liquid liquid(const uncertainty::Point& x, const physics::Scale& scale,
                                       double mark) const;
  /// What `scale` shows for the unfermented liquid.
  [[nodiscard]] double mark(const uncertainty::Point& x, const physics::Scale& scale,
                            ExtractFraction extract) const;

 private:
  [[nodiscard]] double relative_error(const uncertainty::Point& x, ModelTemperature t) const;
  /// Of a density, in kg/m³.
  [[nodiscard]] double hot_error(const uncertainty::Point& x, ModelTemperature t) const;
  uncertainty::InputRef error_, drift_, water_;
  std::optional<uncertainty::InputRef> hot_;
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

/// What an unfermented liquid has beside its marks on scales.
enum class Beside { refractive_index, potential_alcohol };
/// Key of the quantity.
[[nodiscard]] std::string key_of(Beside what);
/// The same with more behind the scales, as refractive_index_20() and potential_alcohol() give it;
/// where these give nothing the quantity is left out. A potential comes with a note on the method.
[[nodiscard]] Result convert(const physics::Scale& from, double mark, double half_width,
                             std::span<const physics::Scale> to, std::span<const Beside> beside);

/// Refractive index of the unfermented liquid at 20 °C, as of a sucrose solution. Quantity:
/// refractive_index_20.
/// @throws Error{domain} as convert(), and below physics::index_extract_range or above
///         physics::sucrose_index_range, 85 % by mass
[[nodiscard]] Result refractive_index_20(const physics::Scale& from, double mark);

/// What the unfermented liquid would make if a clean yeast fermented all of its extract, by
/// Balling's balance: 3.5 % to 5.2 % more, between 80 g/L and 310 g/L, than the 16.83 g/L of sugar
/// for 1 % vol that wine law counts with [oiv-as2-02], which allows for what a cellar loses.
/// Quantity: potential_alcohol_percent_vol.
/// @throws Error{domain} as convert(), for less extract than none, and above
///         physics::strongest_covered
/// @uncertainty ferment::yield_uncertainty, 3.6 % of the strength
[[nodiscard]] Result potential_alcohol(const physics::Scale& from, double mark);

/// Alcoholic strength of an ethanol-water mixture: % vol to % mass and g/L, or back.
/// @param half_width of what was typed, in percent
[[nodiscard]] Result convert_strength(StrengthByVolume strength, double half_width);
[[nodiscard]] Result convert_strength(StrengthByMass strength, double half_width);

/// A mixture of ethanol and water: what tables of alcohol list. Quantities: alcohol_percent_mass,
/// alcohol_g_l, density_kg_m3 and sg_in_air (weights in air of 1.2 kg/m³), the last three at the
/// reference temperature.
/// @param reference  at which the strength's volumes are measured
/// @throws Error{domain} for a strength outside 0 % vol .. 100 % vol, or a reference outside 0 °C
///         .. 40 °C
/// @uncertainty 0.03 kg/m³, [oimlr22] against [osborne1913]
[[nodiscard]] Result ethanol_mixture(StrengthByVolume strength, Temperature reference);

}  // namespace areo::measurement
