// SPDX-License-Identifier: GPL-3.0-or-later
// A certificate: the items that it answers, its number, and the same content in each form.
#include "areo/paper/certificate.hpp"

#include <gtest/gtest.h>

#include <map>
#include <nlohmann/json.hpp>

#include "checked.hpp"
#include "paper/certificate_parts.hpp"

namespace areo::paper {
namespace {

using Json = nlohmann::ordered_json;
using Status = Clause::Status;

// In the order of the standard, none left out.
std::vector<std::string> items_of_the_clause() {
  std::vector<std::string> all;
  for (const char letter : std::string{"abcdefghijklmnop"})
    all.push_back(std::string{"7.8.2.1 "} + letter);
  all.emplace_back("7.8.2.2");
  for (const char letter : std::string{"abcdef"}) all.push_back(std::string{"7.8.4.1 "} + letter);
  for (const char* item : {"7.8.4.3", "7.8.6.1", "7.8.6.2", "7.8.7"}) all.emplace_back(item);
  return all;
}

class Certificates : public Checked {
 protected:
  Certificates() {
    stem_ = stem("stem-1", physics::sg_20_20, 0.990, 1.100, 0.002);
    put_in_force(stem_, check(stem_, three()), "2027-03-01T12:00Z");
  }
  static std::vector<CheckRecord> three() {
    return {in_water(1.001, 21), in_sugar(1.042, 21, 52, 448), in_sugar(1.083, 21, 100, 400)};
  }
  static Issue issue(const std::string& by = "", const std::string& place = "",
                     const std::string& customer = "") {
    return {moment_from_text("2026-06-01T12:00Z"), by, place, customer};
  }
  [[nodiscard]] Certified of(const Issue& i, std::size_t calibration = 0) const {
    const auto instrument = book_.instrument("stem-1");
    return certified(book_, instrument, book_.calibrations(instrument.id).at(calibration), i);
  }
  static std::map<std::string, Clause> by_item(const Certified& c) {
    std::map<std::string, Clause> all;
    for (const Clause& k : certificate_clauses(c)) all[k.item] = k;
    return all;
  }

  Id stem_;
};

TEST_F(Certificates, AnswerEveryItemOfTheClauseOnce) {
  for (const Certified& c : {of(issue()), of(issue("B", "P", "C"))}) {
    std::vector<std::string> items;
    for (const Clause& k : certificate_clauses(c)) {
      items.push_back(k.item);
      EXPECT_GT(k.asks.size(), 5u) << k.item;
      EXPECT_FALSE(k.where_or_why.empty()) << k.item;
      EXPECT_EQ(k.where_or_why.find("; not stated: ") != std::string::npos,
                k.status == Status::in_part)
          << k.item;
    }
    EXPECT_EQ(items, items_of_the_clause());
  }
}

TEST_F(Certificates, LeaveALineForWhatNobodyStated) {
  const auto bare = by_item(of(issue()));
  for (const char* item : {"7.8.2.1 b", "7.8.2.1 c", "7.8.2.1 e", "7.8.2.1 o"})
    EXPECT_EQ(bare.at(item).status, Status::by_hand) << item;
  for (const auto& [item, k] : by_item(of(issue("B", "P", "C"))))
    EXPECT_NE(k.status, Status::by_hand) << item;
  const auto named = by_item(of(issue("B")));
  EXPECT_EQ(named.at("7.8.2.1 b").status, Status::in_part);
  EXPECT_EQ(named.at("7.8.2.1 b").where_or_why, "section 1; not stated: where, the address");
  EXPECT_EQ(named.at("7.8.2.1 o").status, Status::stated);
}

TEST_F(Certificates, NameTheChecksThatLackSomething) {
  const auto all = by_item(of(issue()));
  EXPECT_EQ(all.at("7.8.4.1 c").where_or_why,
            "section 4: by no unbroken chain of calibrations; not stated: thermometer of checks 1 "
            "and 2 and 3, balance of checks 2 and 3");
  EXPECT_EQ(all.at("7.8.4.1 b").status, Status::stated) << "water and temperature are";
  EXPECT_EQ(all.at("7.8.4.1 d").status, Status::does_not_apply) << "it is the first one";
}

TEST_F(Certificates, KnowTheCalibrationBefore) {
  put_in_force(stem_, check(stem_, {in_water(1.003, 21), in_sugar(1.044, 21, 52, 448)}));
  const Certified later = of(issue(), 1);
  ASSERT_TRUE(later.before);
  EXPECT_EQ(by_item(later).at("7.8.4.1 d").status, Status::stated);
  const Certified first = of(issue());
  ASSERT_TRUE(first.after);
  EXPECT_EQ(first.after->id, later.calibration.id);
}

TEST_F(Certificates, HaveANumberOfWhatTheySay) {
  const std::string number = of(issue()).number;
  EXPECT_EQ(number.substr(0, 18), "areo-stem-1-cal-1-");
  Issue later = issue();
  later.on = moment_from_text("2026-07-01T12:00Z");
  EXPECT_EQ(of(later).number, number) << "the day of issue is not in it";
  later.full = true;
  EXPECT_EQ(of(later).number, number) << "nor how many digits are shown";
  EXPECT_NE(of(issue("B")).number, number);
}

TEST_F(Certificates, HaveElevenSectionsAndAnEnd) {
  const document::Document d = certificate_document(of(issue()));
  ASSERT_EQ(d.sections.size(), 11u);
  for (std::size_t i = 0; i < d.sections.size(); ++i)
    EXPECT_TRUE(d.sections[i].heading.starts_with(std::to_string(i + 1) + " "))
        << d.sections[i].heading;
  EXPECT_EQ(d.end, "end of certificate " + d.number);
  EXPECT_NE(d.caution.find("not an accredited certificate"), std::string::npos);
}

TEST_F(Certificates, AreTheSameForPrograms) {
  const Certified c = of(issue("B"));
  const Json j = Json::parse(certificate_json(c, "x.pdf"));
  EXPECT_EQ(j["certificate"], c.number);
  EXPECT_EQ(j["accredited"], false);
  EXPECT_EQ(j["made_by"], "B");
  EXPECT_TRUE(j["place"].is_null());
  EXPECT_EQ(j["file"], "x.pdf");
  EXPECT_TRUE(Json::parse(certificate_json(c, ""))["file"].is_null());
  const instruments::Correction& k = c.summary.fit.correction;
  EXPECT_EQ(j["offset"].get<double>(), k.offset);
  EXPECT_EQ(j["offset_standard_uncertainty"].get<double>(), k.u_offset);
  ASSERT_EQ(j["checks"].size(), 3u);
  for (std::size_t i = 0; i < 3; ++i) {
    const calibration::Check& check = c.summary.evaluated.checks[i];
    EXPECT_EQ(j["checks"][i]["correction"].get<double>(), check.correction.estimate);
    EXPECT_EQ(j["checks"][i]["residual"].get<double>(), c.summary.fit.residuals[i]);
    EXPECT_EQ(j["checks"][i]["water"], "pure");
    EXPECT_TRUE(j["checks"][i]["apart"].is_null());
  }
  EXPECT_TRUE(j["checks"][0]["balance_division_g"].is_null());
  EXPECT_EQ(j["checks"][1]["balance_division_g"], 1);
  ASSERT_EQ(j["corrections"].size(), c.corrections.size());
  ASSERT_EQ(j["clauses"].size(), items_of_the_clause().size());
  EXPECT_EQ(j["clauses"][1]["status"], "in_part");
}

TEST_F(Certificates, AreOfACalibrationThatThereIs) {
  using notebook::expect_contains;
  using notebook::refusal;
  const auto instrument = book_.instrument("stem-1");
  EXPECT_EQ(numbered_calibration(book_, instrument, 1).id, 1);
  EXPECT_EQ(calibration_in_force(book_, instrument, moment_from_text("2026-05-01")).id, 1);
  expect_contains(refusal([&] { (void)numbered_calibration(book_, instrument, 7); }),
                  "stem-1 has no calibration 7 | areo calibrate show stem-1 lists them");
  stem("stem-2", physics::sg_20_20, 0.990, 1.100, 0.002);
  const auto other = book_.instrument("stem-2");
  expect_contains(refusal([&] { (void)calibration_in_force(book_, other, now()); }),
                  "check it first: areo calibrate water stem-2 READING TEMP");
  check(other.id, {in_water(1.001, 20)});
  expect_contains(refusal([&] { (void)calibration_in_force(book_, other, now()); }),
                  "put its checks in force: areo calibrate fit stem-2");
  check(other.id, {in_water(1.021, 20)});
  expect_contains(refusal([&] { (void)calibration_in_force(book_, other, now()); }),
                  "its checks contradict each other");
}

TEST_F(Certificates, AreIssuedAfterTheirChecks) {
  Issue early = issue();
  early.on = moment_from_text("2026-02-28T12:00Z");
  notebook::expect_contains(notebook::refusal([&] { (void)of(early); }),
                            "issued on 2026-02-28, before its last check of 2026-03-01");
}

// The squares of all contributions make the square of the whole, at each place of the scale.
TEST_F(Certificates, HaveBudgetsThatAddUp) {
  const Json j = Json::parse(certificate_json(of(issue()), ""));
  ASSERT_EQ(j["budgets"].size(), 3u);
  for (std::size_t place = 0; place < 3; ++place) {
    const Json& b = j["budgets"][place];
    const auto square = [](const Json& x) { return x.get<double>() * x.get<double>(); };
    double sum = square(b["slope_share"]) + square(b["beyond_share"]);
    for (const Json& input : j["inputs"]) sum += square(input["shares"][place]);
    const double u = square(b["standard_uncertainty"]);
    EXPECT_GT(u, 0);
    EXPECT_NEAR(sum, u, 1e-9 * u) << place;
  }
}

}  // namespace
}  // namespace areo::paper
