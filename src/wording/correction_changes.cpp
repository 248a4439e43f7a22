// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/correction_changes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <span>

#include "areo/text/format.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/instrument.hpp"

namespace areo::wording {
namespace {

using batch::Batch;
using batch::CorrectionChange;
using batch::Point;
using batch::Sample;

std::string calibration_text(const std::optional<notebook::CalibrationRecord>& c) {
  return c ? fmt::format("the correction of {}", c->in_force_from.date())
           : std::string{"no correction"};
}

// "stem-1 was corrected in two ways, and they differ by 0.0012 ± 0.0007 at 1.022: readings until
// 2026-05-24 count with no correction, later ones with the correction of 2026-05-25"
std::string change_text(const CorrectionChange& c, const std::string& unit) {
  const int place = text::last_place(c.expanded);
  return fmt::format(
      "{} is corrected in two ways, which differ by {} ± {}{} at {:g}: with {} until {}, with {} "
      "after that",
      c.instrument, text::fixed(std::abs(c.difference), place), text::fixed(c.expanded, place),
      unit.empty() ? "" : " " + unit, c.indication, calibration_text(c.before),
      c.last_before.date(), calibration_text(c.after));
}

// What a point says, if an instrument counts with one calibration throughout: its strength, or how
// far the gravity fell.
std::string held_text(Batch& batch, const Point& p, const Sample* first, const CorrectionChange& c,
                      const std::optional<notebook::CalibrationRecord>& calibration) {
  const Point held = batch.point(p.sample, c.id, calibration);
  if (held.has_strength() || first == nullptr) return strength_text(held, false);
  const Point earlier = batch.point(*first, c.id, calibration);
  if (!held.computed() || !earlier.computed() || earlier.gravity().key != held.gravity().key)
    return held.computed() ? text::value_text(held.gravity().value, "")
                           : strength_text(held, false);
  const uncertainty::Value change = batch::change(earlier, held);
  return fmt::format("{} by {}", change.estimate > 0 ? "up" : "down",
                     text::value_text({std::abs(change.estimate), change.u}, ""));
}

std::string with_either(const std::string& before, const std::string& after,
                        const CorrectionChange& c) {
  return fmt::format("; with {} throughout: {}, with {}: {}", calibration_text(c.before), before,
                     calibration_text(c.after), after);
}

std::vector<measurement::Note>& notes_in(Point& p) {
  return p.drink ? p.drink->result.notes : p.alone.notes;
}

Batch& batch_of(std::span<Batch* const> batches, const ComparedReading& c) {
  return **std::find_if(batches.begin(), batches.end(),
                        [&](const Batch* b) { return b->record().name == c.batch; });
}

// Of both, in order of time, each once.
std::vector<const Sample*> behind_both(std::span<Batch* const> batches, const ComparedPair& p) {
  std::vector<const Sample*> all = batch_of(batches, *p.a).behind(p.a->point.sample);
  for (const Sample* s : batch_of(batches, *p.b).behind(p.b->point.sample))
    if (std::none_of(all.begin(), all.end(),
                     [&](const Sample* known) { return known->first().id == s->first().id; }))
      all.push_back(s);
  std::stable_sort(all.begin(), all.end(),
                   [](const Sample* x, const Sample* y) { return x->at() < y->at(); });
  return all;
}

std::string held_text(std::span<Batch* const> batches, const ComparedPair& p,
                      const CorrectionChange& c,
                      const std::optional<notebook::CalibrationRecord>& calibration) {
  std::vector<ComparedReading> two{*p.a, *p.b};
  for (ComparedReading& one : two) {
    one.point = batch_of(batches, one).point(one.point.sample, c.id, calibration);
    if (!one.point.has_strength()) return strength_text(one.point, false);
  }
  return stronger_text(pairs_of(two, batches, std::nullopt).front());
}

}  // namespace

std::vector<std::string> note_corrections(Batch& batch, std::vector<Point>& points) {
  std::set<std::string> done;
  std::vector<std::string> all;
  std::for_each(points.rbegin(), points.rend(), [&](Point& p) {
    if (!p.computed() || !done.insert(p.sample.bottle()).second) return;
    const std::vector<const Sample*> behind = batch.behind(p.sample);
    const auto first = std::find_if(behind.begin(), behind.end(), [&](const Sample* s) {
      return s->first().stage == p.sample.first().stage &&
             s->first().instrument == p.sample.first().instrument;
    });
    const Sample* from = *first == &p.sample ? nullptr : *first;
    for (const CorrectionChange& c : batch.correction_changes(behind)) {
      all.push_back(change_text(c, unit_of(batch.shelf().instrument(c.id))) +
                    with_either(held_text(batch, p, from, c, c.before),
                                held_text(batch, p, from, c, c.after), c));
      notes_in(p).emplace_back(measurement::note::Said{all.back()});
    }
  });
  return all;
}

std::vector<std::string> notes_on_corrections(std::span<Batch* const> batches,
                                              std::span<const ComparedPair> pairs) {
  std::vector<std::string> all;
  for (const ComparedPair& p : pairs)
    for (const CorrectionChange& c : batches.front()->correction_changes(behind_both(batches, p)))
      all.push_back(
          change_text(c, unit_of(batches.front()->shelf().instrument(c.id))) +
          with_either(held_text(batches, p, c, c.before), held_text(batches, p, c, c.after), c));
  return all;
}

}  // namespace areo::wording
