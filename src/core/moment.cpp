// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/moment.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <ctime>
#include <optional>

#include "areo/core/error.hpp"
#include "typed_date.hpp"

namespace areo {
namespace {

constexpr std::string_view how = "write it as 2026-03-01 or 2026-03-01T18:30 (ISO 8601)";

[[noreturn]] void refuse(std::string_view text, std::string_view why, std::string_view hint = how) {
  throw ParseError{fmt::format("'{}' {}", text, why), std::string{text}, 0, text.size(),
                   std::string{hint}};
}

// Takes exactly n digits from the front.
std::optional<int> digits(std::string_view& rest, std::size_t n) {
  if (rest.size() < n) return std::nullopt;
  int v = 0;
  const auto [end, error] = std::from_chars(rest.data(), rest.data() + n, v);
  if (error != std::errc{} || end != rest.data() + n || rest[0] == '-') return std::nullopt;
  rest.remove_prefix(n);
  return v;
}

bool take(std::string_view& rest, char c) {
  if (rest.empty() || rest.front() != c) return false;
  rest.remove_prefix(1);
  return true;
}

std::int64_t local_offset(std::int64_t utc_seconds) {
  const auto t = static_cast<std::time_t>(utc_seconds);
  std::tm local{};
  localtime_r(&t, &local);
  return local.tm_gmtoff;
}

std::chrono::sys_seconds local_seconds(const Moment& m) {
  return std::chrono::sys_seconds{std::chrono::seconds{m.seconds + m.offset_s}};
}

struct TimeOfDay {
  int hour = 0, minute = 0, second = 0;
};

std::optional<TimeOfDay> time_of_day(std::string_view& rest) {
  TimeOfDay t;
  const auto hour = digits(rest, 2);
  if (!hour || !take(rest, ':')) return std::nullopt;
  const auto minute = digits(rest, 2);
  if (!minute) return std::nullopt;
  t = {*hour, *minute, 0};
  if (take(rest, ':')) {
    const auto second = digits(rest, 2);
    if (!second) return std::nullopt;
    t.second = *second;
  }
  if (t.hour > 23 || t.minute > 59 || t.second > 59) return std::nullopt;
  return t;
}

// "Z", "+01:00", and of a local mean time "+00:19:32"; nothing at all means local time.
std::optional<std::int64_t> offset(std::string_view& rest) {
  if (take(rest, 'Z')) return 0;
  const int sign = take(rest, '+') ? 1 : take(rest, '-') ? -1 : 0;
  if (sign == 0) return std::nullopt;
  const auto hours = digits(rest, 2);
  const bool colon = take(rest, ':');
  const auto minutes = digits(rest, 2);
  const auto seconds = take(rest, ':') ? digits(rest, 2) : std::optional{0};
  if (!hours || !colon || !minutes || !seconds || *minutes > 59 || *seconds > 59)
    return std::nullopt;
  const std::int64_t size = *hours * 3600 + *minutes * 60 + *seconds;
  // More than any zone ever had, on either side of a date line that moved.
  constexpr std::int64_t most = std::int64_t{24} * 3600;
  if (size > most) return std::nullopt;
  return sign * size;
}

// Of a bare date in ISO 8601 the last second, else the moment itself.
Moment day_end(const std::string& iso) {
  const Moment m = moment_from_text(iso);
  constexpr std::size_t bare_date = std::string_view{"2026-03-01"}.size();
  return iso.size() > bare_date ? m : moment_from_text(iso + "T23:59:59");
}

}  // namespace

std::string Moment::text() const {
  const auto local = local_seconds(*this);
  const auto day = std::chrono::floor<std::chrono::days>(local);
  const std::chrono::hh_mm_ss clock{local - day};
  const char sign = offset_s < 0 ? '-' : '+';
  const int off = offset_s < 0 ? -offset_s : offset_s;
  const std::string odd_seconds = off % 60 == 0 ? "" : fmt::format(":{:02}", off % 60);
  return fmt::format("{}T{:02}:{:02}:{:02}{}{:02}:{:02}{}", date(), clock.hours().count(),
                     clock.minutes().count(), clock.seconds().count(), sign, off / 3600,
                     off / 60 % 60, odd_seconds);
}

std::string Moment::date() const {
  const std::chrono::year_month_day d{std::chrono::floor<std::chrono::days>(local_seconds(*this))};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(d.year()),
                     static_cast<unsigned>(d.month()), static_cast<unsigned>(d.day()));
}

Moment now() {
  const auto s = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now())
                     .time_since_epoch()
                     .count();
  return {s, static_cast<std::int32_t>(local_offset(s))};
}

Moment moment_from_text(std::string_view text) {
  using namespace std::chrono;
  std::string_view rest = text;
  const auto y = digits(rest, 4);
  const bool dash1 = take(rest, '-');
  const auto m = digits(rest, 2);
  const bool dash2 = take(rest, '-');
  const auto d = digits(rest, 2);
  if (!y || !m || !d || !dash1 || !dash2) refuse(text, "is not an unambiguous date");
  const year_month_day day{year{*y}, month{static_cast<unsigned>(*m)},
                           std::chrono::day{static_cast<unsigned>(*d)}};
  if (!day.ok()) refuse(text, "is a day that no calendar has");
  TimeOfDay clock;
  std::optional<std::int64_t> off;
  if (take(rest, 'T') || take(rest, ' ')) {
    const auto t = time_of_day(rest);
    if (!t) refuse(text, "has no valid time of day");
    clock = *t;
    if (!rest.empty()) {
      off = offset(rest);
      if (!off) refuse(text, "has no valid offset from UTC");
    }
  }
  if (!rest.empty()) refuse(text, "goes on where a date should end");
  const std::int64_t local =
      (sys_days{day} + hours{clock.hour} + minutes{clock.minute} + seconds{clock.second})
          .time_since_epoch() /
      seconds{1};
  // Local time: the offset in force at that instant; twice, for the hours around a change.
  if (!off) off = local_offset(local - local_offset(local));
  return {local - *off, static_cast<std::int32_t>(*off)};
}

Moment past_moment_from_text(std::string_view text, Moment present) {
  const Moment m = moment_from_text(iso_from_typed(text, present).value_or(std::string{text}));
  if (m > present)
    refuse(text, "lies in the future",
           is_time_of_day(text) ? "say the day, too: yesterday 18:00"
                                : "check the year and the month; what has not happened cannot be "
                                  "noted");
  return m;
}

Moment day_end_from_text(std::string_view text) {
  const std::string iso = iso_from_typed(text, std::nullopt).value_or(std::string{text});
  return day_end(iso);
}

Moment past_day_end_from_text(std::string_view text, Moment present) {
  (void)past_moment_from_text(text, present);
  const std::string iso = iso_from_typed(text, present).value_or(std::string{text});
  return std::min(day_end(iso), present);
}

}  // namespace areo
