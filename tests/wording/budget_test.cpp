// SPDX-License-Identifier: GPL-3.0-or-later
// The budget as text and as JSON.
#include "areo/wording/budget.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "areo/core/error.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/text/format.hpp"

namespace areo::wording {
namespace {

measurement::Result sample() {
  instruments::Hydrometer h;
  h.name = "stem";
  instruments::HydrometerReading r;
  r.indication = 1.048;
  return measurement::correct(measurement::Calibrated::never_checked(h), r, {});
}

constexpr const char* key = "sg_20_20";

// U = 1.96 u: the second digit of 0.31 is worth 0.01, that of 3.1 is worth 0.1.
TEST(WorthTaking, IsAUnitOfTheSecondDigit) {
  const auto with_expanded = [](double expanded) {
    const double coverage = uncertainty::Value{0, 1}.expanded();
    return uncertainty::Value{0, expanded / coverage};
  };
  EXPECT_TRUE(worth_taking(with_expanded(0.31), with_expanded(0.2999)));
  EXPECT_FALSE(worth_taking(with_expanded(0.31), with_expanded(0.3001)));
  EXPECT_TRUE(worth_taking(with_expanded(3.1), with_expanded(2.99)));
  EXPECT_FALSE(worth_taking(with_expanded(3.1), with_expanded(3.01)));
  EXPECT_FALSE(worth_taking(with_expanded(0.31), with_expanded(0.31)));
}

TEST(BudgetLines, FitATerminal) {
  const auto lines = budget_lines(sample(), key, 0.001);
  EXPECT_GT(lines.size(), 8U);
  for (const std::string& l : lines) EXPECT_LE(text::display_width(l), 80U) << l;
}

TEST(BudgetLines, RefuseAnUnknownQuantity) {
  EXPECT_THROW((void)budget_lines(sample(), "none", std::nullopt), Error);
  EXPECT_THROW((void)budget_json(sample(), "none", std::nullopt), Error);
  EXPECT_THROW((void)budget_json(sample(), key, -1.0), Error);
}

TEST(BudgetJson, AddsUp) {
  const auto j = nlohmann::json::parse(budget_json(sample(), key, 0.001));
  EXPECT_EQ(j["budget_of"], key);
  double fractions = 0;
  for (const auto& c : j["contributions"]) fractions += c["variance_fraction"].get<double>();
  EXPECT_NEAR(fractions, 1, 1e-12);
  EXPECT_EQ(j["plan"]["target"], 0.001);
  EXPECT_EQ(j["measures"].size(), 4U);
}

TEST(BudgetJson, HasAPlanForATargetOnly) {
  EXPECT_FALSE(nlohmann::json::parse(budget_json(sample(), key, std::nullopt)).contains("plan"));
}

}  // namespace
}  // namespace areo::wording
