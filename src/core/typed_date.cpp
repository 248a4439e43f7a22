// SPDX-License-Identifier: GPL-3.0-or-later
#include "typed_date.hpp"

#include <fmt/format.h>

#include <array>
#include <cctype>
#include <chrono>
#include <utility>

#include "areo/core/error.hpp"

namespace areo {
namespace {

using std::chrono::days;
using std::chrono::sys_days;
using std::chrono::year_month_day;

constexpr std::array<std::string_view, 12> months{"january",   "february", "march",    "april",
                                                  "may",       "june",     "july",     "august",
                                                  "september", "october",  "november", "december"};
constexpr std::array<std::string_view, 7> weekdays{"sunday",   "monday", "tuesday", "wednesday",
                                                   "thursday", "friday", "saturday"};

[[noreturn]] void refuse(std::string_view text, std::string_view why, std::string hint) {
  throw ParseError{fmt::format("'{}' {}", text, why), std::string{text}, 0, text.size(),
                   std::move(hint)};
}

year_month_day date_of(int y, int m, int d) {
  return {std::chrono::year{y}, std::chrono::month{static_cast<unsigned>(m)},
          std::chrono::day{static_cast<unsigned>(d)}};
}

std::string iso(const year_month_day& d) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(d.year()),
                     static_cast<unsigned>(d.month()), static_cast<unsigned>(d.day()));
}

// "1 March"
std::string in_words(const year_month_day& d) {
  std::string month{months[static_cast<unsigned>(d.month()) - 1]};
  month[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(month[0])));
  return fmt::format("{} {}", static_cast<unsigned>(d.day()), month);
}

// Small letters, one space for any number of them, none at the ends.
std::string simplified(std::string_view text) {
  constexpr std::string_view no_break_space = "\u00a0";
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool wide = text.substr(i).starts_with(no_break_space);
    if (wide) ++i;
    if (wide || std::isspace(static_cast<unsigned char>(text[i])) != 0) {
      if (!out.empty() && out.back() != ' ') out += ' ';
    } else {
      out += static_cast<char>(std::tolower(static_cast<unsigned char>(text[i])));
    }
  }
  if (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

// What is left to read.
class Rest {
 public:
  explicit Rest(std::string_view text) : text_{text} {}
  [[nodiscard]] bool empty() const { return text_.empty(); }
  bool take(std::string_view what) {
    if (!text_.starts_with(what)) return false;
    text_.remove_prefix(what.size());
    return true;
  }
  struct Number {
    int value = 0;
    std::size_t digits = 0;
  };
  // At most four digits.
  std::optional<Number> number() {
    Number n;
    while (n.digits < text_.size() && text_[n.digits] >= '0' && text_[n.digits] <= '9') {
      if (n.digits == 4) return std::nullopt;
      n.value = 10 * n.value + (text_[n.digits++] - '0');
    }
    if (n.digits == 0) return std::nullopt;
    text_.remove_prefix(n.digits);
    return n;
  }
  std::string_view word() {
    std::size_t n = 0;
    while (n < text_.size() && text_[n] >= 'a' && text_[n] <= 'z') ++n;
    const std::string_view w = text_.substr(0, n);
    text_.remove_prefix(n);
    return w;
  }

 private:
  std::string_view text_;
};

// The place of a name in a list, from its first three letters on.
template <std::size_t N>
std::optional<int> named(std::string_view word, const std::array<std::string_view, N>& names) {
  for (std::size_t i = 0; i < N; ++i)
    if (word.size() >= 3 && names[i].starts_with(word)) return static_cast<int>(i);
  return std::nullopt;
}

// "18:00", "9:30:15", "6 pm", "6:00 p.m."
std::optional<std::string> clock(Rest rest) {
  const auto hour = rest.number();
  if (!hour || hour->digits > 2) return std::nullopt;
  std::optional<Rest::Number> minute, second;
  for (auto* part : {&minute, &second}) {
    if (!rest.take(":")) break;
    *part = rest.number();
    if (!*part || (*part)->digits != 2 || (*part)->value > 59) return std::nullopt;
  }
  (void)rest.take(" ");
  const bool before_noon = rest.take("am") || rest.take("a.m.");
  const bool after_noon = !before_noon && (rest.take("pm") || rest.take("p.m."));
  if (!rest.empty()) return std::nullopt;
  int h = hour->value;
  if (before_noon || after_noon) {
    if (h < 1 || h > 12) return std::nullopt;
    h = h % 12 + (after_noon ? 12 : 0);
  } else if (!minute || h > 23) {
    return std::nullopt;
  }
  return fmt::format("{:02}:{:02}:{:02}", h, minute ? minute->value : 0,
                     second ? second->value : 0);
}

// "today", "yesterday", "mon": counted from the day of the present.
std::optional<year_month_day> counted_date(Rest& rest, Moment present) {
  const std::chrono::seconds local{present.seconds + present.offset_s};
  const auto today = std::chrono::floor<days>(std::chrono::sys_seconds{local});
  const std::string_view word = rest.word();
  if (word == "today") return year_month_day{today};
  if (word == "yesterday") return year_month_day{today - days{1}};
  const auto weekday = named(word, weekdays);
  if (!weekday) return std::nullopt;
  return year_month_day{today - (std::chrono::weekday{today} -
                                 std::chrono::weekday{static_cast<unsigned>(*weekday)})};
}

// "27 nov 2026", "27. november 2026", "27-nov-2026", "nov 27, 2026"
std::optional<year_month_day> date_with_name(Rest& rest) {
  const auto gap = [&] {
    const bool mark = rest.take(".") || rest.take(",") || rest.take("-");
    return rest.take(" ") || mark;
  };
  std::optional<Rest::Number> day = rest.number();
  const bool day_first = day.has_value();
  if (day_first) (void)gap();
  const auto month = named(rest.word(), months);
  if (!month || !gap()) return std::nullopt;
  if (!day_first) {
    day = rest.number();
    if (!day || !gap()) return std::nullopt;
  }
  const auto year = rest.number();
  if (!year || year->digits != 4 || day->digits > 2) return std::nullopt;
  return date_of(year->value, *month + 1, day->value);
}

// Day and month in either order: where both are possible, and not the same, it must be known.
year_month_day in_order(std::string_view text, int first, int second, int year, DateOrder order) {
  const auto day_first = date_of(year, second, first);
  const auto month_first = date_of(year, first, second);
  if (first > 12 || first == second) return day_first;
  if (second > 12) return month_first;
  if (order == DateOrder::day_first) return day_first;
  if (order == DateOrder::month_first) return month_first;
  refuse(text, fmt::format("could be {} or {}", in_words(day_first), in_words(month_first)),
         fmt::format("write {} or {}", iso(day_first), iso(month_first)));
}

// Three numbers with one mark between them: "2026-11-27", "27. 11. 2026", "11/27/2026".
struct Numbers {
  Rest::Number a, b, c;
  bool dots = false;
};
std::optional<Numbers> three_numbers(Rest& rest) {
  const auto a = rest.number();
  if (!a) return std::nullopt;
  const std::string_view mark = rest.take(".")   ? "."
                                : rest.take("/") ? "/"
                                : rest.take("-") ? "-"
                                                 : "";
  if (mark.empty()) return std::nullopt;
  const auto spaced = [&] { return mark == "." && rest.take(" "); };
  (void)spaced();
  const auto b = rest.number();
  if (!b || !rest.take(mark)) return std::nullopt;
  (void)spaced();
  const auto c = rest.number();
  if (!c || b->digits > 2) return std::nullopt;
  return Numbers{*a, *b, *c, mark == "."};
}

std::optional<year_month_day> date_of_numbers(std::string_view text, Rest& rest,
                                              const DateOrders& orders) {
  const auto numbers = three_numbers(rest);
  if (!numbers) return std::nullopt;
  const auto& [a, b, c, dots] = *numbers;
  if (a.digits == 4 && c.digits <= 2) return date_of(a.value, b.value, c.value);
  if (a.digits > 2) return std::nullopt;
  if (c.digits != 4)
    refuse(text, "has no year of four digits", "write it as 2026-03-01 or 1.3.2026");
  const bool can_be_months = a.value <= 12 || b.value <= 12;
  const bool none_is_zero = a.value > 0 && b.value > 0;
  if (!can_be_months || !none_is_zero) return date_of(c.value, b.value, a.value);
  if (!dots) return in_order(text, a.value, b.value, c.value, orders.plain);
  if (orders.dotted != DateOrder::day_first)
    return in_order(text, a.value, b.value, c.value, orders.dotted);
  const auto turned = date_of(c.value, a.value, b.value);
  if (b.value > 12 && turned.ok())
    refuse(text, fmt::format("has no month {}: with dots the day comes first", b.value),
           fmt::format("write {} if that is the date", iso(turned)));
  return date_of(c.value, b.value, a.value);
}

}  // namespace

bool is_time_of_day(std::string_view text) { return clock(Rest{simplified(text)}).has_value(); }

std::optional<std::string> iso_from_typed(std::string_view text,
                                          const std::optional<Moment>& present,
                                          const DateOrders& orders) {
  const std::string simple = simplified(text);
  if (present && is_time_of_day(text)) return present->date() + "T" + *clock(Rest{simple});
  std::optional<year_month_day> date;
  Rest rest{simple};
  if (present) date = counted_date(rest, *present);
  if (!date) date = date_with_name(rest = Rest{simple});
  if (!date) date = date_of_numbers(text, rest = Rest{simple}, orders);
  if (!date) return std::nullopt;
  std::string time;
  if (!rest.empty()) {
    const bool apart = rest.take(", ") || rest.take(" ") || rest.take("t");
    const auto t = clock(rest);
    if (!apart || !t) {
      // ISO 8601 goes on with more than a time of day.
      const bool four_digits = simple.size() > 4 && simple[4] == '-';
      if (four_digits) return std::nullopt;
      refuse(text, "has no valid time of day", "write it as 18:30 or 6:30 pm");
    }
    time = "T" + *t;
  }
  if (!date->ok()) refuse(text, "is a day that no calendar has", "check the day and the month");
  return iso(*date) + time;
}

DateOrders orders_shown_by(std::string_view text) {
  DateOrders shown{DateOrder::unknown, DateOrder::unknown};
  const std::string simple = simplified(text);
  Rest rest{simple};
  const auto numbers = three_numbers(rest);
  if (!numbers || numbers->a.digits > 2 || numbers->c.digits != 4) return shown;
  const int a = numbers->a.value;
  const int b = numbers->b.value;
  DateOrder& order = numbers->dots ? shown.dotted : shown.plain;
  if (a > 12 && b <= 12) order = DateOrder::day_first;
  if (b > 12 && a <= 12) order = DateOrder::month_first;
  return shown;
}

std::string iso_from_table(std::string_view text, const DateOrders& orders) {
  return iso_from_typed(text, std::nullopt, orders).value_or(std::string{text});
}

}  // namespace areo
