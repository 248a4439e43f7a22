// SPDX-License-Identifier: GPL-3.0-or-later
// The card of an instrument: each cell is what a reading there is corrected by.
#include "areo/paper/card.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "areo/core/error.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/measurement/refract.hpp"
#include "areo/text/format.hpp"
#include "checked.hpp"

namespace areo::paper {
namespace {

using Json = nlohmann::ordered_json;
using measurement::ExtractKind;
using uncertainty::Value;

constexpr auto sg_60f = physics::specific_gravity_scale<Ref60F>();

ExtractKind extract(const char* word) { return measurement::extract_kind_from_word(word).value(); }

Card card(const CardSubject& s, const CardSides& sides = {}, const char* word = "mixed") {
  return card_of(s, sides, extract(word));
}

instruments::TemperatureReading read_at(Temperature t) {
  instruments::TemperatureReading r;
  r.indication_c = t.celsius();
  r.half_width_c = 0.5;
  return r;
}

// To the digits that the card prints; and no more is promised than of a reading, which has its own
// doubt too.
void expect_same(const Value& cell, const Value& reading, int decimals, const std::string& where) {
  EXPECT_EQ(text::fixed(cell.estimate, decimals), text::fixed(reading.estimate, decimals)) << where;
  EXPECT_LE(cell.u, reading.u) << where;
  EXPECT_GT(cell.u, 0) << where;
}

// Every cell of a table by temperature and reading.
// @param correction  Value that a reading of so much at that temperature is corrected by
template <class Correction>
void expect_cells(const Card& c, const Correction& correction) {
  const Grid& g = c.grid;
  const int decimals = grid_layout(g, false).decimals.front();
  ASSERT_GE(g.rows.size() * g.columns->size(), 28u);
  for (std::size_t i = 0; i < g.rows.size(); ++i)
    for (const double mark : g.columns->listed) {
      const double t = g.rows.at(static_cast<double>(i));
      const Temperature at = g.rows.key == "temperature_f" ? fahrenheit_point(t) : celsius_point(t);
      const auto cell = g.cells(t, mark).front();
      ASSERT_TRUE(cell.value) << t << ' ' << mark;
      expect_same(*cell.value, correction(at, mark), decimals,
                  c.subject.record.name() + " " + std::to_string(mark) + " at " +
                      std::to_string(at.celsius()) + " °C");
    }
}

class Cards : public Checked {
 protected:
  void expect_as_corrected(const std::string& name, const CardSides& sides = {}) const {
    const CardSubject s = subject(name);
    const measurement::Calibrated stem{*s.record.hydrometer(),
                                       notebook::correction_in_force(book_, s.record, s.at)};
    expect_cells(card(s, sides), [&](Temperature t, double mark) {
      instruments::HydrometerReading r;
      r.indication = mark;
      r.temperature = read_at(t);
      return measurement::correct(stem, r, {}).at("correction").value;
    });
  }
  Id checked_stem() {
    const Id id = stem("stem-1", physics::sg_20_20, 0.990, 1.100, 0.002);
    put_in_force(id,
                 check(id, {in_water(1.002, 21), in_sugar(1.041, 21, 50, 450),
                            in_sugar(1.081, 21, 97, 403)}),
                 "2027-03-01T12:00Z");
    return id;
  }
  void checked_prism(const char* name, bool compensated) {
    const Id id = prism(name, compensated);
    std::vector<CheckRecord> checks{in_water(0.6, 19)};
    if (compensated) checks.push_back(in_sugar(19.6, 21, 97, 403));
    put_in_force(id, check(id, checks));
  }
};

TEST_F(Cards, OfAHydrometerSayWhatAReadingIsCorrectedBy) {
  checked_stem();
  expect_as_corrected("stem-1");
  const Id other = stem("stem-2", sg_60f, 0.990, 1.170, 0.001);
  put_in_force(other, check(other, {in_water(0.998, 20), in_sugar(1.042, 21, 50, 450),
                                    in_sugar(1.086, 21, 97, 403)}));
  expect_as_corrected("stem-2", {.coldest = "50F", .warmest = "90F", .step = "2F"});
  stem("stem-3", physics::sg_20_20, 0.990, 1.100, 0.0005);
  expect_as_corrected("stem-3");
  const Id plato = stem("stem-4", physics::plato_20, 0, 25, 0.5);
  put_in_force(plato, check(plato, {in_water(0.5, 20)}));
  expect_as_corrected("stem-4");
  const Id density = stem("stem-5", physics::density_20, 990, 1100, 1);
  put_in_force(density, check(density, {in_water(997.2, 20)}));
  expect_as_corrected("stem-5", {.step = "4C"});
}

TEST_F(Cards, OfARefractometerSayWhatAReadingIsCorrectedBy) {
  checked_prism("prism-1", false);
  const CardSubject s = subject("prism-1");
  const measurement::CalibratedRefractometer prism{*s.record.refractometer(), s.correction};
  for (const char* word : {"mixed", "malt"})
    expect_cells(card(s, {}, word), [&](Temperature t, double brix) {
      instruments::RefractometerReading r;
      r.indication = brix;
      r.temperature = read_at(t);
      return measurement::refract({prism, r}, extract(word), {}).at("correction").value;
    });
}

TEST_F(Cards, OfACompensatedOneHoldAtAllTemperatures) {
  checked_prism("prism-2", true);
  const CardSubject s = subject("prism-2");
  const measurement::CalibratedRefractometer prism{*s.record.refractometer(), s.correction};
  const Grid g = card(s).grid;
  EXPECT_FALSE(g.columns);
  const auto decimals = grid_layout(g, false).decimals;
  ASSERT_GE(g.rows.size(), 5u);
  for (const double brix : g.rows.listed) {
    const auto cells = g.cells(brix, 0);
    for (const double t_c : {10.0, 20.0, 29.5}) {
      instruments::RefractometerReading r;
      r.indication = brix;
      r.temperature = read_at(celsius_point(t_c));
      const auto said = measurement::refract({prism, r}, extract("mixed"), {});
      const std::string where = std::to_string(brix) + " at " + std::to_string(t_c);
      EXPECT_EQ(text::fixed(cells[0].value->estimate, decimals[0]),
                text::fixed(said.at("correction").value.estimate, decimals[0]))
          << where;
      EXPECT_EQ(text::fixed(cells[1].value->estimate, decimals[1]),
                text::fixed(said.at("extract_percent").value.estimate, decimals[1]))
          << where;
    }
  }
  EXPECT_NE(g.cells(0, 0)[0].value->estimate, g.cells(20, 0)[0].value->estimate)
      << "it has a slope";
}

TEST_F(Cards, OfAThermometerSayItsOwnCorrection) {
  const Id id = add(instruments::Thermometer{.name = "probe-1"});
  put_in_force(id, check(id, {certified_point(0, -0.5, 0.1), certified_point(100, 1.5, 0.1)}));
  const CardSubject s = subject("probe-1");
  const Grid g = card(s).grid;
  ASSERT_EQ(g.rows.size(), 11u);
  for (std::size_t i = 0; i < g.rows.size(); ++i) {
    const double shown = g.rows.at(static_cast<double>(i));
    const auto cells = g.cells(shown, 0);
    EXPECT_NEAR(cells[0].value->estimate, s.correction.at(shown), 1e-12);
    EXPECT_NEAR(cells[1].value->estimate, shown + s.correction.at(shown), 1e-9);
  }
}

TEST_F(Cards, RefuseAnIndexScaleAndWhatIsRetired) {
  const Id index = add(instruments::ordinary_refractometer(instruments::RefractometerScale::index));
  const CardSubject s = card_subject(book_, book_.instruments().front(), now());
  EXPECT_THROW((void)card(s), Error);
  const auto at = moment_from_text("2026-05-01");
  book_.retire(index, at, "broke");
  EXPECT_NO_THROW((void)card_subject(book_, s.record, moment_from_text("2026-04-30")));
  notebook::expect_contains(notebook::refusal([&] { (void)card_subject(book_, s.record, at); }),
                            "retired on 2026-05-01: broke");
}

TEST_F(Cards, ForProgramsAreTheSame) {
  checked_stem();
  const Card c = card(subject("stem-1"));
  const Json j = Json::parse(card_json(c));
  EXPECT_EQ(j["card"], "stem-1");
  EXPECT_EQ(j["kind"], "hydrometer");
  EXPECT_EQ(j["as_of"], c.subject.at.text());
  ASSERT_EQ(j["offsets"].size(), c.offsets.size());
  for (std::size_t i = 0; i < c.offsets.size(); ++i) {
    EXPECT_EQ(j["offsets"][i]["reading"].get<double>(), c.offsets[i].reading);
    EXPECT_EQ(j["offsets"][i]["value"].get<double>(), c.offsets[i].correction.estimate);
    EXPECT_EQ(j["offsets"][i]["standard_uncertainty"].get<double>(), c.offsets[i].correction.u);
  }
  EXPECT_EQ(j["checks"], 3);
  EXPECT_EQ(j["due"], c.subject.calibration->due->text());
  EXPECT_EQ(j["overdue"], false);
  EXPECT_EQ(j["words"], Json(c.grid.headline.lines));
  stem("stem-3", physics::sg_20_20, 0.990, 1.100, 0.0005);
  EXPECT_TRUE(Json::parse(card_json(card(subject("stem-3"))))["due"].is_null());
}

}  // namespace
}  // namespace areo::paper
