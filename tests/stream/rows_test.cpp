// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/stream/rows.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "areo/core/error.hpp"

namespace areo::stream {
namespace {

using notebook::Cell;
using notebook::Column;
using notebook::Table;

const notebook::Column text{.name = "note", .text = true, .may_be_nothing = false};
const notebook::Column text_or_nothing{.name = "due", .text = true, .may_be_nothing = true};
const notebook::Column number{.name = "indication", .text = false, .may_be_nothing = true};
const notebook::Table table{"reading", {{"id", false, false}, {"indication", false, true}, text}};

// Everything that could go wrong in a file, a terminal or a spreadsheet.
const std::string hostile[] = {"",
                               " ",
                               "plain",
                               "=cmd|x",
                               "+1",
                               "-1.5Bx",
                               "@x",
                               "'quoted",
                               "''",
                               "back\\slash \\x41",
                               "a,b;c\td",
                               "\"q\"",
                               "line\nend\r\n",
                               "\x1b[31mred\x07",
                               std::string("nul\0byte", 8),
                               "\x7f",
                               "\xc2\x85 next line",
                               "é水🍐",
                               "\xff\xfe",
                               "\xc3",
                               "\xed\xa0\x80",
                               "\xf5\x80\x80\x80",
                               "<script>x</script>",
                               "# no comment",
                               std::string(100000, 'n')};

const notebook::Cell numbers[] = {
    std::int64_t{0}, std::int64_t{-7}, std::numeric_limits<std::int64_t>::max(),
    0.1 + 0.2,       1.0 / 3,          -1e-300,
    1e300,           5e-324,           std::monostate{}};

TEST(RowJson, BringsEveryTextBack) {
  for (const std::string& t : hostile) {
    const std::string line = row_json(table, {std::int64_t{7}, 1.5, t});
    EXPECT_EQ(line.find('\n'), std::string::npos);
    EXPECT_EQ(line.find('\x1b'), std::string::npos);
    const auto row = row_from_json(line);
    EXPECT_EQ(row.table, "reading");
    ASSERT_EQ(row.cells.size(), 3u);
    EXPECT_EQ(row.cells[2].first, "note");
    EXPECT_EQ(std::get<std::string>(row.cells[2].second), t);
  }
}

TEST(RowJson, BringsEveryNumberBack) {
  for (const notebook::Cell& n : numbers)
    EXPECT_EQ(row_from_json(row_json(table, {std::int64_t{7}, n, ""})).cells[1].second, n);
}

TEST(RowJson, LooksAsDocumented) {
  EXPECT_EQ(row_json(table, {std::int64_t{7}, 1.5, "x"}),
            R"({"table":"reading","row":{"id":7,"indication":1.5,"note":"x"}})");
  EXPECT_EQ(row_json(table, {std::int64_t{7}, std::monostate{}, "\xff"}),
            R"({"table":"reading","row":{"id":7,"indication":null,"note":{"hex":"ff"}}})");
}

TEST(RowJson, RefusesWhatIsNoRow) {
  for (const char* bad :
       {"", "x", "{", "[]", "{}", R"({"table":"reading"})", R"({"table":1,"row":{}})",
        R"({"table":"reading","row":[]})", R"({"table":"reading","row":{"id":[1]}})",
        R"({"table":"reading","row":{"note":{"hex":"f"}}})",
        R"({"table":"reading","row":{"note":{"hex":"zz"}}})",
        R"({"table":"reading","row":{"note":true}})"})
    EXPECT_THROW((void)row_from_json(bad), ParseError) << bad;
}

TEST(RowCell, BringsEveryTextBack) {
  for (const std::string& t : hostile) {
    const std::string cell = row_cell(t);
    EXPECT_EQ(std::get<std::string>(cell_from_row(cell, text)), t);
    for (const char c : cell) EXPECT_FALSE(static_cast<unsigned char>(c) < 0x20 || c == 0x7f) << t;
    EXPECT_EQ(cell.find_first_of("=+-@") == 0, false) << cell;
  }
}

TEST(RowCell, BringsEveryNumberBack) {
  for (const notebook::Cell& n : numbers) EXPECT_EQ(cell_from_row(row_cell(n), number), n);
  // A whole number comes back as one; the file's own column makes a real of it again.
  EXPECT_EQ(cell_from_row(row_cell(5.0), number), notebook::Cell{std::int64_t{5}});
}

TEST(RowCell, ToldNothingFromAnEmptyText) {
  EXPECT_EQ(cell_from_row("", text), notebook::Cell{std::string{}});
  EXPECT_EQ(cell_from_row("", text_or_nothing), notebook::Cell{std::monostate{}});
  EXPECT_EQ(cell_from_row("", number), notebook::Cell{std::monostate{}});
}

TEST(RowCell, RefusesWhatIsNoCell) {
  for (const char* bad : {"x", "1x", "1,5", " 1", "nan?"})
    EXPECT_THROW((void)cell_from_row(bad, number), ParseError) << bad;
  for (const char* bad : {"\\", "\\y", "\\x", "\\x1", "\\xzz"})
    EXPECT_THROW((void)cell_from_row(bad, text), ParseError) << bad;
}

TEST(Members, AreTextsAndNumbers) {
  EXPECT_EQ(members_from_json(R"({"gravity":1.012,"note":"x","person":null})"),
            (Members{{"gravity", "1.012"}, {"note", "x"}, {"person", ""}}));
  for (const char* bad : {"[]", "1", "x", R"({"a":[1]})", R"({"a":{"b":1}})", R"({"a":true})"})
    EXPECT_THROW((void)members_from_json(bad), ParseError) << bad;
}

std::vector<Members> objects_of(std::string_view objects) {
  std::vector<Members> all;
  each_object(objects, [&](const auto& members) { all.push_back(members()); });
  return all;
}

TEST(Objects, ComeFromAnArrayOrFromLines) {
  const std::vector<Members> two{{{"a", "1"}}, {{"a", "2"}}};
  EXPECT_EQ(objects_of(R"( [{"a":1}, {"a":2}] )"), two);
  EXPECT_EQ(objects_of("{\"a\":1}\n\n{\"a\":2}\n"), two);
  EXPECT_TRUE(objects_of("[]").empty());
  EXPECT_THROW((void)objects_of("[1"), ParseError);
}

TEST(Objects, ABadOneIsRefusedByItself) {
  int good = 0, bad = 0;
  each_object(R"([{"a":1},{"a":[1]},7,{"a":"x"}])", [&](const auto& members) {
    try {
      (void)members();
      ++good;
    } catch (const ParseError&) {
      ++bad;
    }
  });
  EXPECT_EQ(good, 2);
  EXPECT_EQ(bad, 2);
}

}  // namespace
}  // namespace areo::stream
