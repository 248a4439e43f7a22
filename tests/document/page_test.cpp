// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/document/page.hpp"

#include <gtest/gtest.h>

#include "areo/core/error.hpp"

namespace areo::document {
namespace {

bool has(const std::string& all, const std::string& part) {
  return all.find(part) != std::string::npos;
}

TEST(HtmlText, EscapesWhatWouldBeMarkup) {
  EXPECT_EQ(html_text("<b onclick='x'>\"R&D\"</b>"),
            "&lt;b onclick=&#39;x&#39;&gt;&quot;R&amp;D&quot;&lt;/b&gt;");
  EXPECT_EQ(html_text("a\x1b[31m\nb"), "a\uFFFD[31m\uFFFDb");
}

TEST(Page, HoldsItsPartsInOrder) {
  Page page{"PT-1"};
  page.headline({{"5.1 % vol"}, {"on 2026-03-12"}});
  page.section("Story");
  page.paragraph("It fell.");
  page.list({"one", "two"});
  page.subsection("More");
  page.caution("Mind the glass.");
  page.footer("Made today.");
  const std::string html = page.html();
  std::size_t at = 0;
  for (const char* part :
       {"<!DOCTYPE html>", "<html lang=\"en\">", "<title>PT-1</title>", "<h1>PT-1</h1>",
        "<strong>5.1 % vol</strong>", "<p>on 2026-03-12</p>", "<h2>Story</h2>", "<p>It fell.</p>",
        "<li>one</li>", "<li>two</li>", "<h3>More</h3>", "<p class=\"caution\">Mind the glass.</p>",
        "</main>", "<p>Made today.</p>", "</html>"}) {
    const std::size_t next = html.find(part, at);
    ASSERT_NE(next, std::string::npos) << part;
    at = next;
  }
}

TEST(Page, TakesEveryTextAsText) {
  const std::string evil = "<script>x</script>\"'&";
  Page page{evil};
  page.headline({{evil}, {evil}});
  page.section(evil);
  page.subsection(evil);
  page.paragraph(evil);
  page.caution(evil);
  page.list({evil});
  page.table(evil, {{evil}, {evil}});
  page.figure("<svg/>", evil);
  page.footer(evil);
  EXPECT_FALSE(has(page.html(), "<script"));
  EXPECT_FALSE(has(page.html(), "\"'&"));
}

TEST(Page, ATableNamesTheColumnInEveryCell) {
  Page page{"t"};
  page.table("what was read", {{"no.", "when"}, {"1", "2026-03-02 10:00"}, {"2"}});
  const std::string html = page.html();
  EXPECT_TRUE(has(html, "<caption>what was read</caption>"));
  EXPECT_TRUE(has(html, "<th scope=\"col\">when</th>"));
  EXPECT_TRUE(has(html, "<td class=\"short\" data-column=\"when\">2026-03-02 10:00</td>"));
  EXPECT_TRUE(has(html, "data-column=\"when\"></td>")) << "a short row is filled up";
  EXPECT_THROW(page.table("t", {}), Error);
  EXPECT_THROW(page.table("t", {{"a"}, {"1", "2"}}), Error);
}

TEST(Page, LongCellsMayBreak) {
  Page page{"t"};
  page.table("t", {{"what"}, {"a long explanation of a number"}});
  EXPECT_TRUE(has(page.html(), "<td data-column=\"what\">a long"));
}

TEST(Page, AnEmptyListIsNone) {
  Page page{"t"};
  page.list({});
  EXPECT_FALSE(has(page.html(), "<ul"));
}

// As a part, it takes the colour of the page's text, light or dark.
TEST(Page, APictureIsPartOfThePage) {
  Page page{"t"};
  page.figure("<svg fill=\"currentColor\"></svg>", "Gravity.", true);
  EXPECT_TRUE(has(page.html(), "<figure class=\"half\">\n<svg fill=\"currentColor\"></svg>"));
  EXPECT_TRUE(has(page.html(), "<figcaption>Gravity.</figcaption>"));
}

TEST(Page, APictureMayStandAlone) {
  const std::string html = picture_page("<PT-1>", "<svg></svg>");
  EXPECT_TRUE(has(html, "<title>&lt;PT-1&gt;</title>"));
  EXPECT_TRUE(has(html, "<body>\n<svg></svg></body>"));
}

TEST(Page, LiesOnThePaperThatItIsFor) {
  EXPECT_TRUE(has(Page("t", {.paper = Paper::letter}).html(), "@page { size: letter; }"));
  EXPECT_TRUE(has(Page("t", {.paper = Paper::a4}).html(), "@page { size: A4; }"));
  EXPECT_FALSE(has(Page("t").html(), "{ size:"));
}

// Neither its string, nor the style, nor the page can be ended by it.
TEST(Page, WhatStandsOnEverySheetIsText) {
  const std::string html = Page("t", {.running = "a\"b\\c</style>&"}).html();
  EXPECT_TRUE(
      has(html, R"(@top-right { content: "a\000022b\00005cc\00003c/style\00003e\000026"; })"))
      << html;
}

}  // namespace
}  // namespace areo::document
