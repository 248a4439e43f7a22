// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/result_json.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <vector>

#include "areo/measurement/alcohol.hpp"
#include "areo/measurement/convert.hpp"
#include "areo/physics/scale_name.hpp"
#include "text/json_dump.hpp"
#include "wording/result_value.hpp"

namespace areo::wording {
namespace {

using Json = nlohmann::ordered_json;

measurement::Result two_quantities() {
  measurement::Result r;
  r.quantities = {{"sg_20_20", "SG 20/20 °C", "", {1.0 / 3, 0.1}},
                  {"density_at_20_c_kg_m3", "density", "kg/m³", {998.2067, 0.0005}}};
  r.notes = {measurement::note::Said{"a \"note\""}, measurement::note::Said{"two"}};
  return r;
}

std::vector<std::string> keys(const Json& j) {
  std::vector<std::string> all;
  for (const auto& item : j.items()) all.push_back(item.key());
  return all;
}

TEST(JsonLine, IsOneLineThatReadsBackUnrounded) {
  const std::string text = json_line(two_quantities());
  EXPECT_EQ(text.find('\n'), std::string::npos);
  Json j = Json::parse(text);
  EXPECT_EQ(j["sg_20_20"]["value"].get<double>(), 1.0 / 3);
  EXPECT_EQ(j["sg_20_20"]["standard_uncertainty"].get<double>(), 0.1);
  EXPECT_EQ(j["sg_20_20"]["expanded_uncertainty"].get<double>(),
            two_quantities().quantities[0].value.expanded());
  EXPECT_EQ(j["sg_20_20"]["unit"], "");
  EXPECT_EQ(j["density_at_20_c_kg_m3"]["unit"], "kg/m³");
  EXPECT_EQ(j["notes"], Json::parse(R"(["a \"note\"","two"])"));
}

TEST(JsonLine, KeepsTheOrderOfItsKeys) {
  const Json j = Json::parse(json_line(two_quantities(), {{"line", 7}, {"state", "measured"}}));
  EXPECT_EQ(keys(j), (std::vector<std::string>{"line", "state", "sg_20_20", "density_at_20_c_kg_m3",
                                               "notes"}));
  EXPECT_EQ(keys(j["sg_20_20"]), (std::vector<std::string>{"value", "standard_uncertainty",
                                                           "expanded_uncertainty", "unit"}));
  EXPECT_EQ(j["line"], 7);
  EXPECT_EQ(j["state"], "measured");
}

TEST(JsonLine, HasNotesEvenIfThereAreNone) { EXPECT_EQ(json_line({}), R"({"notes":[]})"); }

TEST(JsonLine, ReplacesBytesThatAreNoText) {
  measurement::Result r;
  r.notes = {measurement::note::Said{"bad \xff byte"}, measurement::note::Said{"cut \xc3"}};
  Json j = Json::parse(json_line(r));
  EXPECT_EQ(j["notes"][0], "bad \uFFFD byte");
  EXPECT_EQ(j["notes"][1], "cut \uFFFD");
}

TEST(JsonString, QuotesWhatANameMayHold) {
  for (const std::string name : {R"(a"b\c)", "=cmd", "<b>", "'; DROP TABLE instrument; --", "é",
                                 "line\nend\ttab", "\x1b[31m", ""}) {
    const std::string quoted = text::dump(name);
    EXPECT_EQ(Json::parse(quoted), name);
    EXPECT_EQ(quoted.find('\x1b'), std::string::npos);
    EXPECT_EQ(quoted.find('\n'), std::string::npos);
  }
}

// Programs rely on these keys: a change is a break, not a correction.
TEST(JsonKeys, AreStable) {
  std::vector<std::string> found;
  for (const auto& s : physics::offered_scales()) found.push_back(measurement::label_of(s).key);
  EXPECT_EQ(found, (std::vector<std::string>{"sg_20_20", "sg_60f_60f", "sg_in_air_20_20",
                                             "density_at_20_c_kg_m3", "plato", "brix", "sugar_g_l",
                                             "baume_145", "oechsle"}));
  const auto h =
      measurement::Calibrated::never_checked(instruments::ordinary_hydrometer(physics::sg_20_20));
  instruments::HydrometerReading original, present;
  original.indication = 1.050;
  present.indication = 1.010;
  const auto alcohol = measurement::alcohol(h, present, h, original);
  found.clear();
  for (const auto& q : alcohol.result.quantities) found.push_back(q.key);
  EXPECT_EQ(found,
            (std::vector<std::string>{
                "alcohol_percent_vol", "sg_20_20_original", "sg_20_20_present",
                "alcohol_percent_mass", "original_extract_percent", "real_extract_percent",
                "apparent_extract_percent", "apparent_attenuation_percent",
                "real_attenuation_percent", "energy_kj_per_100_ml", "rule_of_thumb_percent_vol"}));
}

}  // namespace
}  // namespace areo::wording
