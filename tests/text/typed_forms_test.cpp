// SPDX-License-Identifier: GPL-3.0-or-later
// The forms that people type, each with what it means or how it is refused: typed_forms.csv.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <ctime>
#include <fstream>
#include <map>
#include <string>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/core/moment.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"

namespace areo::text {
namespace {

// "kind|typed|means", or "kind|typed||why|what is pointed at|hint".
struct Form {
  int line;
  std::string kind, typed, means, why, pointed_at, hint;
};

std::vector<Form> forms() {
  std::ifstream in{AREO_TYPED_FORMS};
  std::vector<Form> all;
  std::string row;
  for (int line = 1; std::getline(in, row); ++line) {
    if (row.empty() || row[0] == '#') continue;
    std::vector<std::string> cells{""};
    for (const char c : row) {
      if (c == '|')
        cells.emplace_back();
      else
        cells.back() += c;
    }
    cells.resize(6);
    all.push_back({line, cells[0], cells[1], cells[2], cells[3], cells[4], cells[5]});
  }
  return all;
}

// A Saturday, two hours east of Greenwich.
const Moment present{1795860000, 7200};  // 2026-11-28T12:00:00+02:00

std::string value_words(const std::string& text) {
  const TypedMark m = mark_from_text(text);
  return fmt::format("{:.8g} {}", m.value, physics::scale_name(m.scale));
}
std::string day_words(const std::string& text, Moment m) {
  const std::string iso = m.text();
  EXPECT_EQ(past_moment_from_text(iso, m), m) << text << " printed as " << iso;
  return iso.substr(0, 16) == iso.substr(0, 11) + "00:00" ? m.date() : iso.substr(0, 16);
}

std::string meaning(const Form& f) {
  const auto number = [](double v) { return fmt::format("{:.8g}", v); };
  const std::map<std::string, std::string (*)(const std::string&)> special{
      {"value", value_words},
      {"scale", [](const std::string& t) { return physics::scale_name(scale_from_text(t)); }},
      {"date",
       [](const std::string& t) { return day_words(t, past_moment_from_text(t, present)); }},
      {"due", [](const std::string& t) { return day_end_from_text(t).text().substr(0, 16); }}};
  if (const auto found = special.find(f.kind); found != special.end())
    return found->second(f.typed);
  if (f.kind == "temperature") return number(celsius_from_text(f.typed)) + " °C";
  if (f.kind == "mass") return number(grams_from_text(f.typed)) + " g";
  if (f.kind == "volume") return number(litres_from_text(f.typed)) + " L";
  if (f.kind == "pressure") return number(pressure_from_text(f.typed).value()) + " Pa";
  ADD_FAILURE() << "no such kind: " << f.kind;
  return "";
}

class TypedForms : public testing::Test {
 protected:
  void SetUp() override {
    if (const char* tz = std::getenv("TZ")) before_ = tz;
    setenv("TZ", "AAA-2", 1);
    tzset();
  }
  void TearDown() override {
    before_.empty() ? unsetenv("TZ") : setenv("TZ", before_.c_str(), 1);
    tzset();
  }

 private:
  std::string before_;
};

TEST_F(TypedForms, MeanWhatTheTableSays) {
  const auto all = forms();
  EXPECT_GE(all.size(), 300u);
  for (const Form& f : all) {
    SCOPED_TRACE(fmt::format("line {}: {} '{}'", f.line, f.kind, f.typed));
    try {
      EXPECT_EQ(meaning(f), f.means);
      EXPECT_EQ(f.why, "") << "accepted";
    } catch (const ParseError& e) {
      EXPECT_EQ(f.means, "") << e.what();
      EXPECT_EQ(e.text, f.typed);
      EXPECT_EQ(e.what(), f.why);
      ASSERT_LE(e.position + e.length, f.typed.size());
      EXPECT_EQ(f.typed.substr(e.position, e.length), f.pointed_at);
      EXPECT_EQ(e.hint, f.hint);
    } catch (const Error& e) {
      EXPECT_EQ(f.means, "") << e.what();
      EXPECT_EQ(e.what(), f.why);
      EXPECT_EQ(f.pointed_at, "");
      EXPECT_EQ(e.hint, f.hint);
    }
  }
}

TEST(Printed, ScalesAreReadAgainByNameAndUnit) {
  for (const physics::Scale& scale : physics::offered_scales()) {
    const std::string name = physics::scale_name(scale);
    SCOPED_TRACE(name);
    EXPECT_EQ(scale_from_text(name), scale);
    EXPECT_EQ(scale_from_text(physics::scale_key(scale)), scale);
    const double mark = physics::mark_from_liquid(scale, {ExtractFraction{0.125}});
    const std::string printed = fixed(mark, 4);
    const TypedMark by_name = mark_from_text(printed + " " + name);
    EXPECT_EQ(by_name.scale, scale);
    EXPECT_EQ(fixed(by_name.value, 4), printed);
    const std::string unit = physics::scale_unit(scale);
    if (unit.empty()) continue;  // of a gravity the name says which
    EXPECT_EQ(mark_from_text(printed + " " + unit).scale.kind, scale.kind);
    EXPECT_EQ(fixed(mark_from_text(printed + unit).value, 4), printed);
  }
}

}  // namespace
}  // namespace areo::text
