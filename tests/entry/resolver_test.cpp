// SPDX-License-Identifier: GPL-3.0-or-later
// Typed texts as readings: which instrument, which temperature, what was assumed.
#include <gtest/gtest.h>

#include "areo/core/error.hpp"
#include "areo/entry/converted.hpp"
#include "areo/entry/corrected.hpp"
#include "areo/entry/reading_resolver.hpp"
#include "areo/entry/refraction_resolver.hpp"
#include "areo/entry/strength.hpp"
#include "areo/measurement/convert.hpp"
#include "notebook/temporary.hpp"

namespace areo::entry {
namespace {

class Resolver : public notebook::TemporaryFolder {
 protected:
  Resolver() {
    notebook::Notebook book{path(), notebook::Open::create};
    book.add(notebook::hydrometer("stem-1"));
    book.add(notebook::refractometer("prism-1"));
  }
  [[nodiscard]] SharedNotebook open() {
    return std::make_shared<NotebookOnDemand>([this] {
      ++opened_;
      return notebook::Notebook{path(), notebook::Open::read};
    });
  }
  int opened_ = 0;
};

TEST_F(Resolver, OpensTheNotebookOnceAndOnlyIfItIsNeeded) {
  ReadingResolver without{open(), {}};
  (void)without.take("1.040", "21C");
  EXPECT_EQ(opened_, 0);
  ReadingOptions with;
  with.instrument = "stem-1";
  ReadingResolver named{open(), with};
  (void)named.take("1.040", "21C");
  (void)named.take("1.041", "21C");
  EXPECT_EQ(opened_, 1);
}

TEST_F(Resolver, UnnamedReadingsOnOneScaleAreOfOneInstrument) {
  ReadingResolver r{open(), {}};
  const TakenReading a = r.take("1.040", "20C"), b = r.take("1.010", "20C");
  const TakenReading other = r.take("10P", "20C");
  EXPECT_TRUE(a.instrument.hydrometer.identity == b.instrument.hydrometer.identity);
  EXPECT_FALSE(a.instrument.hydrometer.identity == other.instrument.hydrometer.identity);
}

TEST_F(Resolver, SaysWhatItAssumed) {
  ReadingResolver r{open(), {}};
  EXPECT_TRUE(r.take("1.040", "").reading.temperature.assumed);
  EXPECT_EQ(r.take("1040", "20C").reading.indication, 1.040);
  EXPECT_FALSE(r.take("1040", "20C").echo.empty());
  EXPECT_TRUE(r.take_refraction("8.2Bx", "20C").compensation_assumed);
  ReadingOptions compensated;
  compensated.compensated = true;
  ReadingResolver c{open(), compensated};
  EXPECT_FALSE(c.take_refraction("8.2Bx", "20C").compensation_assumed);
}

TEST_F(Resolver, RefusesAnInstrumentOfAnotherKind) {
  ReadingOptions with;
  with.instrument = "prism-1";
  EXPECT_THROW((ReadingResolver{open(), with}), Error);
  with.refractometer = true;
  EXPECT_NO_THROW((ReadingResolver{open(), with}));
  with.instrument = "nobody";
  EXPECT_THROW((ReadingResolver{open(), with}), Error);
}

TEST_F(Resolver, ASecondReadingIsOfTheInstrumentThatItsUnitSays) {
  RefractionTools tools;
  tools.with.instrument = "prism-1";
  tools.with.refractometer = true;
  const RefractionResolver samples{tools, ReadingResolver{open(), tools.with}};
  EXPECT_TRUE(samples.by_refractometer("12.4Bx"));
  EXPECT_TRUE(samples.by_refractometer("1.3512nD"));
  EXPECT_TRUE(samples.by_refractometer("12.4"));
  EXPECT_FALSE(samples.by_refractometer("12.4P"));
  EXPECT_FALSE(samples.by_refractometer("1.050"));
  EXPECT_EQ(opened_, 1);
}

TEST(Entry, ConvertsWhatThePublicFunctionConverts) {
  const std::vector<physics::Scale> to{physics::sg_20_20};
  const Converted c = converted("12.5P", {to, {}, true});
  const auto direct = measurement::convert(physics::plato_20, 12.5, 0.05, to);
  EXPECT_EQ(c.result.quantities.front().value.estimate, direct.quantities.front().value.estimate);
  EXPECT_FALSE(c.strength);
  EXPECT_TRUE(converted("5%vol", convert_to_from_text("")).strength);
}

TEST(Entry, WeighedSugarTakesOneOfTwoVolumes) {
  using Volume = measurement::WeighedSugar::Volume;
  const auto into = weighed_sugar({"500g", "5L", ""});
  const auto made_up = weighed_sugar({"0.5kg", "", "5L"});
  EXPECT_EQ(into.sugar_g, 500);
  EXPECT_EQ(made_up.sugar_g, 500);
  EXPECT_EQ(into.volume, Volume::of_water);
  EXPECT_EQ(made_up.volume, Volume::made_up_to);
  EXPECT_THROW((void)weighed_sugar({"0g", "5L", ""}), ParseError);
}

}  // namespace
}  // namespace areo::entry
