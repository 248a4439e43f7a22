// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/stream/import_row.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <fstream>
#include <sstream>
#include <utility>

#include "areo/core/date_order.hpp"
#include "areo/core/error.hpp"
#include "areo/core/nearest.hpp"
#include "areo/text/parse.hpp"

namespace areo::stream {
namespace {

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(" \t\r");
  if (first == std::string::npos) return "";
  return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

}  // namespace

const std::vector<std::string>& import_fields() {
  static const std::vector<std::string> fields{
      "batch",       "bottle",      "stage",    "date",     "time",   "instrument", "reading",
      "temperature", "thermometer", "degassed", "meniscus", "person", "note",       "sample"};
  return fields;
}

std::map<std::string, text::ColumnMeaning> mapping_from_file(const std::string& file) {
  std::ifstream whole{file};
  if (!whole)
    throw Error{Errc::file, fmt::format("{} cannot be read", file),
                "check the name and its rights"};
  constexpr std::streamsize most = 1 << 20;
  std::string lines(most, '\0');
  whole.read(lines.data(), most);
  if (whole.gcount() == most)
    throw Error{Errc::file, fmt::format("{} is longer than any mapping", file),
                "name the file with the lines: their column = reading, P"};
  lines.resize(static_cast<std::size_t>(whole.gcount()));
  std::istringstream in{std::move(lines)};
  std::map<std::string, text::ColumnMeaning> mapping;
  std::string text;
  for (int number = 1; std::getline(in, text); ++number) {
    text = trimmed(text);
    if (text.empty() || text.front() == '#') continue;
    const auto equals = text.find('=');
    const auto comma = text.find(',', equals == std::string::npos ? 0 : equals);
    if (equals == std::string::npos)
      throw Error{Errc::file, fmt::format("{}:{}: '{}' maps nothing", file, number, text),
                  "write: their column = reading, P"};
    const std::string field = trimmed(text.substr(equals + 1, comma - equals - 1));
    const auto& fields = import_fields();
    if (std::find(fields.begin(), fields.end(), field) == fields.end()) {
      const std::string near = nearest(field, fields);
      throw Error{Errc::file, fmt::format("{}:{}: areo has no field '{}'", file, number, field),
                  near.empty() ? fmt::format("one of {}", fmt::join(fields, ", "))
                               : fmt::format("did you mean '{}'?", near)};
    }
    mapping[trimmed(text.substr(0, equals))] = {
        field, comma == std::string::npos ? "" : text::unit_from_header(text.substr(comma + 1))};
  }
  return mapping;
}

ImportedReading imported_reading(const ImportRow& row, const ImportDefaults& defaults,
                                 const notebook::Notebook& book, std::string& failed_field) {
  const auto field = [&](const char* name, const std::string& otherwise = {}) {
    const auto found = row.find(name);
    return found == row.end() || found->second.empty() ? otherwise : found->second;
  };
  const auto needed = [&](const char* name, const std::string& otherwise = {}) {
    failed_field = name;
    std::string text = field(name, otherwise);
    if (text.empty())
      throw Error{Errc::inconsistent, fmt::format("no {}", name),
                  "fill the cell, or leave the row out"};
    return text;
  };
  const auto batch = book.batch(needed("batch", defaults.batch));
  entry::TypedReading typed;
  typed.made_at = needed("date");
  if (const std::string time = field("time"); !time.empty()) typed.made_at += "T" + time;
  // Words that count from today mean another day by the time that a table comes in.
  typed.made_at = iso_from_table(typed.made_at, {});
  (void)moment_from_text(typed.made_at);
  (void)past_moment_from_text(typed.made_at, now());
  typed.shown = {needed("reading")};
  failed_field = "stage";
  const std::string stage = field("stage", "present");
  if (stage != "original" && stage != "present")
    throw ParseError{"a stage is original or present", stage, 0, stage.size()};
  typed.original = stage == "original";
  failed_field = "meniscus";
  const std::string meniscus = field("meniscus", "level");
  if (meniscus != "top" && meniscus != "level")
    throw ParseError{"the meniscus is read at the top or level", meniscus, 0, meniscus.size(),
                     "write top or level"};
  typed.top = meniscus == "top";
  failed_field = "degassed";
  typed.degassed = field("degassed");
  (void)entry::degassed_from_text(typed.degassed);
  failed_field = "temperature";
  typed.temperature = field("temperature");
  if (!typed.temperature.empty()) {
    (void)text::sample_celsius_from_text(typed.temperature, typed.original);
    typed.thermometer = field("thermometer", defaults.thermometer);
  }
  failed_field = "instrument";
  typed.instrument = entry::instrument_for(field("instrument", defaults.instrument), book).name();
  typed.bottle = field("bottle");
  typed.person = field("person", defaults.person);
  typed.note = field("note");
  failed_field = "reading";
  return {entry::note_reading(typed, batch, book).records.front(), field("sample")};
}

KnownReadings::Key KnownReadings::key_of(const notebook::ReadingRecord& r) {
  return {r.made_at.seconds, r.instrument, r.bottle,   r.stage,  r.indication,
          r.temperature_c,   r.meniscus,   r.degassed, r.person, r.note};
}

bool KnownReadings::known(const notebook::ReadingRecord& r) {
  auto batch = left_.find(r.batch);
  if (batch == left_.end()) {
    batch = left_.emplace(r.batch, std::map<Key, int>{}).first;
    // Amended ones too: a file that brought the slip brings it again.
    for (const auto& there : book_->readings(r.batch)) ++batch->second[key_of(there)];
  }
  const auto found = batch->second.find(key_of(r));
  if (found == batch->second.end() || found->second == 0) return false;
  --found->second;
  return true;
}

}  // namespace areo::stream
