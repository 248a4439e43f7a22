// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/date_order.hpp"

#include <gtest/gtest.h>

#include "areo/core/error.hpp"

namespace areo {
namespace {

constexpr DateOrder day = DateOrder::day_first, month = DateOrder::month_first,
                    unknown = DateOrder::unknown;

TEST(DateOrders, ADateShowsItsOrderIfOnePartIsNoMonth) {
  struct Case {
    const char* text;
    DateOrder plain, dotted;
  };
  for (const Case& c : {Case{"27/11/2026", day, unknown}, Case{"11/27/2026 6 pm", month, unknown},
                        Case{"27-11-2026", day, unknown}, Case{"11-27-2026", month, unknown},
                        Case{"27.11.2026", unknown, day}, Case{"27. 11. 2026 18:00", unknown, day},
                        Case{"11.27.2026", unknown, month}, Case{"3/4/2026", unknown, unknown},
                        Case{"2026-11-27", unknown, unknown}, Case{"27 Nov 2026", unknown, unknown},
                        Case{"27/11/26", unknown, unknown}, Case{"32/13/2026", unknown, unknown},
                        Case{"", unknown, unknown}, Case{"yesterday", unknown, unknown}}) {
    EXPECT_EQ(orders_shown_by(c.text).plain, c.plain) << c.text;
    EXPECT_EQ(orders_shown_by(c.text).dotted, c.dotted) << c.text;
  }
}

TEST(DateOrders, DecideWhereBothReadingsArePossible) {
  EXPECT_EQ(iso_from_table("3/4/2026", {day, day}), "2026-04-03");
  EXPECT_EQ(iso_from_table("3/4/2026 6 pm", {month, day}), "2026-03-04T18:00:00");
  EXPECT_EQ(iso_from_table("3-4-2026", {month, day}), "2026-03-04");
  EXPECT_EQ(iso_from_table("3.4.2026", {month, day}), "2026-04-03") << "dots have their own";
  EXPECT_EQ(iso_from_table("3.4.2026", {unknown, month}), "2026-03-04");
  // Of one reading only, it counts for nothing.
  EXPECT_EQ(iso_from_table("27/11/2026", {month, day}), "2026-11-27");
  EXPECT_EQ(iso_from_table("11.27.2026", {unknown, month}), "2026-11-27");
  EXPECT_EQ(iso_from_table("2026-03-04", {month, month}), "2026-03-04");
  EXPECT_THROW((void)iso_from_table("3/4/2026", {}), ParseError);
  EXPECT_THROW((void)iso_from_table("3.4.2026", {day, unknown}), ParseError);
  EXPECT_THROW((void)iso_from_table("31/11/2026", {day, day}), ParseError);
  // Not a date of a table: whoever reads it says why.
  EXPECT_EQ(iso_from_table("yesterday", {day, day}), "yesterday");
}

}  // namespace
}  // namespace areo
