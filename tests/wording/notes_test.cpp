// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/notes.hpp"

#include <gtest/gtest.h>

#include "areo/physics/scale.hpp"

namespace areo::wording {
namespace {

namespace note = measurement::note;

std::string said(const measurement::Note& n) { return note_words(n).sentence(); }

TEST(Notes, AreSentencesOfTheirKind) {
  EXPECT_EQ(said(note::Said{"as it is"}), "as it is");
  EXPECT_EQ(said(note::AssumedTemperature{"the sample", 20, 5}),
            "no temperature for the sample: 20 °C assumed, ± 5 °C");
  EXPECT_EQ(said(note::NeverChecked{"stem-1", 0.002}),
            "stem-1 was never checked: its error is taken as within one division (0.002)");
  EXPECT_EQ(said(note::NotInForce{"stem-1", "no calibration in force", 0.002}),
            "stem-1: no calibration in force (0.002)");
  EXPECT_EQ(said(note::RepeatsApart{3, 4, 5.0}),
            "readings 3 and 4 of one sample are 5 divisions apart: is one misread? areo reading "
            "exclude keeps it out");
  EXPECT_EQ(said(note::BelowDry{-0.31, 0.2}),
            "the present reading is lower than fermenting all of the extract could make it: -0.3 ± "
            "0.2 % mass would be left; check both readings");
}

TEST(Notes, NameTheCheckedPart) {
  EXPECT_EQ(said(note::OutsideChecked{"stem-1", 1.06, 1, 1.02}),
            "1.06 is outside the checked part of stem-1 (1 to 1.02): the correction is used with "
            "growing uncertainty");
  EXPECT_EQ(said(note::OutsideCheckedTemperatures{"probe-1", 27, 0, 0}),
            "27 °C is outside the checked part of probe-1 (0 only °C): its correction is used with "
            "growing uncertainty");
  // Of two readings it is one thing to say.
  EXPECT_EQ(note_words(note::OutsideChecked{"stem-1", 1.06, 1, 1.02}).text,
            note_words(note::OutsideChecked{"stem-1", 1.07, 1, 1.02}).text);
}

TEST(Notes, SayWhereTheSugarWent) {
  const measurement::WeighedSugar water{450, 1, 5, measurement::WeighedSugar::Volume::of_water};
  const measurement::WeighedSugar mark{450, 1, 5, measurement::WeighedSugar::Volume::made_up_to};
  EXPECT_EQ(said(note::WeighedOriginal{water}),
            "original gravity estimated from 450 g of white sugar in 5 L of water, the volume ± 5 "
            "%; not measured, and what else was in it is left out");
  EXPECT_TRUE(said(note::WeighedOriginal{mark})
                  .starts_with("original gravity estimated from 450 g of white sugar made up to 5 "
                               "L, the volume"));
}

TEST(Notes, SayWhatADegreeIsWorth) {
  EXPECT_EQ(said(note::Hot{70, 30, 0.00061, 0, physics::sg_20_20}),
            "at 70 °C one degree is worth 0.0006: cool it below 30 °C");
  EXPECT_EQ(said(note::Hot{70, 30, 0.15, 0.12, physics::plato_20}),
            "at 70 °C one degree is worth 0.15 °P: cool it below 30 °C, covered: each 1 % of it "
            "that goes as steam adds 0.12 °P");
}

TEST(Notes, NameWhatLimits) {
  EXPECT_TRUE(said(note::Limits{0.7, 0.2, 0.1}).starts_with("the refractometer limits this"));
  EXPECT_TRUE(said(note::Limits{0.2, 0.7, 0.1}).starts_with("the hydrometer limits this"));
  EXPECT_EQ(
      said(note::Limits{0.2, 0.1, 0.7}),
      "what is known of the extract limits this: of the variance, 20 % comes from the "
      "refractometer, 10 % from the hydrometer, 70 % from the kind of extract and the models");
}

TEST(Notes, OnTheMethodComeLast) {
  measurement::Result r;
  r.method_notes = {note::BeyondComparison{7.2, true}};
  r.notes = {note::NotDegassed{}};
  ASSERT_EQ(own_notes(r).size(), 1U);
  EXPECT_EQ(all_notes(r),
            (std::vector<std::string>{
                "not degassed: bubbles lift a hydrometer, and it shows too much; the drink is "
                "stronger than it seems",
                "stronger than the 7.2 % vol up to which the method was compared with "
                "distillation: the scatter of its yield is taken on trust here"}));
}

}  // namespace
}  // namespace areo::wording
