// SPDX-License-Identifier: GPL-3.0-or-later
#include "batch_change.hpp"

#include <fmt/format.h>

#include <cmath>

#include "areo/analysis/difference.hpp"
#include "areo/batch/expectation.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/batch.hpp"
#include "areo/wording/check.hpp"

namespace areo::wording {

using batch::Batch;
using batch::Point;
using batch::Sample;

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
  return change && !change->added && analysis::has_risen(change->gravity);
}

}  // namespace areo::wording
