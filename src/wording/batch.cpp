// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/batch.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "areo/batch/expectation.hpp"
#include "areo/core/error.hpp"
#include "areo/text/format.hpp"
#include "areo/text/json.hpp"
#include "areo/wording/check.hpp"
#include "areo/wording/instrument.hpp"
#include "areo/wording/result_json.hpp"
#include "areo/wording/strength.hpp"

namespace areo::wording {

using batch::Batch;
using batch::Point;
using batch::Sample;
using measurement::Fermentation;
using notebook::AdditionRecord;
using notebook::BatchRecord;
using notebook::ReadingRecord;
using text::json_string;

namespace {

std::string optional_number(const std::optional<double>& v) {
  return v ? fmt::format("{}", *v) : "null";
}

bool is_closed(const notebook::Notebook& book, notebook::Id batch) {
  const auto events = book.events(batch);
  return !events.empty() && events.back().closed;
}

// What a sample differs by from the last one, if both were computed.
struct Change {
  uncertainty::Value gravity;
  const Sample* since;
  bool added;                           ///< something went in between: then the gravity may rise
  const Sample* passed_over = nullptr;  ///< the last one, where it is far from both of them
};
std::optional<Change> change_of(Batch& batch, const Point& point) {
  const auto since = [&](const Sample& sample) -> std::optional<Change> {
    const Point earlier = batch.point(sample);
    if (!earlier.computed() || earlier.gravity().key != point.gravity().key) return std::nullopt;
    return Change{batch::change(earlier, point), &sample,
                  batch.added_between(sample, point.sample)};
  };
  const Sample* last = batch.before(point.sample);
  if (last == nullptr || !point.computed()) return std::nullopt;
  auto change = since(*last);
  if (!change || std::abs(change->gravity.estimate) <= batch::largest_lift_sg) return change;
  // Far from it: the last one may be a slip.
  const Sample* sound = batch::Expectation{batch}.compared_with(point.sample);
  if (sound == nullptr || sound->first().id == last->first().id) return change;
  const auto from_sound = since(*sound);
  if (!from_sound) return change;
  change = from_sound;
  change->passed_over = last;
  return change;
}

std::string sample_words(Batch& batch, const Sample& sample, const char* says, const char* at) {
  const auto& instrument = batch.shelf().instrument(sample.first().instrument);
  std::vector<std::string> all;
  for (const ReadingRecord& r : sample.readings) all.push_back(shown(instrument, r.indication));
  std::string out = fmt::format("{}{} {}", instrument.name(), says, fmt::join(all, ", "));
  if (const auto& t = sample.first().temperature_c) out += at + text::celsius_text(*t);
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

std::string batch_json(const notebook::Notebook& book, const BatchRecord& r) {
  return fmt::format(
      R"({{"batch":{},"drink":{},"culture":"{}","vessel":{},"volume_l":{},"extract":{},)"
      R"("liquid":{},"started_at":"{}","closed":{},"note":{}}})",
      json_string(r.name), json_string(r.drink), notebook::word(r.culture), json_string(r.vessel),
      optional_number(r.volume_l), json_string(r.extract.empty() ? "mixed" : r.extract),
      json_string(r.liquid), r.started_at.text(), is_closed(book, r.id), json_string(r.note));
}

std::string addition_text(const notebook::Notebook& book, const AdditionRecord& r) {
  std::string out =
      r.other ? "part of " + book.batch(*r.other).name : std::string{notebook::word(r.what)};
  out += ", " + r.amount_typed;
  if (!r.extract_typed.empty()) out += " of " + r.extract_typed;
  if (!r.into_typed.empty()) out += " into " + r.into_typed;
  return out;
}

std::string addition_json(const notebook::Notebook& book, const AdditionRecord& r) {
  const std::string excluded = r.excluded();
  return fmt::format(
      R"({{"addition":{},"bottle":{},"what":"{}","made_at":"{}","mass_g":{},"volume_l":{},)"
      R"("extract_percent":{},"other":{},"into_l":{},"person":{},"note":{},"excluded":{}}})",
      r.id, json_string(r.bottle), notebook::word(r.what), r.made_at.text(),
      optional_number(r.mass_g), optional_number(r.volume_l), optional_number(r.extract_percent),
      r.other ? json_string(book.batch(*r.other).name) : "null", optional_number(r.into_l),
      json_string(r.person), json_string(r.note),
      excluded.empty() ? "null" : json_string(excluded));
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
    for (const measurement::Note& n : p.result().notes) {
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

std::string change_text(Batch& batch, const Point& point) {
  const auto change = change_of(batch, point);
  if (!change) return "";
  const double expanded = change->gravity.expanded();
  const std::string since =
      fmt::format("since {} ({}{}{})", change->since->at().date(),
                  duration_text(point.sample.at().seconds - change->since->at().seconds),
                  change->added ? ", with an addition in between" : "",
                  change->passed_over == nullptr
                      ? ""
                      : fmt::format("; reading {} is far from both and does not count here",
                                    numbers(*change->passed_over)));
  if (std::abs(change->gravity.estimate) <= expanded)
    return fmt::format("no change {} that this instrument could tell (± {})", since,
                       text::fixed(expanded, text::last_place(expanded)));
  const int place = text::last_place(expanded) + telling_digits(change->gravity.estimate, expanded);
  return fmt::format(
      "{} {} ± {} {}", change->gravity.estimate < 0 ? "down" : (change->added ? "up" : "UP"),
      text::fixed(std::abs(change->gravity.estimate), place), text::fixed(expanded, place), since);
}

bool jumped_up(Batch& batch, const Point& point) {
  const auto change = change_of(batch, point);
  return change && !change->added && change->gravity.estimate > change->gravity.expanded();
}

std::string point_json(Batch& batch, const Point& point) {
  const ReadingRecord& first = point.sample.first();
  const auto& instrument = batch.shelf().instrument(first.instrument);
  std::vector<double> indications;
  for (const ReadingRecord& r : point.sample.readings) indications.push_back(r.indication);
  std::vector<std::pair<std::string, std::string>> head{
      {"readings", fmt::format("[{}]", numbers(point.sample))},
      {"batch", json_string(batch.record().name)},
      {"bottle", json_string(first.bottle)},
      {"stage", fmt::format("\"{}\"", notebook::word(first.stage))},
      {"made_at", fmt::format("\"{}\"", first.made_at.text())},
      {"instrument", json_string(instrument.name())},
      {"indications", fmt::format("[{}]", fmt::join(indications, ","))},
      {"temperature_c", optional_number(first.temperature_c)},
      {"degassed", first.degassed ? fmt::format("{}", *first.degassed) : "null"},
      {"person", json_string(first.person)},
      {"note", json_string(first.note)}};
  if (!point.computed()) {
    head.emplace_back("refused", json_string(point.refused));
    return json_line({}, head);
  }
  if (point.drink) {
    head.emplace_back("state", fmt::format("\"{}\"", word(point.drink->state)));
    for (auto& member : bound_members(*point.drink)) head.push_back(std::move(member));
    if (point.lifted && point.drink->has_strength())
      head.emplace_back("alcohol_at_least_percent_vol",
                        fmt::format("{}", analysis::strength_bounds(*point.drink).lower));
  }
  if (const auto change = change_of(batch, point))
    head.emplace_back("change",
                      fmt::format(R"({{"since":"{}","value":{},"standard_uncertainty":{},)"
                                  R"("expanded_uncertainty":{},"addition_between":{}}})",
                                  change->since->at().text(), change->gravity.estimate,
                                  change->gravity.u, change->gravity.expanded(), change->added));
  return json_line(point.result(), head);
}

void each_point_json(Batch& batch, std::span<const Sample* const> samples,
                     const std::vector<Point>& points,
                     const std::function<void(const std::string&)>& line) {
  auto next = points.begin();
  for (const Sample* s : samples) {
    const bool there = next != points.end() && next->sample.first().id == s->first().id;
    line(point_json(batch, there ? *next++ : batch.point(*s)));
  }
}

const Sample& sample_with(const Batch& batch, notebook::Id reading) {
  for (const Sample& s : batch.samples())
    for (const ReadingRecord& r : s.readings)
      if (r.id == reading) return s;
  throw Error{Errc::store, fmt::format("reading {} does not count", reading)};
}

}  // namespace areo::wording
