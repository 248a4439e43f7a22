// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/stream/as_typed.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <map>
#include <optional>
#include <string_view>

#include "areo/core/error.hpp"
#include "areo/entry/extract_kind.hpp"
#include "areo/entry/noted.hpp"
#include "areo/physics/scale.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/parse_hydrometer.hpp"

namespace areo::stream {
namespace {

using notebook::Id;
using notebook::InstrumentRecord;

std::string digits_of(std::string_view text) {
  std::string out;
  for (const char c : text)
    if (c >= '0' && c <= '9' && !(c == '0' && out.empty())) out += c;
  while (out.ends_with('0')) out.pop_back();
  return out;
}

// "48" of 1.048, "1048" of 1.048.
bool shows_digits_of(const std::string& typed, const std::optional<double>& held) {
  const std::string there = digits_of(typed),
                    number = digits_of(fmt::format("{}", held.value_or(0)));
  if (there.empty() || number.empty()) return there == number;
  return number.find(there) != std::string::npos || there.find(number) != std::string::npos;
}

// What a row says of itself; the first thing that does not fit ends the look.
class Look {
 public:
  explicit Look(const notebook::Notebook& book) : book_{&book}, liquids_{book.liquids()} {}
  [[nodiscard]] const std::string& found() const { return found_; }

  void at_all() {
    for (const InstrumentRecord& i : book_->instruments())
      for (const notebook::CheckRecord& c : book_->checks(i.id)) at(i, c);
    for (const std::string& liquid : liquids_)
      for (const notebook::LiquidPairRecord& p : book_->liquid_pairs(liquid)) at(p);
    for (const notebook::BatchRecord& b : book_->batches()) at(b);
  }

 private:
  // @param understood  what the text is today
  void compare(const std::string& row, const std::string& typed,
               const std::optional<double>& understood, const std::optional<double>& held) {
    if (!found_.empty() || understood == held) return;
    found_ = fmt::format("{} was typed {}, and holds {}", row, typed.empty() ? "nothing" : typed,
                         held ? fmt::format("{}", *held) : "nothing");
  }
  // A text that today's rules no longer take was taken by those of its day; but its digits are in
  // the number.
  template <class Parse>
  void compare_text(const std::string& row, const std::string& typed,
                    const std::optional<double>& held, const Parse& parse) {
    std::optional<double> understood;
    try {
      if (!typed.empty()) understood = parse(typed);
    } catch (const Error&) {
      if (found_.empty() && !shows_digits_of(typed, held))
        found_ = fmt::format("{} was typed {}, which is no {}", row, typed,
                             held ? fmt::format("{}", *held) : "number");
      return;
    }
    compare(row, typed, understood, held);
  }
  void at_mark(const std::string& row, const std::string& typed, double held,
               const InstrumentRecord& with) {
    compare_text(row, typed, held, [&](const std::string& text) {
      return with.thermometer() != nullptr ? text::celsius_from_text(text)
                                           : entry::noted_mark(text, with).value;
    });
  }
  void at_temperature(const std::string& row, const std::string& typed,
                      const std::optional<double>& held) {
    compare_text(row + "'s temperature", typed, held,
                 [](const std::string& text) { return text::celsius_from_text(text); });
  }
  void at_volume(const std::string& row, const std::string& typed,
                 const std::optional<double>& held) {
    compare_text(row, typed, held,
                 [](const std::string& text) { return text::litres_from_text(text); });
  }
  void at_word(const std::string& row, const std::string& field, const std::string& word) {
    if (!found_.empty() || word.empty()) return;
    const bool known = field == "liquid"
                           ? std::find(liquids_.begin(), liquids_.end(), word) != liquids_.end()
                           : measurement::extract_kind_from_word(word).has_value();
    if (!known) found_ = fmt::format("{} names {} '{}', which is unknown", row, field, word);
  }

  void at(const InstrumentRecord& with, const notebook::CheckRecord& c) {
    const std::string row = fmt::format("check_reading {}", c.id);
    at_mark(row, c.reading_typed, c.reading, with);
    at_temperature(row, c.temperature_typed, c.temperature_c);
  }
  void at(const notebook::LiquidPairRecord& p) {
    const std::string row = fmt::format("liquid_pair {}", p.id);
    for (const notebook::PairHalf& half : {p.refraction, p.gravity}) {
      at_mark(row, half.typed, half.reading, instrument(half.instrument));
      at_temperature(row, half.temperature_typed, half.temperature_c);
    }
  }
  void at(const notebook::ReadingRecord& r) {
    const std::string row = fmt::format("reading {}", r.id);
    at_mark(row, r.typed, r.indication, instrument(r.instrument));
    at_temperature(row, r.temperature_typed, r.temperature_c);
  }
  void at(const notebook::AdditionRecord& a) {
    const std::string row = fmt::format("addition {}", a.id);
    compare_text(row, a.amount_typed, a.mass_g ? a.mass_g : a.volume_l,
                 [&](const std::string& text) {
                   return a.mass_g ? text::grams_from_text(text) : text::litres_from_text(text);
                 });
    at_volume(row, a.into_typed, a.into_l);
    compare_text(row, a.extract_typed, a.extract_percent, [](const std::string& text) {
      const text::TypedMark m = text::mark_from_text(text);
      return 100 * physics::liquid_from_mark(m.scale, m.value).extract.value();
    });
  }
  void at(const notebook::BatchRecord& b) {
    const std::string row = fmt::format("batch {}", b.id);
    at_volume(row, b.volume_typed, b.volume_l);
    at_word(row, "extract", b.extract);
    at_word(row, "liquid", b.liquid);
    const auto amendments = book_->amendments(b.id);
    // What an amendment hides is shown as of a day before it.
    constexpr Moment first{std::numeric_limits<std::int64_t>::min(), 0};
    const notebook::BatchRecord typed = book_->batch(b.id, first);
    at_word(row, "extract", typed.extract);
    at_word(row, "liquid", typed.liquid);
    for (const notebook::BatchAmendment& a : amendments) {
      if (a.field == "volume") at_volume(row + "'s amendment", a.value, a.volume_l);
      if (a.field == "extract" || a.field == "liquid") at_word(row, a.field, a.value);
    }
    for (const notebook::ReadingRecord& r : book_->readings(b.id)) at(r);
    for (const notebook::AdditionRecord& a : book_->additions(b.id)) at(a);
  }
  const InstrumentRecord& instrument(Id id) {
    const auto known = instruments_.find(id);
    return known != instruments_.end()
               ? known->second
               : instruments_.emplace(id, book_->instrument(id)).first->second;
  }

  const notebook::Notebook* book_;
  std::vector<std::string> liquids_;
  std::map<Id, InstrumentRecord> instruments_;
  std::string found_;
};

}  // namespace

std::string not_as_typed(const notebook::Notebook& book) {
  Look look{book};
  look.at_all();
  return look.found();
}

}  // namespace areo::stream
