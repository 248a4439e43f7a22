// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as a date: refused, or a moment that is the same when it is printed and read again,
// wherever the clock on the wall is set.
#include <cstdint>
#include <cstdlib>
#include <ctime>
#include <string>

#include "areo/core/moment.hpp"
#include "refusal.hpp"

namespace areo::fuzz {
namespace {

// With daylight saving, half an hour off, and the odd seconds of a town's own time. POSIX counts
// west of UTC.
constexpr const char* zones[] = {"UTC0", "AAA-1BBB,M3.5.0,M10.5.0/3", "AAA3:30", "AAA4:56:02"};

void check(const std::string& text) {
  const Moment present = moment_from_text("2026-03-01T12:00:00Z");
  Moment typed;
  if (accepts([&] { typed = past_moment_from_text(text, present); })) {
    require(typed <= present, "only the past has happened", typed.text());
    require(past_moment_from_text(typed.text(), present) == typed,
            "a typed moment printed and read again is the same", typed.text());
  }
  Moment m;
  if (!accepts([&] { m = moment_from_text(text); })) return;
  const Moment again = moment_from_text(m.text());
  require(again == m, "a moment printed and read again is the same", m.text());
  require(again.offset_s == m.offset_s, "an offset printed and read again is the same", m.text());
  require(m.date() == text.substr(0, 10), "the date is the one that was typed", m.date());
  const Moment end = day_end_from_text(text);
  require(m <= end && end.seconds - m.seconds <= 25 * 3600, "a day ends within 25 hours", text);

  Moment past;
  const bool happened = accepts([&] { past = past_day_end_from_text(text, present); });
  require(happened == (m <= present), "only the past has happened", text);
  if (happened) require(m <= past && past <= present, "no day of the past ends later than now");
}

}  // namespace
}  // namespace areo::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  for (const char* zone : areo::fuzz::zones) {
    setenv("TZ", zone, 1);
    tzset();
    areo::fuzz::check({reinterpret_cast<const char*>(data), size});
  }
  return 0;
}
