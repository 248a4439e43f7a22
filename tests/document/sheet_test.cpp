// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/document/sheet.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "areo/core/error.hpp"
#include "areo/text/csv.hpp"

namespace areo::document {
namespace {

SheetHead small() {
  SheetHead head;
  head.title = "A table";
  head.lines = {"of numbers"};
  head.columns = {{"t_c", "temperature", "°C", 2}, {"rho", "density at 20 °C", "kg/m³", 7}};
  head.source = {"computed by areo", "[tanaka2001]"};
  return head;
}

std::string written(SheetFormat format, const SheetHead& head,
                    const std::vector<std::vector<std::string>>& rows) {
  std::ostringstream out;
  const auto sheet = sheet_writer(format, out, head);
  for (const auto& row : rows) sheet->row(row);
  sheet->summary({"±", "0.001"});
  sheet->end({"a note"});
  return out.str();
}

TEST(Sheet, TextStandsInColumns) {
  EXPECT_EQ(written(SheetFormat::text, small(), {{"5", "999.967"}, {"20", "998.207"}}),
            "A table\n"
            "of numbers\n"
            "               density\n"
            "temperature   at 20 °C\n"
            "         °C      kg/m³\n"
            "          5    999.967\n"
            "         20    998.207\n"
            "          ±      0.001\n"
            "a note\n"
            "computed by areo\n"
            "[tanaka2001]\n");
}

// More columns than a line holds: closer first, then a row on two lines; no number is lost.
TEST(Sheet, TextFoldsRowsThatAreTooWide) {
  SheetHead head = small();
  head.text_columns = 20;
  EXPECT_EQ(written(SheetFormat::text, head, {{"5", "999.967"}}),
            "A table\n"
            "of numbers\n"
            "            density\n"
            "                 at\n"
            "temperature   20 °C\n"
            "         °C   kg/m³\n"
            "          5 999.967\n"
            "          ±   0.001\n"
            "a note\n"
            "computed by areo\n"
            "[tanaka2001]\n");
  head.columns = {{"t_c", "t", "°C", 2}, {"a", "one", "g/L", 8}, {"b", "two", "", 8}};
  head.text_columns = 12;
  std::ostringstream out;
  sheet_writer(SheetFormat::text, out, head)->row({"5", "999.9671", "-1.00000"});
  EXPECT_EQ(out.str(),
            "A table\n"
            "of numbers\n"
            " t      one\n"
            "°C      g/L\n"
            "        two\n"
            " 5 999.9671\n"
            "   -1.00000\n");
}

TEST(Sheet, TextNamesItsColumnsAgainOnEverySheet) {
  const std::vector<std::vector<std::string>> rows(101, {"1", "2"});
  const std::string text = written(SheetFormat::text, small(), rows);
  std::size_t heads = 0;
  for (std::size_t at = 0; (at = text.find("temperature", at)) != std::string::npos; ++at) ++heads;
  EXPECT_EQ(heads, 3u);  // before rows 1, 51 and 101
  EXPECT_NE(text.find("\n\n"), std::string::npos);
}

// What areo writes it can read: the same five lines that its own tables have.
TEST(Sheet, CsvSaysWhereItComesFrom) {
  std::istringstream in{written(SheetFormat::csv, small(), {{"5", "-999.967"}})};
  text::CsvReader reader{in, "t.csv"};
  EXPECT_EQ(reader.comment("title"), "A table");
  EXPECT_EQ(reader.comment("source"), "computed by areo; [tanaka2001]");
  EXPECT_EQ(reader.comment("units"), "t_c = temperature, °C; rho = density at 20 °C, kg/m³");
  EXPECT_EQ(reader.comment("verified"), "computed");
  EXPECT_EQ(reader.comment("note"), "of numbers");
  EXPECT_EQ(reader.columns(), (std::vector<std::string>{"t_c", "rho"}));
  text::CsvRow row;
  ASSERT_TRUE(reader.next(row));
  EXPECT_EQ(row.cells, (std::vector<std::string>{"5", "-999.967"}));
  EXPECT_FALSE(reader.next(row)) << "neither summary nor notes are rows";
}

TEST(Sheet, NoCellRunsInASpreadsheet) {
  const std::string csv = written(SheetFormat::csv, small(), {{"=1+1", "a,b"}});
  EXPECT_NE(csv.find("'=1+1,\"a,b\"\n"), std::string::npos) << csv;
}

TEST(Sheet, MarkdownTakesEveryTextAsText) {
  SheetHead head = small();
  head.title = "a|b *c* <d> `e`\x1b[1m";
  const std::string text = written(SheetFormat::markdown, head, {{"x|y", "[z](u)"}});
  EXPECT_TRUE(text.starts_with("# a\\|b \\*c\\* \\<d\\> \\`e\\`\uFFFD\\[1m\n")) << text;
  EXPECT_NE(text.find("| temperature, °C | density at 20 °C, kg/m³ |\n|--:|--:|\n"
                      "| x\\|y | \\[z\\](u) |\n| ± | 0.001 |\n\na note\n"),
            std::string::npos)
      << text;
}

TEST(Sheet, HtmlIsAPageOfItsOwn) {
  SheetHead head = small();
  head.columns[1].name = "<b>";
  const std::string html = written(SheetFormat::html, head, {{"5", "<i>"}});
  EXPECT_TRUE(html.starts_with("<!DOCTYPE html>"));
  EXPECT_TRUE(html.ends_with("</html>\n"));
  for (const char* part : {"<caption>of numbers</caption>", "&lt;b&gt;", "&lt;i&gt;",
                           "<p>a note</p>", "@top-right { content: \"A table\"; }"})
    EXPECT_NE(html.find(part), std::string::npos) << part;
  EXPECT_EQ(html.find("<i>"), std::string::npos);
}

TEST(Sheet, ARowFillsItsColumns) {
  std::ostringstream out;
  for (const auto format :
       {SheetFormat::text, SheetFormat::csv, SheetFormat::markdown, SheetFormat::html}) {
    const auto sheet = sheet_writer(format, out, small());
    EXPECT_THROW(sheet->row({"1"}), Error);
    EXPECT_THROW(sheet->row({"1", "2", "3"}), Error);
    EXPECT_THROW(sheet->summary({}), Error);
    EXPECT_THROW((void)sheet_writer(format, out, {}), Error);
  }
}

}  // namespace
}  // namespace areo::document
