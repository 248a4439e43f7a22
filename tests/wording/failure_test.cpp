// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/failure.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>

namespace areo::wording {
namespace {

TEST(FailureText, PutsTheCaretBelowTheFault) {
  EXPECT_EQ(failure_text(ParseError{"no scale", "12Q", 2, 1, "write 12P"}),
            "areo: error: no scale\n"
            "  12Q\n"
            "    ^\n"
            "hint: write 12P\n");
  EXPECT_EQ(failure_text(ParseError{"no scale", "12 furlong", 3, 7}),
            "areo: error: no scale\n"
            "  12 furlong\n"
            "     ^~~~~~~\n");
}

TEST(FailureText, CountsCharactersAndNotBytes) {
  EXPECT_EQ(
      failure_text(ParseError{"no", "−12 °Px", 6, 4}),  // the minus and the degree take 3 and 2
      "areo: error: no\n"
      "  −12 °Px\n"
      "      ^~~\n");
}

TEST(FailureText, KeepsTheCaretInsideOrAtTheEnd) {
  EXPECT_EQ(failure_text(ParseError{"cut off", "12", 2, 0}), "areo: error: cut off\n  12\n    ^\n");
  EXPECT_EQ(failure_text(ParseError{"far", "12", 99, 99}), "areo: error: far\n  12\n    ^\n");
  EXPECT_EQ(failure_text(ParseError{"nothing", "", 0, 0, "write it"}),
            "areo: error: nothing\nhint: write it\n");
}

TEST(FailureText, IsWithoutCaretForOtherErrors) {
  EXPECT_EQ(failure_text(Error{Errc::domain, "too hot", "cool it"}),
            "areo: error: too hot\nhint: cool it\n");
  EXPECT_EQ(failure_text(Error{Errc::file, "gone"}), "areo: error: gone\n");
}

TEST(FailureText, NeverDrivesATerminal) {
  const std::string text =
      failure_text(ParseError{"'\x1b[2J' is odd\n", "\x1b[2J\r12", 0, 4, "\x1b]0;x\x07"});
  for (const char c : {'\x1b', '\r', '\x07'}) EXPECT_EQ(text.find(c), std::string::npos);
  EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 4);
}

TEST(FailureJson, IsOneObjectWithFixedKeys) {
  EXPECT_EQ(failure_json(Error{Errc::store, "no \"stem\"", "look"}),
            R"({"error":{"code":"store","message":"no \"stem\"","hint":"look"}})");
  EXPECT_EQ(failure_json(ParseError{"no scale", "12Q", 2, 1, ""}),
            R"({"error":{"code":"parse","message":"no scale","hint":"","column":3}})");
  EXPECT_EQ(failure_json(ParseError{"no scale", "12Q", 2, 1, ""}, 7),
            R"({"error":{"code":"parse","message":"no scale","hint":"","line":7,"column":3}})");
}

TEST(FailureJson, CanAlwaysBeReadBack) {
  const std::string text = failure_json(Error{Errc::domain, "\xff\x1b\n\"", "\xc3"});
  auto j = nlohmann::json::parse(text);
  EXPECT_EQ(j["error"]["code"], "domain");
  EXPECT_EQ(text.find('\x1b'), std::string::npos);
  EXPECT_EQ(text.find('\n'), std::string::npos);
}

TEST(FailureJson, HasAWordForEveryCode) {
  const std::pair<Errc, const char*> words[] = {{Errc::parse, "parse"},
                                                {Errc::domain, "domain"},
                                                {Errc::no_convergence, "no_convergence"},
                                                {Errc::inconsistent, "inconsistent"},
                                                {Errc::file, "file"},
                                                {Errc::store, "store"}};
  for (const auto& [code, word] : words)
    EXPECT_EQ(nlohmann::json::parse(failure_json(Error{code, "x"}))["error"]["code"], word);
}

}  // namespace
}  // namespace areo::wording
