// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/batch.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/text/format.hpp"
#include "areo/text/temperature_text.hpp"
#include "areo/wording/instrument.hpp"
#include "areo/wording/notes.hpp"
#include "areo/wording/strength.hpp"

namespace areo::wording {

using batch::Batch;
using batch::Point;
using batch::Sample;
using measurement::Fermentation;
using notebook::AdditionRecord;
using notebook::BatchRecord;
using notebook::ReadingRecord;

namespace {

std::string sample_words(Batch& batch, const Sample& sample, const char* says, const char* at) {
  const auto& instrument = batch.shelf().instrument(sample.first().instrument);
  std::vector<std::string> all;
  for (const ReadingRecord& r : sample.readings) all.push_back(shown(instrument, r.indication));
  std::string out = fmt::format("{}{} {}", instrument.name(), says, fmt::join(all, ", "));
  if (const auto& t = sample.first().temperature_c)
    out += at + text::temperature_text(*t, text::temperature_unit(batch.settings().temperature));
  return out;
}

// @param lower, upper  how a bound is told
template <class Lower, class Upper>
std::string strength_words(const Point& point, const char* unit, bool full, Lower&& lower,
                           Upper&& upper) {
  if (!point.computed()) return "not computed: " + point.refused;
  if (point.sample.first().stage == notebook::Stage::original) return "original";
  if (!point.drink) return "no original gravity";
  if (point.lifted && point.drink->has_strength()) return lower(*point.drink);
  switch (point.drink->state) {
    case Fermentation::measured:
      return text::value_text(point.drink->result.at(strength_key).value, unit, full);
    case Fermentation::no_change:
    case Fermentation::bound: return upper(*point.drink);
    case Fermentation::above:
    case Fermentation::contradiction: break;
  }
  return "above the original: bubbles, swapped or misread, an addition?";
}

}  // namespace

std::string facts_text(const BatchRecord& r) {
  std::string out;
  out += fmt::format("{}{}", notebook::word(r.culture),
                     r.culture == ferment::Culture::yeast ? "" : " culture");
  for (const std::string& more : {r.vessel, r.volume_typed})
    if (!more.empty()) out += ", " + more;
  return out + ", since " + r.started_at.date();
}

std::string batch_text(const BatchRecord& r) {
  return fmt::format("{}: {}{}{}", r.name, r.drink, r.drink.empty() ? "" : ", ", facts_text(r));
}

std::string addition_text(const notebook::Notebook& book, const AdditionRecord& r) {
  std::string out =
      r.other ? "part of " + book.batch(*r.other).name : std::string{notebook::word(r.what)};
  out += ", " + r.amount_typed;
  if (!r.extract_typed.empty()) out += " of " + r.extract_typed;
  if (!r.into_typed.empty()) out += " into " + r.into_typed;
  return out;
}

std::string numbers(const Sample& sample) {
  std::vector<notebook::Id> ids;
  for (const ReadingRecord& r : sample.readings) ids.push_back(r.id);
  return fmt::format("{}", fmt::join(ids, ", "));
}

std::string numbers_cell(const Sample& sample) {
  const auto& all = sample.readings;
  std::string out;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto follows = [&](std::size_t k) {
      return k > 0 && k < all.size() && all[k].id == all[k - 1].id + 1;
    };
    if (follows(i) && follows(i + 1)) continue;
    out += fmt::format("{}{}", i == 0 ? "" : follows(i) ? "-" : ", ", all[i].id);
  }
  return out;
}

std::string sample_text(Batch& batch, const Sample& sample) {
  return sample_words(batch, sample, " shows", " at ");
}

std::string sample_cell(Batch& batch, const Sample& sample) {
  return sample_words(batch, sample, ":", ", ");
}

std::string strength_text(const Point& point, bool full) {
  return strength_words(point, "% vol", full, at_least_text,
                        [](const measurement::AlcoholResult& a) { return below_text(a); });
}

std::string strength_cell_text(const Point& point, bool full) {
  return strength_words(point, "", full, at_least_cell,
                        [](const measurement::AlcoholResult& a) { return below_cell(a); });
}

std::string strength_alone_text(const Point& point, bool full) {
  const bool in_words = point.drink && (point.lifted || point.drink->has_bound_only());
  return (in_words ? "alcohol " : "") + strength_text(point, full);
}

std::string not_shown_text(std::size_t samples, std::size_t shown) {
  if (samples == shown) return "";
  return fmt::format("{} more readings of these days are not shown; --all shows them",
                     samples - shown);
}

std::vector<std::string> notes_of(const std::vector<Point>& points) {
  // Each text once, with the readings that it is about.
  std::vector<std::pair<std::string, std::vector<std::string>>> all;
  for (const Point& p : points) {
    if (!p.computed()) continue;
    for (const measurement::Note& note : p.result().notes) {
      const NoteWords n = note_words(note);
      auto there = std::find_if(all.begin(), all.end(),
                                [&](const auto& other) { return other.first == n.text; });
      if (there == all.end()) there = all.insert(all.end(), {n.text, {}});
      auto& readings = there->second;
      if (!n.reading.empty() &&
          std::find(readings.begin(), readings.end(), n.reading) == readings.end())
        readings.push_back(n.reading);
    }
  }
  std::vector<std::string> sentences;
  sentences.reserve(all.size());
  for (const auto& [text, readings] : all)
    sentences.push_back(readings.empty() ? text
                                         : fmt::format("{} {} {}", fmt::join(readings, ", "),
                                                       readings.size() == 1 ? "is" : "are", text));
  return sentences;
}

std::string doubts_text(const batch::Doubts& doubts) {
  return fmt::format("{}", fmt::join(doubts, "; "));
}

std::string when_text(Moment at) {
  std::string text = at.text().substr(0, 16);
  text[10] = ' ';
  return text;
}

std::string duration_text(std::int64_t seconds) {
  constexpr double hour = 3600, day = 24 * hour;
  const auto s = static_cast<double>(seconds);
  if (s >= 2 * day) return fmt::format("{:.1f} days", s / day);
  const std::string hours = fmt::format("{:.0f}", s / hour);
  return hours + (hours == "1" ? " hour" : " hours");
}

const Sample& sample_with(const Batch& batch, notebook::Id reading) {
  for (const Sample& s : batch.samples())
    for (const ReadingRecord& r : s.readings)
      if (r.id == reading) return s;
  throw Error{Errc::store, fmt::format("reading {} does not count", reading)};
}

}  // namespace areo::wording
