// SPDX-License-Identifier: GPL-3.0-or-later
#include <utility>

#include "areo/wording/batch.hpp"
#include "areo/wording/batch_history.hpp"
#include "areo/wording/reading.hpp"
#include "areo/wording/strength.hpp"
#include "batch_change.hpp"
#include "record_value.hpp"
#include "result_value.hpp"

namespace areo::wording {

using batch::Batch;
using batch::Point;
using batch::Sample;
using notebook::ReadingRecord;

namespace {

bool is_closed(const notebook::Notebook& book, notebook::Id batch) {
  const auto events = book.events(batch);
  return !events.empty() && events.back().closed;
}

}  // namespace

text::Json numbers_value(const Sample& sample) {
  text::Json ids = text::Json::array();
  for (const ReadingRecord& r : sample.readings) ids.push_back(r.id);
  return ids;
}

std::string batch_json(const notebook::Notebook& book, const notebook::BatchRecord& r) {
  return text::dump({{"batch", r.name},
                     {"drink", r.drink},
                     {"culture", notebook::word(r.culture)},
                     {"vessel", r.vessel},
                     {"volume_l", text::number_json(r.volume_l)},
                     {"extract", r.extract.empty() ? "mixed" : r.extract},
                     {"liquid", r.liquid},
                     {"started_at", r.started_at.text()},
                     {"closed", is_closed(book, r.id)},
                     {"note", r.note}});
}

std::string addition_json(const notebook::Notebook& book, const notebook::AdditionRecord& r) {
  return text::dump({{"addition", r.id},
                     {"bottle", r.bottle},
                     {"what", notebook::word(r.what)},
                     {"made_at", r.made_at.text()},
                     {"mass_g", text::number_json(r.mass_g)},
                     {"volume_l", text::number_json(r.volume_l)},
                     {"extract_percent", text::number_json(r.extract_percent)},
                     {"other", r.other ? text::Json(book.batch(*r.other).name) : text::Json()},
                     {"into_l", text::number_json(r.into_l)},
                     {"person", r.person},
                     {"note", r.note},
                     {"excluded", text::text_json(r.excluded())}});
}

std::string point_json(Batch& batch, const Point& point) {
  const ReadingRecord& first = point.sample.first();
  text::Json indications = text::Json::array();
  for (const ReadingRecord& r : point.sample.readings)
    indications.push_back(text::number_json(r.indication));
  text::Json head{{"readings", numbers_value(point.sample)},
                  {"batch", batch.record().name},
                  {"bottle", first.bottle},
                  {"stage", notebook::word(first.stage)},
                  {"made_at", first.made_at.text()},
                  {"instrument", batch.shelf().instrument(first.instrument).name()},
                  {"indications", std::move(indications)},
                  {"temperature_c", text::number_json(first.temperature_c)},
                  {"degassed", text::or_null(first.degassed)},
                  {"person", first.person},
                  {"note", first.note}};
  if (!point.computed()) {
    head["refused"] = point.refused;
    return json_line({}, std::move(head));
  }
  if (point.drink) {
    head["state"] = word(point.drink->state);
    add_bound(head, *point.drink);
    if (point.lifted && point.drink->has_strength())
      head["alcohol_at_least_percent_vol"] =
          text::number_json(analysis::strength_bounds(*point.drink).lower);
  }
  if (const auto change = change_of(batch, point))
    head["change"] = {{"since", change->since->at().text()},
                      {"value", text::number_json(change->gravity.estimate)},
                      {"standard_uncertainty", text::number_json(change->gravity.u)},
                      {"expanded_uncertainty", text::number_json(change->gravity.expanded())},
                      {"addition_between", change->added}};
  return json_line(point.result(), std::move(head));
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

void each_batch_json(Batch& batch, const notebook::Notebook& book,
                     const std::function<void(const std::string&)>& line) {
  line(batch_json(book, batch.record()));
  std::vector<const Sample*> samples;
  samples.reserve(batch.samples().size());
  for (const Sample& s : batch.samples()) samples.push_back(&s);
  each_point_json(batch, samples, shown_points(batch, false), line);
  for (const auto& a : batch.additions()) line(addition_json(book, a));
  for (const ReadingRecord& r : batch.readings())
    if (!r.counts()) line(left_out_json(r));
}

}  // namespace areo::wording
