// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/guided_readings.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <sstream>
#include <utility>

#include "areo/batch/expectation.hpp"
#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/entry/usual_units.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/correction_changes.hpp"
#include "areo/wording/notes.hpp"

namespace areo::entry {

using batch::Batch;
using batch::Point;
using notebook::Id;

namespace {

constexpr std::array help{
    "a reading: 1.020; with its temperature: 1.020 21C; repeats: 1.020 1.021 1.020 21C",
    "bottle B        the next readings are of bottle B; bottle - is the batch as a whole",
    "instrument NAME and thermometer NAME say what you read",
    "original        the next reading is an original gravity",
    "top, level      where you read: at the top of the meniscus, or level with the surface",
    "degassed yes    or no: whether the bubbles were stirred out",
    "when DATE       the next readings were made then, not now; when now",
    "note TEXT       goes with the next reading",
    "undo            takes back the last reading; it stays in the notebook, excluded",
    "done, quit      ends; so does the end of the input"};

// " in °F", for whom has set it.
std::string usual_temperature(const notebook::Notebook& book) {
  const std::string unit = book.settings().temperature;
  return unit.empty() ? "" : " in °" + unit;
}

std::string counted(int n) { return fmt::format("{} reading{}", n, n == 1 ? "" : "s"); }

}  // namespace

bool says_yes(const std::string& answer) { return answer == "y" || answer == "yes"; }

GuidedReadings::GuidedReadings(notebook::Notebook& book, Start start, Say say)
    : book_{&book}, start_{std::move(start)}, say_{std::move(say)}, next_{start_.typed} {
  require_open(book.batch(start_.batch), book);
}

void GuidedReadings::greet() {
  Batch batch{*book_, start_.batch};
  say_(wording::batch_text(batch.record()));
  if (!batch.samples().empty()) {
    const Point last = batch.point(batch.samples().back());
    say_(fmt::format("  last: {}, {}", wording::sample_text(batch, last.sample),
                     last.sample.at().date()));
  }
  say_("  type what it shows, help for more, done to end");
}

std::string GuidedReadings::question() const {
  switch (asks_) {
    case Asks::temperature:
      return next_.temperature.empty()
                 ? fmt::format("temperature{}, Enter if unknown", usual_temperature(*book_))
                 : fmt::format("temperature, Enter for {}, - if unknown", next_.temperature);
    case Asks::whether_to_note:
      if (above_) return "above the original: note it all the same? y or n";
      return doubtful_ ? all_the_same : "note it? Enter for yes, n for no";
    case Asks::reading: break;
  }
  std::string text = start_.batch;
  if (!next_.bottle.empty()) text += ", bottle " + next_.bottle;
  return text + (next_.original ? " shows, original" : " shows");
}

std::string GuidedReadings::summary() const {
  return fmt::format("{} noted, {} taken back; areo batch show {}", counted(count_),
                     counted(undone_), shell_word(start_.batch));
}

void GuidedReadings::answer(const std::string& text) {
  switch (asks_) {
    case Asks::temperature: take_temperature(text); return;
    case Asks::whether_to_note:
      if (!said_which(text)) return;
      asks_ = Asks::reading;
      note(text);
      return;
    case Asks::reading: obey(text); return;
  }
}

void GuidedReadings::obey(const std::string& text) {
  const std::size_t space = std::min(text.find(' '), text.size());
  const std::string word = text.substr(0, space);
  const std::string rest = space < text.size() ? text.substr(space + 1) : "";
  if (word.empty()) return;
  if (word == "done" || word == "quit" || word == "exit" || word == "end")
    over_ = true;
  else if (word == "help" || word == "?")
    for (const char* of_help : help) say_(fmt::format("  {}", of_help));
  else if (word == "undo")
    undo();
  else if (word == "bottle")
    next_.bottle = rest == "-" ? "" : rest;
  else if (word == "instrument")
    next_.instrument = instrument_for(rest, *book_).name();
  else if (word == "thermometer")
    next_.thermometer = rest == "-" ? "" : book_->instrument(rest).name();
  else if (word == "original")
    next_.original = !next_.original;
  else if (word == "top" || word == "level")
    next_.top = word == "top";
  else if (word == "degassed") {
    (void)degassed_from_text(rest);
    next_.degassed = rest;
  } else if (word == "when")
    next_.made_at = rest == "now" ? "" : past_moment_from_text(rest, now()).text();
  else if (word == "note")
    next_.note = rest;
  else if (std::isalpha(static_cast<unsigned char>(word[0])) != 0)
    throw ParseError{fmt::format("'{}' is not a word known here", word), text, 0, word.size(),
                     "help shows them; done ends"};
  else
    take(text);
}

void GuidedReadings::take(const std::string& text) {
  typed_ = next_;
  typed_.temperature.clear();
  std::istringstream words{text};
  for (std::string w; words >> w;) typed_.shown.push_back(w);
  typed_ = parted(typed_);
  // Refused before more is asked.
  const auto understood = note_reading(typed_, book_->batch(start_.batch), *book_);
  const std::string behind = understood.records.front().temperature_typed;
  typed_.shown.resize(understood.records.size());
  if (behind != typed_.temperature) say_("  " + understood.echo.front());  // read in a usual unit
  typed_.temperature = next_.temperature;
  asks_ = Asks::temperature;
  if (!behind.empty()) take_temperature(behind);
}

// A slip here must not cost the reading: it is asked again.
void GuidedReadings::take_temperature(const std::string& answer) {
  const auto [text, echo] = completed(answer, Quantity::temperature, book_->settings());
  if (!echo.empty()) say_("  " + echo);
  if (!text.empty() && text != "-") (void)text::sample_celsius_from_text(text, next_.original);
  asks_ = Asks::reading;
  if (text == "-")
    typed_.temperature.clear();
  else if (!text.empty())
    typed_.temperature = text;
  if (typed_.temperature.empty()) typed_.thermometer.clear();
  noted_ = note_reading(typed_, book_->batch(start_.batch), *book_);
  show();
  asks_ = Asks::whether_to_note;
}

// What follows from it, and whether it is far from what is expected.
void GuidedReadings::show() {
  Batch batch{*book_, start_.batch};
  const auto doubts = batch::Expectation{batch}.of(noted_.records);
  std::vector<Point> points{batch.preview(noted_.records)};
  (void)wording::note_corrections(batch, points);
  const Point& point = points.front();
  tell(batch, point, doubts.empty());
  for (const std::string& d : doubts) say_("  look again: " + d);
  above_ = point.drink && point.drink->state == measurement::Fermentation::above && !start_.yes;
  doubtful_ = (above_ || !doubts.empty()) && !start_.yes;
}

void GuidedReadings::tell(Batch& batch, const Point& point, bool expected) {
  for (const std::string& e : noted_.echo) say_("  " + e);
  say_("  " + wording::sample_text(batch, point.sample));
  if (!point.computed()) {
    say_("  nothing can be computed: " + point.refused);
    return;
  }
  say_(
      fmt::format("  gravity 20/20  {}", text::value_text(point.gravity().value, "", start_.full)));
  if (point.drink) say_("  alcohol        " + wording::strength_text(point, start_.full));
  if (const std::string change = wording::change_text(batch, point); !change.empty())
    say_("  " + change);
  for (const std::string& n : wording::own_notes(point.result()))
    if (told_.insert(n).second) say_("  note: " + n);
  if (expected && wording::jumped_up(batch, point))
    say_("  it cannot rise by itself: bubbles, an addition, or another bottle?");
}

// Enter may have been meant for something else: what cannot be is neither noted nor lost by it.
bool GuidedReadings::said_which(const std::string& answer) const {
  if (!above_ || says_yes(answer) || answer == "n" || answer == "no") return true;
  say_("  y to note it, n to leave it out");
  return false;
}

void GuidedReadings::note(const std::string& answer) {
  if (doubtful_ ? !says_yes(answer) : !answer.empty() && !says_yes(answer)) {
    say_("  not noted");
    left_doubtful_ = left_doubtful_ || doubtful_;
    return;
  }
  const auto ids = book_->add(noted_.records);
  accepted_.push_back(ids);
  count_ += static_cast<int>(ids.size());
  say_(fmt::format("  noted as reading {}", fmt::join(ids, ", ")));
  next_.temperature = typed_.temperature;
  next_.note.clear();
  next_.original = false;
}

void GuidedReadings::undo() {
  if (accepted_.empty()) {
    say_("  nothing to undo");
    return;
  }
  for (const Id id : accepted_.back())
    book_->exclude_reading(id, {now(), true, "taken back at the bench"});
  undone_ += static_cast<int>(accepted_.back().size());
  say_(fmt::format("  taken back: reading {}", fmt::join(accepted_.back(), ", ")));
  accepted_.pop_back();
}

}  // namespace areo::entry
