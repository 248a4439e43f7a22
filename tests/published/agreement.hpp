// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How far areo is from numbers that others published: value by value, with the bound that each has
// to keep, and the tables of the documents made of them.
//
// A bound is half a unit of the last printed digit and three standard uncertainties that the
// library itself states for what is compared (a normal error stays inside with 99.7 %); where the
// source says how far it can be trusted, that is added. So it does not depend on which rows of a
// table are at hand, and it fails where the library claims to know more than it does.
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "areo/core/scales.hpp"
#include "areo/core/units.hpp"
#include "areo/physics/refraction.hpp"
#include "rows.hpp"

namespace areo::published {

inline constexpr double standard_uncertainties = 3;

/// areo minus the printed value, and what it may be at most.
struct Difference {
  std::string where;
  double value;
  double bound;
};

/// The differences from one printed table, in one range of it.
struct Comparison {
  std::string what;    ///< first cell of its line in a document
  std::string unit;    ///< behind mean, deviation, largest difference and bound
  std::string format;  ///< of these, for fmt
  std::vector<Difference> differences = {};

  void add(const Row& row, std::string_view column, double areo, double printed, double bound) {
    differences.push_back(
        {row.table->file + ":" + std::to_string(row.line) + " " + std::string{column},
         areo - printed, bound});
  }
};

struct Summary {
  std::size_t values;
  double mean, deviation, rms;
  double largest;      ///< of the absolute differences
  double least, most;  ///< with their signs
  double bound;        ///< the widest of those that hold for single values
};
/// @pre at least two differences
[[nodiscard]] Summary summary(const Comparison& comparison);

/// All comparisons by a short name.
using Comparisons = std::map<std::string, Comparison>;
void add_densities(Comparisons& all);
void add_optics(Comparisons& all);
void add_drinks(Comparisons& all);
void add_boiling(Comparisons& all);
[[nodiscard]] const Comparisons& comparisons();

/// Boiling point of water by [wagner1993], °C.
[[nodiscard]] double wagner_boiling_point_c(double pa);

/// Bound of a correction of a Brix refractometer, see agreement_optics.cpp.
[[nodiscard]] double brix_correction_bound(const Row& row, std::string_view column, double shown);

/// [tolman1917]: what the two gravities of a beer say, against its distillate.
struct Beer {
  std::string where;
  double predicted_percent_vol, measured_percent_vol;
  double extract_per_ethanol;  ///< lost in the ferment, g/g, with the measured alcohol
  /// Strength that a perfect refractometer would find, given the original, minus the true one; and
  /// what the scatter of the yield leaves open of each strength, as a standard uncertainty.
  double refraction_error, u_gravity, u_refraction;
};
[[nodiscard]] const std::vector<Beer>& beers();

/// Extract lost per gram of ethanol in brews of today [cutaia2009]: the mean over all of them, and
/// the least and the largest mean of a set.
struct BrewYield {
  double brews, mean, least, most;
};
[[nodiscard]] BrewYield brew_yield();

/// Dry extract by Tabarié's relation minus residual sugar of a wine [cortez2009], g/L.
[[nodiscard]] double sugar_free_extract(const Row& wine);

/// Alcohol in percent by mass that Barth's constants for beer [simmonds1919] find too little in a
/// drink of these mass fractions, by the index and density that areo gives it.
[[nodiscard]] double barth_finds_too_little(double ethanol, double extract,
                                            const physics::ExtractOptics& optics);

/// While one wort ferments: the straight line through apparent extract and Brix, to 95 %
/// attenuation.
struct FermentLine {
  double slope;  ///< least squares through the unfermented wort
  double bend;   ///< largest distance from that line, percent
};
[[nodiscard]] FermentLine ferment_line(Plato original);

/// Rise of the index over that of water by a row of
/// tables/solutes-density-refractive-index-20c.csv, and by the sucrose solution of the same
/// density.
struct Rise {
  double printed, sucrose;
};
[[nodiscard]] Rise rise(const Row& solute);

/// A port wine by the equation of [rogerson2006] and by the two readings that it rests on.
struct Port {
  double baume, equation_percent_vol;
  double ethanol;                           ///< mass fraction, by the equation
  std::optional<double> model_percent_vol;  ///< none if stronger than the model covers
  double bound;                             ///< of the difference
};
/// Over the range of the equation, 18 % vol to 21 % vol and 1 °Bé to 5 °Bé.
[[nodiscard]] std::vector<Port> ports();

/// A table of Markdown that documents include: docs/explanation/agreement/<name>.md.
struct Fragment {
  std::string name, text;
};
[[nodiscard]] std::vector<Fragment> fragments();

}  // namespace areo::published
