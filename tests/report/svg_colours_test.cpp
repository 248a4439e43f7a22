#include "report/svg_colours.hpp"

#include <gtest/gtest.h>

#include "areo/report/chart.hpp"

namespace areo::report {
namespace {

constexpr const char* symbols =
    "<defs>\n<circle id='a' stroke='currentColor' r='1'/>"
    "<use xlink:href='#a' id='b' fill='currentColor' stroke='none'/></defs>";

TEST(PlainColours, AFilledSymbolIsFilledWhereItIsPlaced) {
  EXPECT_EQ(with_plain_colours(std::string{symbols} + "<use xlink:href='#b' color='red'/>"),
            "<defs>\n<circle id='a' r='1'/><use xlink:href='#a' id='b' stroke='none'/></defs>"
            "<use stroke='red' fill='red' xlink:href='#b' color='red'/>");
}

TEST(PlainColours, AnOpenSymbolStaysOpen) {
  EXPECT_TRUE(with_plain_colours(std::string{symbols} + "<use xlink:href='#a' color='red'/>")
                  .ends_with("<use stroke='red' xlink:href='#a' color='red'/>"));
}

TEST(PlainColours, AGroupGetsItsOwnColour) {
  EXPECT_EQ(with_plain_colours("<g color=\"blue\" stroke=\"currentColor\"><text>x</text></g>"),
            "<g color=\"blue\" stroke=\"blue\"><text>x</text></g>");
}

// The word in a text is no colour, and a picture that ends early loses nothing.
TEST(PlainColours, AllElseStays) {
  for (const char* svg : {"<text>currentColor &lt;</text>", "<g color='red'", "", "a > b"})
    EXPECT_EQ(with_plain_colours(svg), svg);
}

// What gnuplot writes today; another version may name its symbols otherwise.
TEST(PlainColours, NothingIsLeftInAPicture) {
  Chart c;
  c.y_title = "gravity";
  c.points = {{"reading", {{0, 1.04, 0.001}, {1, 1.03, 0.001}}}, {"odd", {{2, 1.02, 0.001}}, true}};
  const std::string svg = draw(script_of(c, PictureFormat::svg));
  EXPECT_EQ(svg.find("currentColor"), std::string::npos);
  EXPECT_NE(svg.find("<use stroke='"), std::string::npos);
}

}  // namespace
}  // namespace areo::report
