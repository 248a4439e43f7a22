// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A reference liquid made on a kitchen balance: weighed sugar or salt in weighed water.
#include <optional>
#include <string>

#include "areo/core/model_temperature.hpp"
#include "areo/core/units.hpp"
#include "areo/uncertainty/input.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo::calibration {

enum class Solute { sucrose, sodium_chloride };

/// How much of a solute, as it is weighed, is what it is called.
struct SoluteQuality {
  /// Mass fraction of the dry solute that is sucrose or sodium chloride, between these bounds.
  double purity_lo, purity_hi;
  /// Mass fraction of water in the solute as weighed, between these bounds.
  double moisture_lo, moisture_hi;

  /// Mass fraction of the pure solute in it as weighed, between these bounds.
  [[nodiscard]] constexpr double least() const { return purity_lo * (1 - moisture_hi); }
  [[nodiscard]] constexpr double most() const { return purity_hi * (1 - moisture_lo); }
};
/// White sugar: at least 99.7 % sucrose, at most 0.1 % loss on drying [codex-sugars], from memory.
/// The one definition of it: reference solutions, additions, tables and weighed originals share it.
inline constexpr SoluteQuality white_sugar{0.997, 1, 0, 0.001};
/// Table salt: at least 97 % sodium chloride in the dry matter [codex-salt], up to 0.5 % moisture
/// (an engineering judgement); both from memory.
inline constexpr SoluteQuality table_salt{0.97, 1, 0, 0.005};
/// Mass fraction of sucrose in white sugar as weighed, as an input: 0.998 ± 0.002, rectangular.
[[nodiscard]] uncertainty::Input sucrose_in_white_sugar(const std::string& of);

/// The water of a check.
enum class Water {
  pure,  ///< distilled or demineralised
  tap,   ///< with what is dissolved in it, between nothing and the most of the constants below
  /// Nobody said: taken as pure, with the doubt that it may have been tap water.
  unknown,
};
/// How much denser tap water is than pure water: 0 to 0.6 g/L of solids, from soft to hard, kg/m³.
/// Engineering judgement.
inline constexpr double most_tap_solids_kg_m3 = 0.6;
/// How much extract, as a mass fraction, refracts as much as those solids at most; salts refract a
/// little more than sugar does. Engineering judgement.
inline constexpr double most_tap_solids_extract = 0.001;

/// What was weighed, in grams as the balance showed it, and how good balance and solute are.
struct WeighedSolution {
  Solute solute = Solute::sucrose;
  double solute_g = 0;
  double water_g = 0;
  double balance_division_g = 1;
  /// As SoluteQuality; stored with a check, so that it stays what was assumed then.
  double purity_lo = white_sugar.purity_lo, purity_hi = white_sugar.purity_hi;
  double moisture_lo = white_sugar.moisture_lo, moisture_hi = white_sugar.moisture_hi;
  friend bool operator==(const WeighedSolution&, const WeighedSolution&) = default;
};

/// Of white_sugar.
[[nodiscard]] WeighedSolution sugar_solution(double sugar_g, double water_g,
                                             double balance_division_g = 1);
/// Of table_salt.
[[nodiscard]] WeighedSolution salt_solution(double salt_g, double water_g,
                                            double balance_division_g = 1);

/// The same with masses that the balance can show.
[[nodiscard]] WeighedSolution to_balance(WeighedSolution solution);
/// Standard uncertainty of one of its masses in grams: two indications, each rounded to the
/// division, and the linearity of the balance.
[[nodiscard]] double mass_uncertainty_g(const WeighedSolution& solution);

/// What all solutions of one solute share: they err together through it.
struct SoluteInputs {
  Solute solute;
  double purity_lo, purity_hi, moisture_lo, moisture_hi;  ///< as stated, to know it again
  uncertainty::InputRef purity, moisture;
  /// Error of the density formula, in standard uncertainties of it (which grow with the fraction).
  uncertainty::InputRef formula;

  /// Whether the solution was made of this solute.
  [[nodiscard]] bool is_of(const WeighedSolution& s) const;
};

/// What all weighings of one balance share: by how far its straight line is off at the mass of a
/// solute, and at that of the water; within a division (judgement). Its gain cancels.
struct BalanceInputs {
  double division_g;
  uncertainty::InputRef solute_g, water_g;
};

/// A weighed solution as inputs of a model.
class SolutionInputs {
 public:
  /// @param shared  the solute, if another solution of it has entered the model
  /// @param balance that it was weighed on, if others were
  /// @throws Error{domain} for masses that are not above zero, bounds outside 0 .. 1 or a division
  ///         that is not above zero
  SolutionInputs(uncertainty::Inputs& inputs, const WeighedSolution& solution,
                 const std::optional<SoluteInputs>& shared = std::nullopt,
                 const std::optional<BalanceInputs>& balance = std::nullopt);
  /// Mass fraction of the solute. Each mass is corrected for the buoyancy of air (1.2 kg/m³).
  [[nodiscard]] double fraction(const uncertainty::Point& x) const;
  /// Density at t, with the uncertainty of the density formula as an input of its own.
  [[nodiscard]] Density density(const uncertainty::Point& x, ModelTemperature t) const;
  [[nodiscard]] const SoluteInputs& solute() const { return solute_; }
  [[nodiscard]] const BalanceInputs& balance() const { return balance_; }

 private:
  SoluteInputs solute_;
  BalanceInputs balance_;
  uncertainty::InputRef solute_g_, water_g_;
};

/// The masses of solute and water that make `total_g` of a liquid with the given density at t; what
/// the balance has to show, for a pure and dry solute of the middle of the stated bounds.
/// @throws Error{domain} if the density is that of no such solution
[[nodiscard]] WeighedSolution weigh_in(const WeighedSolution& kind, double total_g, Density rho,
                                       Temperature t);

}  // namespace areo::calibration
