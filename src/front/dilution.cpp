// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/front/dilution.hpp"

#include "areo/core/error.hpp"
#include "areo/measurement/dilution.hpp"

namespace areo::detail {
namespace {

// From what a litre takes to what the volume takes.
Addition of_volume(const measurement::Result& per_litre, const char* mass_key,
                   const Uncertain<Volume>& volume) {
  if (!(number(volume.value()) > 0))
    throw Error{Errc::domain, "the volume of the liquid is above zero", "state how much there is"};
  const EvidenceOf evidence{per_litre, Identity{}};
  const Uncertain<double> grams_of_a_litre{evidence(mass_key)};
  const Uncertain<double> litres_of_a_litre{evidence("volume_l")};
  return {evaluate([](double g, const Volume& v) { return grams(g * number(v)); }, grams_of_a_litre,
                   volume),
          evaluate([](double l, const Volume& v) { return l * v; }, litres_of_a_litre, volume)};
}

}  // namespace

Addition water_to_add(const physics::Scale& scale, double from, double to,
                      const Uncertain<Volume>& volume) {
  return of_volume(measurement::water_to_add(scale, from, to), "water_g_per_l", volume);
}

Addition sugar_to_add(const physics::Scale& scale, double from, double to,
                      const Uncertain<Volume>& volume) {
  return of_volume(measurement::sugar_to_add(scale, from, to), "sugar_g_per_l", volume);
}

}  // namespace areo::detail
