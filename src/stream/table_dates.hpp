// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The dates of one table: whether the day or the month stands first is the same in all of its rows,
// and any row may show it.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "areo/core/date_order.hpp"

namespace areo::stream {

class TableDates {
 public:
  /// @param said   by whoever knows the table; unknown = its rows show it
  /// @param usual  where they do not
  TableDates(DateOrder said, DateOrder usual) : said_{said}, usual_{usual} {}
  /// Of every row, before any is read.
  void look_at(std::string_view cell, std::size_t line);
  /// A cell in ISO 8601; one of another form as it is.
  /// @throws ParseError for a date that could be two days: with both readings of the first such row
  [[nodiscard]] std::string iso(const std::string& cell) const;
  /// What the rows showed, where dates depend on it.
  [[nodiscard]] std::vector<std::string> words() const;

 private:
  // What the rows of one way to write show, and in which of them it was first seen.
  struct Shown {
    std::size_t day_first = 0, month_first = 0, unclear = 0;
    std::string readings = {};  // both, of the first row that is not clear
    [[nodiscard]] DateOrder order() const;
    void look_at(DateOrder order, std::size_t line);
    [[nodiscard]] std::string why_unclear() const;
  };
  [[nodiscard]] DateOrders orders() const;
  DateOrder said_, usual_;
  Shown plain_, dotted_;  // with slashes and dashes; with dots
};

}  // namespace areo::stream
