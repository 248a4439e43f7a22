// SPDX-License-Identifier: GPL-3.0-or-later
// The report of a batch: what it says, in any of its faces.
#include "areo/paper/report.hpp"

#include <gtest/gtest.h>

#include "checked.hpp"

namespace areo::paper {
namespace {

using notebook::Stage;

class Reports : public Checked {
 protected:
  Reports() {
    stem_ = stem("stem-1", physics::sg_20_20, 0.990, 1.100, 0.002);
    put_in_force(stem_, check(stem_, {in_water(1.001, 21), in_sugar(1.042, 21, 52, 448)}));
    notebook::BatchRecord b;
    b.name = "PT-1";
    b.drink = "pear";
    b.started_at = moment_from_text("2026-03-02T10:00Z");
    pt1_ = book_.add(b);
    read(1.048, "2026-03-02T10:00Z", Stage::original);
    read(1.030, "2026-03-04T10:00Z");
  }
  void read(double shown, const char* at, Stage stage = Stage::present,
            const std::string& bottle = "") {
    notebook::ReadingRecord r;
    r.batch = pt1_;
    r.instrument = stem_;
    r.indication = shown;
    r.stage = stage;
    r.bottle = bottle;
    r.temperature_c = 20;
    r.made_at = r.noted_at = moment_from_text(at);
    book_.add(std::span{&r, 1});
  }
  [[nodiscard]] ReportData material(batch::Batch& batch) const {
    return material_of(book_, batch, "", std::nullopt, std::nullopt, false);
  }
  static std::string as_text(const document::Document& d) {
    std::string all;
    for (const std::string& line : document::text_of(d, 2000)) all += line + '\n';
    return all;
  }

  Id stem_, pt1_;
};

TEST_F(Reports, OfTheMakerSayEverything) {
  batch::Batch batch{book_, "PT-1"};
  const document::Document d = full_report(material(batch), moment_from_text("2026-06-01T12:00Z"));
  EXPECT_EQ(d.title, "PT-1: pear");
  std::vector<std::string> headings;
  for (const document::Section& s : d.sections) headings.push_back(s.heading);
  EXPECT_EQ(headings, (std::vector<std::string>{"The batch", "Where the uncertainty comes from",
                                                "Instruments", "What was assumed",
                                                "How each number was computed"}));
  const std::string text = as_text(d);
  for (const char* part : {"% vol (about 95 %)", "A home estimate is not a legal strength", "1.048",
                           "stem-1", "Made on 2026-06-01 with areo "})
    notebook::expect_contains(text, part);
}

TEST_F(Reports, OfGuestsHaveNoLaboratoryWords) {
  batch::Batch batch{book_, "PT-1"};
  ReportData m = material(batch);
  m.glass_l = 0.15;
  const std::string text = as_text(audience_report(m, now()));
  notebook::expect_contains(text, "a glass of 150 mL");
  for (const char* word : {"uncertainty", "JCGM", "calibration", "°P"})
    EXPECT_EQ(text.find(word), std::string::npos) << word;
}

TEST_F(Reports, HaveAPictureOfOneBottle) {
  batch::Batch batch{book_, "PT-1"};
  EXPECT_TRUE(gravity_picture(material(batch)).starts_with("<svg"));
  read(1.020, "2026-03-06T10:00Z", Stage::present, "A");
  read(1.018, "2026-03-06T11:00Z", Stage::present, "B");
  batch::Batch two{book_, "PT-1"};
  notebook::expect_contains(notebook::refusal([&] { (void)gravity_picture(material(two)); }),
                            "PT-1 has several bottles, and a picture shows one");
}

TEST(GlassFromText, IsWhatPeopleDrinkFrom) {
  EXPECT_FALSE(glass_from_text(""));
  EXPECT_NEAR(glass_from_text("150mL").value(), 0.15, 1e-12);
  EXPECT_NEAR(glass_from_text("2L").value(), 2, 1e-12);
  for (const char* typed : {"2.1L", "0L", "x", "150"})
    EXPECT_THROW((void)glass_from_text(typed), Error) << typed;
}

}  // namespace
}  // namespace areo::paper
