// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/batch_history.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/measurement/original.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/correction_changes.hpp"
#include "areo/wording/notes.hpp"

namespace areo::wording {

using batch::Batch;
using batch::Point;
using notebook::BatchRecord;
using notebook::ReadingRecord;

namespace {

// A line of the history with the moment it belongs to; of one moment, readings come before
// additions, each in the order they were noted in.
struct Row {
  std::int64_t at_s;
  bool addition;
  notebook::Id id;
  std::vector<std::string> cells;
};

std::vector<Row> rows_of(Batch& batch, const std::vector<Point>& points,
                         const notebook::Notebook& book, bool bottles, bool full) {
  std::vector<Row> rows;
  const auto add = [&](const auto& record, const std::string& number,
                       std::vector<std::string> cells) {
    cells.insert(cells.begin(), {number, when_text(record.made_at)});
    if (bottles) cells.insert(cells.begin() + 2, record.bottle);
    rows.push_back({record.made_at.seconds, number.starts_with('+'), record.id, std::move(cells)});
  };
  for (const Point& p : points)
    add(p.sample.first(), numbers_cell(p.sample),
        {sample_cell(batch, p.sample),
         p.computed() ? text::value_text(p.gravity().value, "", full) : "",
         strength_cell_text(p, full)});
  for (const ReadingRecord& r : batch.readings()) {
    if (r.counts()) continue;
    add(r, std::to_string(r.id),
        {sample_cell(batch, {{r}}), "",
         r.amended_by ? fmt::format("amended by {}", *r.amended_by) : "excluded: " + r.excluded()});
  }
  for (const auto& a : batch.additions())
    add(a, "+ " + std::to_string(a.id),
        {addition_text(book, a), "", a.excluded().empty() ? "" : "excluded: " + a.excluded()});
  std::sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) {
    return std::tie(a.at_s, a.addition, a.id) < std::tie(b.at_s, b.addition, b.id);
  });
  return rows;
}

// What was not said of the sample before, of the same bottle and instrument, already.
std::vector<std::string> news(Batch& batch, const Point& point) {
  std::vector<measurement::Note> all = point.result().notes;
  const batch::Sample* before = batch.before(point.sample);
  if (before == nullptr) return sentences(all);
  const Point earlier = batch.point(*before);
  if (!earlier.computed()) return sentences(all);
  const std::vector<measurement::Note>& said = earlier.result().notes;
  std::erase_if(
      all, [&](const auto& n) { return std::find(said.begin(), said.end(), n) != said.end(); });
  return sentences(all);
}

}  // namespace

std::vector<std::vector<std::string>> history_rows(Batch& batch, const std::vector<Point>& points,
                                                   const notebook::Notebook& book, bool bottles,
                                                   bool full) {
  const std::vector<Row> rows = rows_of(batch, points, book, bottles, full);
  if (rows.empty()) return {};
  std::vector<std::vector<std::string>> cells{
      {"no.", "when", "what", "gravity 20/20", strength_head}};
  if (bottles) cells.front().insert(cells.front().begin() + 2, "bottle");
  for (const Row& r : rows) cells.push_back(r.cells);
  return cells;
}

std::vector<std::string> original_lines(Batch& batch, const std::string& bottle, Moment at,
                                        bool full) {
  std::vector<std::string> all;
  const std::string of = bottle.empty() ? "" : " of bottle " + bottle;
  try {
    const auto original = batch.original(bottle, at);
    if (original.readings.empty()) return all;
    const auto result = original_gravity(original);
    std::string basis = fmt::format("{} sample{}", original.readings.size(),
                                    original.readings.size() == 1 ? "" : "s");
    if (!original.additions.empty())
      basis += fmt::format(" and {} addition{} since", original.additions.size(),
                           original.additions.size() == 1 ? "" : "s");
    all.push_back(fmt::format("  original gravity{} {}, from {}", of,
                              text::value_text(result.at("sg_20_20_original").value, "", full),
                              basis));
    for (const std::string& note : batch.contradictions(original)) all.push_back("note: " + note);
  } catch (const Error& e) {
    all.push_back(fmt::format("  original gravity{}: not computed, {}", of, e.what()));
    if (!e.hint.empty()) all.push_back("  hint: " + e.hint);
  }
  return all;
}

std::vector<std::string> amendment_lines(const notebook::Notebook& book, const BatchRecord& r,
                                         Moment as_of) {
  std::vector<std::string> all;
  for (const auto& a : book.amendments(r.id))
    if (a.at <= as_of)
      all.push_back(fmt::format("  {} {} became {}: {}", a.at.date(), a.field, a.value, a.reason));
  for (const auto& e : book.events(r.id))
    if (e.at <= as_of)
      all.push_back(fmt::format("  {} {}{}", e.at.date(), e.closed ? "closed" : "reopened",
                                e.note.empty() ? "" : ": " + e.note));
  return all;
}

std::vector<Point> shown_points(Batch& batch, bool all) {
  std::vector<Point> points;
  if (all) {
    points = batch.points();
  } else {
    std::vector<const batch::Sample*> samples;
    samples.reserve(batch.samples().size());
    for (const batch::Sample& s : batch.samples()) samples.push_back(&s);
    for (const std::size_t i : batch::listed(samples)) points.push_back(batch.point(*samples[i]));
  }
  (void)note_corrections(batch, points);
  return points;
}

std::vector<std::string> batch_lines(Batch& batch, const std::optional<Moment>& as_of, bool full) {
  const Moment at = as_of.value_or(now());
  std::vector<std::string> all{batch_text(batch.record())};
  if (as_of)
    all.push_back(fmt::format(
        "  as the notebook stood at the end of {}; corrections as they are known now", at.date()));
  if (!batch.record().note.empty()) all.push_back("  note: " + batch.record().note);
  const auto add = [&](const std::string& bottle) {
    const auto more = original_lines(batch, bottle, at, full);
    all.insert(all.end(), more.begin(), more.end());
  };
  add("");
  for (const std::string& bottle : batch.bottles())
    if (!bottle.empty() && !batch.original(bottle, at).additions.empty()) add(bottle);
  return all;
}

std::string listed_text(const notebook::Notebook& book, const BatchRecord& r) {
  const auto events = book.events(r.id);
  const auto count = book.count_readings(r.id);
  std::string out =
      fmt::format("{}; {} reading{}", batch_text(r), count.count, count.count == 1 ? "" : "s");
  if (count.last) out += ", the last of " + count.last->date();
  if (!events.empty() && events.back().closed) out += "; closed " + events.back().at.date();
  return out;
}

std::string next_text(const Batch& batch, const notebook::Notebook& book) {
  const std::string name = shell_word(batch.record().name);
  const auto events = book.events(batch.record().id);
  if (!events.empty() && events.back().closed)
    return fmt::format("nothing; areo batch reopen {} if it goes on", name);
  const bool has_original =
      std::any_of(batch.samples().begin(), batch.samples().end(),
                  [](const auto& s) { return s.first().stage == notebook::Stage::original; });
  return fmt::format("areo reading add {} READING --temp TEMP{}", name,
                     has_original ? "" : " --original");
}

std::vector<std::string> new_reading_lines(Batch& batch, const Point& point,
                                           const std::vector<std::string>& echo, bool full) {
  const std::string& name = batch.record().name;
  const std::string& bottle = point.sample.bottle();
  std::vector<std::string> all{
      fmt::format("{}{}: {}  (reading {})", name, bottle.empty() ? "" : ", bottle " + bottle,
                  sample_text(batch, point.sample), numbers(point.sample))};
  if (!point.computed()) {
    all.push_back("noted, but not computed: " + point.refused);
  } else {
    all.push_back(
        fmt::format("  gravity 20/20  {}", text::value_text(point.gravity().value, "", full)));
    if (point.drink) all.push_back("  alcohol        " + strength_text(point, full));
    if (const std::string change = change_text(batch, point); !change.empty())
      all.push_back("  " + change);
    for (const std::string& n : news(batch, point)) all.push_back("note: " + n);
  }
  for (const std::string& e : echo) all.push_back("note: " + e);
  const bool above = point.drink && point.drink->state == measurement::Fermentation::above;
  all.push_back(above || jumped_up(batch, point)
                    ? fmt::format("next: degas and read again; bubbles, an addition or a mixed-up "
                                  "bottle? areo reading exclude {} --reason TEXT keeps it out",
                                  point.sample.first().id)
                    : "next: read again in a day or two; areo batch show " + shell_word(name));
  return all;
}

}  // namespace areo::wording
