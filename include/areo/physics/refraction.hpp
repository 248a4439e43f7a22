// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Refractive index of water, of sucrose solutions and of a drink, and what a Brix refractometer of
// 20 °C shows. Every index is that of the sodium D line, 589.3 nm, against air of 20 °C.
#include "areo/core/model_temperature.hpp"
#include "areo/core/range.hpp"
#include "areo/core/scales.hpp"
#include "areo/physics/liquid.hpp"

namespace areo::physics {

inline constexpr Range water_index_range{"refractive index of water", "°C", 0, 60, "iapws-r9-97"};
inline constexpr Range sucrose_index_range{"sucrose mass fraction on the index scale", "", 0, 0.85,
                                           "icumsa1974"};
/// The small negative ends are for readings that scatter around zero, the upper end of the ethanol
/// as for mixture_ethanol_range.
inline constexpr Range index_extract_range{"extract mass fraction behind a refractive index", "",
                                           -0.03, 0.75, "oiv-as2-02"};
inline constexpr Range index_ethanol_range{"ethanol mass fraction behind a refractive index", "",
                                           -0.02, 0.20, "crc102"};
inline constexpr Range index_temperature_range{"refractive index of a drink",
                                               "°C",
                                               10,
                                               30,
                                               "itct1936",
                                               "bring the sample nearer to 20 °C and read again"};
/// Below zero the scale is continued: water above 20 °C shows less than nothing.
inline constexpr Range brix_shown_range{"reading of a Brix refractometer", "Brix", -5, 85,
                                        "icumsa1974"};

/// How strongly an extract refracts: the rise of the index over that of water, relative to the rise
/// by the sucrose solution of the same density (a Liquid counts its extract as sucrose, by
/// density). It is the ratio of (n - n_w) / (SG - 1), and hardly depends on the amount.
struct ExtractOptics {
  double relative_rise;
  double uncertainty;  ///< standard uncertainty of relative_rise
};
/// What the sugars, acids and glycerol of [crc102] span.
inline constexpr Range relative_rise_range{"index rise of an extract relative to sucrose", "", 0.8,
                                           1.5, "crc102"};

// Least squares through zero over the rows of tables/solutes-density-refractive-index-20c.csv
// [crc102]: index minus 1.3330 against the rise by sucrose of the row's density. Sucrose itself
// comes out as 1.001, so 0.002 is taken as the uncertainty of the sugars that agree row by row.
inline constexpr ExtractOptics sucrose_optics{1, 0};  ///< the reference
inline constexpr ExtractOptics glucose_optics{1.006, 0.002};
inline constexpr ExtractOptics fructose_optics{0.978, 0.002};
/// Half glucose, half fructose: their mean, since both rises add up.
inline constexpr ExtractOptics invert_sugar_optics{0.992, 0.002};
/// Its rows drift from 0.984 at 4 % to 1.034 at 15 %: the middle, and the spread.
inline constexpr ExtractOptics maltose_optics{1.01, 0.02};
/// Between maltose and 0.385 / 0.371 = 1.038, the ratio behind Barth's constants for beer
/// [simmonds1919].
inline constexpr ExtractOptics malt_extract_optics{1.02, 0.02};
/// 3 % covers the sugars and malt; acids and glycerol lie outside, citric acid 18 % below, glycerol
/// 37 % and acetic acid 41 % above [crc102].
inline constexpr ExtractOptics unknown_extract_optics{1, 0.03};

/// Refractive index of pure water at 101.325 kPa.
/// @param t     0 °C .. 60 °C
/// @return      index against air
/// @throws      Error{domain} outside the range or for NaN
/// @uncertainty 3.1e-6, the largest residual of the polynomial; 1.5e-5 for the release (from
/// memory)
/// @source      [iapws-r9-97] with the density of [iapws95]; a polynomial of degree four through
///              its values at 589.3 nm over 1.00027175, the index of air at 20 °C (from memory).
///              Air of another temperature would matter: 1.2e-5 at 30 °C, 4.4e-5 at 60 °C.
/// @check       20 °C -> 1.332988
[[nodiscard]] RefractiveIndex water_refractive_index(Temperature t);

/// Refractive index of a sucrose solution at 20 °C, as its source has it.
/// @param w     sucrose mass fraction, 0 .. 0.85
/// @return      index against air
/// @throws      Error{domain} outside the range or for NaN
/// @uncertainty 3e-6, printed digit of the table; largest difference 6e-6
/// @source      [icumsa1974], a polynomial of degree five through its rows (digits of the scale
///              from memory, 10 % to 30 % as in [oiv-as2-02])
/// @check       0.10 -> 1.34782; 0.30 -> 1.38115
[[nodiscard]] RefractiveIndex sucrose_refractive_index_20(ExtractFraction w);

/// Refractive index of a drink.
///
/// Lorentz-Lorenz: L = (n² - 1) / (n² + 2) divided by the density is the sum of the parts' shares,
///   L / rho(t) = w_w L_w(t) / rho_w(t) + s (1 + 6.6e-5 (t - 20)) + w_e r_e,
/// rho = density(), r_e = 2.7766e-4 m³/kg, and s what makes the extract's solution in water, at
/// 20 °C, have the index of the sucrose scale times optics.relative_rise. Nothing dissolved is
/// exactly water, and nothing jumps where extract or ethanol goes to zero.
/// @param liquid within index_extract_range and index_ethanol_range
/// @param t      10 °C .. 30 °C
/// @param optics relative_rise within relative_rise_range
/// @return       index against air
/// @throws       Error{domain} outside the ranges or for NaN
/// @uncertainty  refractive_index_model_uncertainty(), and optics.uncertainty times the extract's
///               rise; extract and ethanol together rest on the model alone
/// @source       6.6e-5 from [itct1936], r_e from [crc102]
/// @check        (0.125 extract, 17.3 °C) -> 1.351994; (0.05 extract, 0.04 ethanol, 20 °C) ->
///               1.342699
[[nodiscard]] RefractiveIndex refractive_index(const Liquid& liquid, ModelTemperature t,
                                               const ExtractOptics& optics = sucrose_optics);

/// How strongly the extract of an unfermented liquid refracts, from the index of a liquid whose
/// extract is known by its density; inverse of refractive_index() in optics.relative_rise.
/// @param extract above zero: water tells nothing of its extract
/// @throws        Error{domain} if the result is outside relative_rise_range, or for NaN
[[nodiscard]] double relative_rise_from_index(RefractiveIndex n, ModelTemperature t,
                                              ExtractFraction extract);

/// Standard uncertainty of refractive_index() from the models alone: 3e-6 for water and scale;
/// 1.5e-6 per °C away from 20 °C (rms against [itct1936], 0.009 Brix, over 10 °C); for ethanol 3e-5
/// (rms against [crc102]) and 1e-5 per °C away from 20 °C (no data, from judgement), both from 8 %
/// on and in proportion below, the former growing by 1e-5 for each per cent above 16 % (largest
/// difference from [crc102] at 24 %: 1.1e-4); for Tabarié's relation 0.004 times the product of
/// both fractions.
/// @throws Error{domain} outside the ranges of refractive_index()
[[nodiscard]] double refractive_index_model_uncertainty(const Liquid& liquid, ModelTemperature t);

/// The index that a mark of a 20 °C Brix scale stands for, and back. One water: the rise of
/// sucrose_refractive_index_20() over its own water, on water_refractive_index(), so that 0 Brix is
/// exactly water. That is 8.5e-7 below the source, 0.0006 Brix. Below zero the scale is continued
/// by its polynomial.
/// @param shown within brix_shown_range
/// @throws      Error{domain} outside it or for NaN
/// @source      [icumsa1974]
[[nodiscard]] RefractiveIndex index_from_brix_shown(Brix shown);
[[nodiscard]] Brix brix_shown_from_index(RefractiveIndex n);

/// The extract of a liquid of known index and ethanol; inverse of refractive_index(), to 1e-13.
/// Without ethanol: of an unfermented liquid.
/// @param t within index_temperature_range
/// @throws  Error{domain} if no extract within index_extract_range has this index, or for NaN
[[nodiscard]] ExtractFraction extract_from_index(RefractiveIndex n, ModelTemperature t,
                                                 const ExtractOptics& optics = sucrose_optics,
                                                 EthanolFraction ethanol = EthanolFraction{0});

/// What an ideal Brix refractometer of 20 °C, without temperature compensation, shows in a liquid.
/// @param liquid within index_extract_range and index_ethanol_range
/// @param t      of liquid and prism, 10 °C .. 30 °C
/// @return       Brix; below zero for water above 20 °C
/// @throws       Error{domain} outside the ranges, for NaN, or if the index is off the scale
/// @uncertainty  that of refractive_index(); 1e-5 in n is 0.007 Brix at 0 %, 0.005 Brix at 50 %
/// @source       [itct1936], which it reproduces within 0.03 Brix
/// @check        (water, 30 °C) -> -0.745 Brix
[[nodiscard]] Brix ideal_brix_shown(const Liquid& liquid, ModelTemperature t,
                                    const ExtractOptics& optics = sucrose_optics);

/// The extract of an unfermented liquid in which a Brix refractometer of 20 °C shows `shown` at t;
/// inverse of ideal_brix_shown(), to 1e-13.
/// @param shown  within brix_shown_range
/// @param t      of liquid and prism, 10 °C .. 30 °C
/// @throws       Error{domain} outside the ranges, for NaN, or if the extract would be outside
///               index_extract_range
/// @uncertainty  as for ideal_brix_shown()
/// @source       [itct1936], [oiv-as2-02]; both are reproduced within 0.03 Brix
/// @check        (0 Brix, 30 °C) -> 0.00748; (50 Brix, 10 °C) -> 0.49245
[[nodiscard]] ExtractFraction extract_from_brix_shown(Brix shown, ModelTemperature t,
                                                      const ExtractOptics& optics = sucrose_optics);

}  // namespace areo::physics
