// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/strength_words.hpp"

namespace areo::wording {

StrengthWords gravity_words(bool weighed, ferment::Culture culture) {
  StrengthWords words{
      weighed ? "an estimate from weighed sugar, " : "",
      weighed ? "no measurable change from what weighed sugar would give" : "no measurable change",
      {"sg_20_20_original", "sg_20_20_present"},
      "the present gravity is above the original gravity",
      {"bubbles on the hydrometer; the two readings swapped or misread; a wrong",
       "temperature; sugar or juice added since; layers that were not mixed"},
      "degas the sample, let it settle to a known temperature and read again"};
  words.basis = basis_text(culture);
  return words;
}

StrengthWords fermenting_words(ferment::Culture culture) {
  StrengthWords words{
      "",
      "no measurable change",
      {"sg_20_20_original", "sg_20_20_present"},
      "the present reading is above the original one",
      {"the two readings swapped or misread; a wrong temperature; sugar or juice added since;",
       "a prism that was not clean, or not zeroed in water"},
      "clean the prism, check it in water and read a settled drop again"};
  words.basis = basis_text(culture);
  return words;
}

const StrengthWords& paired_words() {
  static const StrengthWords words{
      "",
      "no measurable alcohol",
      {"sg_20_20_present", "real_extract_percent"},
      "density and refraction of the sample contradict each other",
      {"the readings are of two samples; the refractometer not zeroed in water; bubbles on the",
       "hydrometer; a wrong temperature; an extract that refracts less than was stated"},
      "read both again from one degassed, settled sample, and check both in water"};
  return words;
}

}  // namespace areo::wording
