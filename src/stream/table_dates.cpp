// SPDX-License-Identifier: GPL-3.0-or-later
#include "table_dates.hpp"

#include <fmt/format.h>

#include <tuple>

#include "areo/core/error.hpp"

namespace areo::stream {
namespace {

// Why a date has two readings under these orders although it has one under those; else nothing.
std::string unclear_under(const DateOrders& orders, const DateOrders& clear,
                          std::string_view cell) {
  try {
    (void)iso_from_table(cell, orders);
  } catch (const ParseError& e) {
    try {
      (void)iso_from_table(cell, clear);
      return e.what();
    } catch (const ParseError&) {  // no date in either order: refused in its turn
    }
  }
  return "";
}

constexpr DateOrders days_first{DateOrder::day_first, DateOrder::day_first};
constexpr DateOrders plain_unknown{DateOrder::unknown, DateOrder::day_first};
constexpr DateOrders dotted_unknown{DateOrder::day_first, DateOrder::unknown};

}  // namespace

DateOrder TableDates::Shown::order() const {
  if (day_first == 0) return month_first == 0 ? DateOrder::unknown : DateOrder::month_first;
  return month_first == 0 ? DateOrder::day_first : DateOrder::unknown;
}

void TableDates::Shown::look_at(DateOrder order, std::size_t line) {
  if (order == DateOrder::day_first && day_first == 0) day_first = line;
  if (order == DateOrder::month_first && month_first == 0) month_first = line;
}

std::string TableDates::Shown::why_unclear() const {
  return fmt::format("{} in line {}, and {}", readings, unclear,
                     day_first == 0 ? std::string{"no row shows which"}
                                    : fmt::format("line {} has the day first, line {} the month",
                                                  day_first, month_first));
}

void TableDates::look_at(std::string_view cell, std::size_t line) {
  const DateOrders shown = orders_shown_by(cell);
  plain_.look_at(shown.plain, line);
  dotted_.look_at(shown.dotted, line);
  const auto look = [&](Shown& at, const DateOrders& unknown) {
    if (at.unclear != 0) return;
    at.readings = unclear_under(unknown, days_first, cell);
    if (!at.readings.empty()) at.unclear = line;
  };
  look(plain_, plain_unknown);
  look(dotted_, dotted_unknown);
}

DateOrders TableDates::orders() const {
  if (said_ != DateOrder::unknown) return {said_, said_};
  DateOrders orders;
  orders.plain = plain_.order();
  if (plain_.day_first == 0 && plain_.month_first == 0) orders.plain = usual_;
  // With dots the day comes first, unless the rows show something else.
  if (dotted_.month_first != 0) orders.dotted = dotted_.order();
  return orders;
}

std::string TableDates::iso(const std::string& cell) const {
  const DateOrders known = orders();
  for (const auto& [shown, unknown, order] : {std::tuple{&plain_, plain_unknown, known.plain},
                                              std::tuple{&dotted_, dotted_unknown, known.dotted}})
    if (order == DateOrder::unknown && !unclear_under(unknown, days_first, cell).empty())
      throw ParseError{shown->why_unclear(), cell, 0, cell.size(),
                       "if you know, say it: --unit date=day-first, or date=month-first"};
  return iso_from_table(cell, known);
}

std::vector<std::string> TableDates::words() const {
  std::vector<std::string> all;
  if (said_ != DateOrder::unknown) return all;
  if (plain_.unclear != 0 && plain_.day_first == 0 && plain_.month_first == 0 &&
      usual_ != DateOrder::unknown)
    all.push_back(fmt::format("dates have the {} first, as areo settings say",
                              usual_ == DateOrder::day_first ? "day" : "month"));
  for (const Shown* shown : {&plain_, &dotted_}) {
    if (shown->unclear == 0) continue;
    if (shown->order() == DateOrder::day_first && shown != &dotted_)  // dots always have that
      all.push_back(fmt::format("dates have the day first, as line {} shows", shown->day_first));
    if (shown->order() == DateOrder::month_first)
      all.push_back(
          fmt::format("dates have the month first, as line {} shows", shown->month_first));
  }
  return all;
}

}  // namespace areo::stream
