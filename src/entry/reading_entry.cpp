// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/entry/reading_entry.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/entry/noted.hpp"
#include "areo/entry/usual_units.hpp"
#include "areo/text/header_words.hpp"
#include "areo/text/parse.hpp"
#include "areo/text/parse_sample.hpp"

namespace areo::entry {

using notebook::InstrumentRecord;
using notebook::ReadingRecord;

InstrumentRecord instrument_for(const std::string& name, const notebook::Notebook& book) {
  if (!name.empty()) {
    InstrumentRecord r = book.instrument(name);
    if (r.thermometer() != nullptr)
      throw Error{Errc::inconsistent, fmt::format("{} is a thermometer: it reads no gravity", name),
                  "give it as --thermometer"};
    return r;
  }
  std::vector<InstrumentRecord> in_use;
  for (InstrumentRecord& r : book.instruments())
    if (r.hydrometer() != nullptr && !book.retired(r.id)) in_use.push_back(std::move(r));
  if (in_use.size() == 1) return in_use.front();
  if (in_use.empty())
    throw Error{Errc::inconsistent, "no hydrometer is registered, so nobody knows what showed this",
                "areo instrument add NAME, or name a refractometer with --instrument"};
  std::vector<std::string> names;
  names.reserve(in_use.size());
  for (const InstrumentRecord& r : in_use) names.push_back(r.name());
  throw Error{Errc::inconsistent, "which instrument showed this?",
              fmt::format("say --instrument with one of {}", fmt::join(names, ", "))};
}

void require_open(const notebook::BatchRecord& batch, const notebook::Notebook& book) {
  const auto events = book.events(batch.id);
  if (!events.empty() && events.back().closed)
    throw Error{Errc::inconsistent,
                fmt::format("{} is closed since {}", batch.name, events.back().at.date()),
                fmt::format("areo batch reopen {}", shell_word(batch.name))};
}

std::optional<bool> degassed_from_text(const std::string& text) {
  if (text.empty()) return std::nullopt;
  if (text == "yes" || text == "no") return text == "yes";
  throw ParseError{"degassed is yes or no", text, 0, text.size(), "leave it out if nobody knows"};
}

TypedReading parted(TypedReading typed) {
  const std::string words = fmt::format("{}", fmt::join(typed.shown, " "));
  const auto readings = text::readings_together_from_text(words);
  // Words of one reading that a shell took apart, "1.048 SG", stand together again.
  const bool apart = readings.size() < typed.shown.size();
  if (readings.empty() || (readings.front().temperature.empty() && !apart)) return typed;
  const std::string& temperature = readings.front().temperature;
  typed.shown.clear();
  for (const text::ShownAt& r : readings) {
    if (r.temperature != temperature)
      throw ParseError{fmt::format("{} and {}: repeats are of one sample, at one temperature",
                                   temperature, r.temperature),
                       words, 0, words.size(), "note the samples one after the other"};
    typed.shown.push_back(r.shown);
  }
  if (!temperature.empty() && !typed.temperature.empty())
    throw ParseError{fmt::format("the temperature is {} or {}: it was said twice", temperature,
                                 typed.temperature),
                     words, 0, words.size(), "leave one out"};
  if (!temperature.empty()) typed.temperature = temperature;
  return typed;
}

namespace {

// Whether a text is no mark of the instrument.
bool is_no_mark(const std::string& text, const InstrumentRecord& instrument) {
  try {
    const double mark = noted_mark(text, instrument).value;
    if (const auto* h = instrument.hydrometer()) instruments::require_on_scale(*h, mark);
    if (const auto* r = instrument.refractometer()) instruments::require_on_scale(*r, mark);
    return false;
  } catch (const Error&) {
    return true;
  }
}

// A bare temperature, in its option or behind the readings: the settings say its unit.
void use_usual_unit(TypedReading& typed, NotedReading& noted, const notebook::Notebook& book) {
  const bool behind = typed.temperature.empty() && typed.shown.size() > 1 &&
                      text::is_bare_number(typed.shown.back()) &&
                      is_no_mark(typed.shown.back(), noted.instrument);
  const std::string& bare = behind ? typed.shown.back() : typed.temperature;
  if (!text::is_bare_number(bare)) return;
  const Completed c = completed(bare, Quantity::temperature, book.settings());
  if (c.echo.empty()) return;
  noted.echo.push_back(c.echo);
  if (behind) typed.shown.pop_back();
  typed.temperature = c.text;
}

// "1.018 23": a repeat, or a temperature without its unit?
void refuse_bare_temperature(const TypedReading& typed, const std::string& shown) {
  if (&shown == &typed.shown.front() || !text::is_bare_number(shown)) return;
  throw ParseError{fmt::format("{} stands behind the reading and has no unit", shown), shown, 0,
                   shown.size(), fmt::format("a temperature? write {0}F or {0}C", shown)};
}

NotedMark one_of_several(const TypedReading& typed, const std::string& shown,
                         const InstrumentRecord& instrument) {
  try {
    return noted_mark(shown, instrument);
  } catch (const Error&) {
    refuse_bare_temperature(typed, shown);
    throw;
  }
}

}  // namespace

NotedReading note_reading(const TypedReading& as_typed, const notebook::BatchRecord& batch,
                          const notebook::Notebook& book) {
  require_open(batch, book);
  TypedReading typed = parted(as_typed);
  NotedReading noted;
  noted.instrument = instrument_for(typed.instrument, book);
  use_usual_unit(typed, noted, book);
  const bool refractometer = noted.instrument.refractometer() != nullptr;
  if (typed.top && refractometer)
    throw Error{Errc::inconsistent,
                fmt::format("{} has no meniscus to be read at", noted.instrument.name()),
                "leave the meniscus out"};
  ReadingRecord r;
  r.batch = batch.id;
  r.bottle = typed.bottle;
  r.stage = typed.original ? notebook::Stage::original : notebook::Stage::present;
  r.noted_at = now();
  r.made_at = typed.made_at.empty() ? r.noted_at : past_moment_from_text(typed.made_at, r.noted_at);
  r.instrument = noted.instrument.id;
  if (!typed.temperature.empty())
    (void)text::sample_celsius_from_text(typed.temperature, typed.original);
  const NotedTemperature t = noted_temperature(typed.temperature, typed.thermometer,
                                               typed.temperature_accuracy, true, book);
  r.temperature_typed = typed.temperature;
  r.temperature_c = t.celsius;
  r.temperature_half_width_c = t.half_width_c;
  r.thermometer = t.thermometer;
  r.meniscus = typed.top ? instruments::Meniscus::top : instruments::Meniscus::level;
  r.degassed = degassed_from_text(typed.degassed);
  r.person = typed.person;
  r.note = typed.note;
  for (const std::string& shown : typed.shown) {
    const NotedMark m = one_of_several(typed, shown, noted.instrument);
    if (const auto* h = noted.instrument.hydrometer())
      instruments::require_on_scale(*h, m.value);
    else
      instruments::require_on_scale(*noted.instrument.refractometer(), m.value);
    r.typed = shown;
    r.indication = m.value;
    r.half_width = m.half_width;
    noted.records.push_back(r);
    if (!m.echo.empty()) noted.echo.push_back(fmt::format("{} {}", shown, m.echo));
  }
  return noted;
}

NotedReading amended_reading(TypedReading typed, const ReadingRecord& before,
                             const std::string& reason, const notebook::Notebook& book) {
  const auto keep = [](std::string& text, const std::string& old) {
    if (text.empty()) text = old;
  };
  if (typed.shown.empty()) typed.shown = {before.typed};
  keep(typed.instrument, book.instrument(before.instrument).name());
  const bool new_temperature = !typed.temperature.empty();
  const bool same_accuracy = !new_temperature && typed.temperature_accuracy.empty();
  keep(typed.temperature, before.temperature_typed);
  if (before.thermometer && !new_temperature)
    keep(typed.thermometer, book.instrument(*before.thermometer).name());
  keep(typed.bottle, before.bottle);
  keep(typed.person, before.person);
  keep(typed.note, before.note);
  if (before.degassed) keep(typed.degassed, *before.degassed ? "yes" : "no");
  keep(typed.made_at, before.made_at.text());
  typed.original = typed.original || before.stage == notebook::Stage::original;
  typed.top = typed.top || before.meniscus == instruments::Meniscus::top;
  NotedReading noted = note_reading(typed, book.batch(before.batch), book);
  ReadingRecord& r = noted.records.front();
  if (same_accuracy) r.temperature_half_width_c = before.temperature_half_width_c;
  // Another instrument makes another sample: repeats are of one.
  if (r.instrument == before.instrument) r.sample = before.sample;
  r.amends = before.id;
  r.reason = reason;
  return noted;
}

}  // namespace areo::entry
