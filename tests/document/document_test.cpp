// SPDX-License-Identifier: GPL-3.0-or-later
// A document and its faces: each block in a page, as text and as Markdown.
#include "areo/document/document.hpp"

#include <gtest/gtest.h>

namespace areo::document {
namespace {

using Lines = std::vector<std::string>;

Document every_block() {
  Document d{"A title"};
  d.add(Headline{{"Large words"}, {"what belongs to them"}});
  d.section("First");
  d.add(Paragraph{"A paragraph."});
  d.add(Bullets{{"one", "two"}});
  d.add(Bullets{});
  d.add(Subheading{"Within it"});
  d.add(CaptionedTable{"A table", {{"name", "value"}, {"a", "1"}}});
  d.add(Caution{"mind the step"});
  d.add(Picture{"<svg></svg>", "A picture", true});
  d.footer.emplace_back("made by hand");
  return d;
}

TEST(Document, KeepsWhatIsAddedInItsSection) {
  const Document d = every_block();
  ASSERT_EQ(d.opening.size(), 1u);
  ASSERT_EQ(d.sections.size(), 1u);
  EXPECT_EQ(d.sections.front().blocks.size(), 7u);
}

TEST(Document, AsText) {
  EXPECT_EQ(text_of(every_block(), 60),
            (Lines{"A title", "", "Large words", "  what belongs to them", "", "First", "-----",
                   "A paragraph.", "- one", "- two", "", "Within it", "A table", "  name  value",
                   "  a     1", "caution: mind the step", "", "made by hand"}));
}

TEST(Document, AsMarkdown) {
  EXPECT_EQ(markdown_of(every_block()), (Lines{"# A title",
                                               "",
                                               "**Large words**",
                                               "",
                                               "- what belongs to them",
                                               "",
                                               "## First",
                                               "",
                                               "A paragraph.",
                                               "",
                                               "- one",
                                               "- two",
                                               "",
                                               "### Within it",
                                               "",
                                               "A table",
                                               "",
                                               "| name | value |",
                                               "|---|---|",
                                               "| a | 1 |",
                                               "",
                                               "**Caution:** mind the step",
                                               "",
                                               "made by hand",
                                               ""}));
}

TEST(Document, AsAPageHasThePictureToo) {
  const std::string page = page_of(every_block());
  std::size_t at = 0;
  for (const char* part :
       {"<h1>A title</h1>", "<div class=\"headline\">", "Large words", "<h2>First</h2>",
        "<p>A paragraph.</p>", "<li>one</li>", "<h3>Within it</h3>", "<caption>A table</caption>",
        "<p class=\"caution\">mind the step</p>", "<figure", "<svg></svg>", "made by hand"}) {
    const std::size_t found = page.find(part, at);
    ASSERT_NE(found, std::string::npos) << part << " is not behind the one before in\n" << page;
    at = found;
  }
}

TEST(Document, HasItsCautionAtBothEnds) {
  Document d = every_block();
  d.caution = "no promise";
  d.end = "the end";
  const Lines text = text_of(d, 60);
  EXPECT_EQ(text[1], "no promise");
  EXPECT_EQ(text[text.size() - 3], "no promise");
  EXPECT_EQ(text.back(), "the end");
  EXPECT_EQ(markdown_of(d).back(), "the end");
}

TEST(Document, IsWrittenAsItIs) {
  Document d{"<b>|*"};
  d.add(Paragraph{"<script>"});
  EXPECT_EQ(page_of(d).find("<script>"), std::string::npos);
  EXPECT_EQ(markdown_of(d).front().find("|*"), std::string::npos);
}

}  // namespace
}  // namespace areo::document
