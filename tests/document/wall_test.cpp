// SPDX-License-Identifier: GPL-3.0-or-later
// What a sheet for the wall and one for a pen have beyond a table.
#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "areo/core/error.hpp"
#include "areo/document/sheet.hpp"
#include "areo/publish/pdf.hpp"

namespace areo::document {
namespace {

bool has(const std::string& all, const std::string& part) {
  return all.find(part) != std::string::npos;
}

SheetHead card() {
  SheetHead head;
  head.title = "stem-1";
  head.columns = {{"temperature_c", "liquid", "°C", 2}, {"correction", "at 1.040", "", 7}};
  head.headline = {{"SUBTRACT 0.0017"}, {"± 0.0009"}};
  head.cautions = {"Mind the glass."};
  head.setup.for_the_wall = true;
  return head;
}

std::string written(SheetFormat format, const SheetHead& head, int rows = 1) {
  std::ostringstream out;
  const auto sheet = sheet_writer(format, out, head);
  for (int i = 0; i < rows; ++i) sheet->row({"20", "-0.0017"});
  sheet->end({"a note"});
  return out.str();
}

TEST(Headline, StandsBelowTheTitleInEveryFormat) {
  for (const auto format :
       {SheetFormat::text, SheetFormat::csv, SheetFormat::markdown, SheetFormat::html}) {
    const std::string out = written(format, card());
    const bool csv = format == SheetFormat::csv;
    std::size_t at = out.find(format == SheetFormat::html ? "<h1>stem-1" : "stem-1");
    for (const char* part : {"SUBTRACT 0.0017", "± 0.0009", csv ? "Mind the glass." : "-0.0017",
                             csv ? "-0.0017" : "Mind the glass."}) {
      at = out.find(part, at + 1);
      EXPECT_NE(at, std::string::npos) << part << " in its order:\n" << out;
    }
  }
  EXPECT_TRUE(has(written(SheetFormat::markdown, card()), "**Caution:** Mind the glass"));
  EXPECT_TRUE(has(written(SheetFormat::text, card()), "caution: Mind the glass."));
}

TEST(Headline, IsTakenAsText) {
  SheetHead head = card();
  head.headline = {{"<script>x</script>"}, {"<script>y</script>\n"}};
  head.cautions = {"<script>z</script>"};
  EXPECT_FALSE(has(written(SheetFormat::html, head), "<script"));
  const std::string markdown = written(SheetFormat::markdown, head);
  for (std::size_t at = 0; (at = markdown.find("<script", at)) != std::string::npos; ++at)
    EXPECT_EQ(markdown.at(at - 1), '\\') << markdown;
  EXPECT_TRUE(has(written(SheetFormat::csv, head), "# note: <script>y</script>\uFFFD\n"));
}

TEST(Headline, WithoutOneThereIsNone) {
  SheetHead head = card();
  head.headline = {};
  EXPECT_FALSE(has(written(SheetFormat::html, head), "class=\"headline\""));
}

TEST(WallTypes, GrowAndStayWithinTheSheet) {
  const auto types = wall_types(card());
  ASSERT_GT(types.size(), 10u);
  for (std::size_t i = 1; i < types.size(); ++i) {
    EXPECT_GE(types[i].size_pt, types[i - 1].size_pt);
    EXPECT_GE(types[i].row_space, types[i - 1].row_space);
    EXPECT_TRUE(types[i].size_pt > types[i - 1].size_pt ||
                types[i].row_space > types[i - 1].row_space);
  }
  SheetHead wide = card();
  while (wide.columns.size() < 6) wide.columns.push_back(wide.columns.back());
  EXPECT_LT(wall_types(wide).back().size_pt, types.back().size_pt);
  SheetHead letter = wide;
  letter.setup.paper = Paper::letter;
  EXPECT_GE(wall_types(letter).back().size_pt, wall_types(wide).back().size_pt);
  while (wide.columns.size() < 20) wide.columns.push_back(wide.columns.back());
  EXPECT_THROW((void)wall_types(wide), Error);
}

// Cells may be short under long names, but a name breaks between its words only.
TEST(WallTypes, CountTheLongestWordOfAName) {
  SheetHead head = card();
  for (int i = 0; i < 6; ++i) head.columns.push_back({"x", "x", "", 1});
  const double narrow = wall_types(head).back().size_pt;
  for (int i = 2; i < 8; ++i) head.columns[static_cast<std::size_t>(i)].name = "temperature";
  const double wide = wall_types(head).back().size_pt;
  for (int i = 2; i < 8; ++i) head.columns[static_cast<std::size_t>(i)].name = "at at at at";
  EXPECT_LT(wide, narrow);
  EXPECT_GT(wall_types(head).back().size_pt, wide);
}

TEST(Sheets, AreCounted) {
  const std::string one =
      "<<\n/Count 3\n>>\n1 0 obj\n<<\n/Type /Pages\n/Kids [ 6 0 R ]\n/Count 1\n>>\nendobj\n"
      "<<\n/Count 7\n/First 9 0 R\n>>\n";
  EXPECT_EQ(publish::sheets(one), 1);
  for (const char* bad : {"", "/Type /Pages\n", "/Type /Pages\n>>\n/Count 1\n>>",
                          "/Type /Pages\n/Count x\n>>", "/Type /Pages\n/Count 0\n>>"})
    EXPECT_THROW((void)publish::sheets(bad), Error) << bad;
}

TEST(OneSheet, TakesTheLargestSizeThatFits) {
  const auto page = [](std::size_t size) {
    std::string html =
        "<style>@page { size: 100mm 100mm; margin: 10mm; } body { margin: 0; } p { height: 10mm; "
        "margin: 0; }</style>";
    html += "<title>lines " + std::to_string(size + 1) + "</title>";
    for (std::size_t i = 0; i <= size; ++i) html += "<p>x</p>";
    return html;
  };
  for (const std::size_t sizes : {1u, 8u, 30u}) {
    const std::string pdf =
        publish::pdf_on_one_sheet(sizes, [&](std::size_t size) { return page(size); });
    EXPECT_EQ(publish::sheets(pdf), 1);
    const std::size_t largest = std::min<std::size_t>(sizes, 8);  // 80 mm are 8 lines
    EXPECT_TRUE(has(pdf, "/Title (lines " + std::to_string(largest) + ")")) << sizes;
  }
  EXPECT_THROW((void)publish::pdf_on_one_sheet(3, [&](std::size_t size) { return page(size + 8); }),
               Error);
  EXPECT_THROW((void)publish::pdf_on_one_sheet(0, page), Error);
}

TEST(PenSheet, LiesOnItsSideWithColumnsOfTheirWidths) {
  SheetHead head = card();
  head.setup = {};
  head.setup.paper = Paper::letter;
  head.setup.landscape = true;
  head.setup.for_a_pen = true;
  const std::string html = written(SheetFormat::html, head);
  EXPECT_TRUE(has(html, "size: letter landscape;"));
  EXPECT_TRUE(has(html, "<colgroup><col style=\"width: 22.2%\"><col style=\"width: 77.8%\">"));
  EXPECT_TRUE(has(html, "height: 9mm"));
  EXPECT_FALSE(has(written(SheetFormat::html, card()), "<col "));
}

}  // namespace
}  // namespace areo::document
