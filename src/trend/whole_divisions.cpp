// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/whole_divisions.hpp"

#include <algorithm>
#include <cmath>

namespace areo::trend {
namespace {

constexpr double nearly = 0.01;  // of a division: what digits of another unit leave

constexpr std::size_t least_points = 4, least_on_marks = 4, on_marks_for_each_other = 3;

}  // namespace

Noted::Noted(double indication, double division)
    : divisions{indication / division},
      on_a_mark{std::abs(divisions - std::round(divisions)) < nearly} {}

Noted noted_of(const batch::Sample& sample, notebook::InstrumentHistory& shelf) {
  Noted mean;
  for (const notebook::ReadingRecord& r : sample.readings) {
    const auto& instrument = shelf.instrument(r.instrument);
    const Noted one{r.indication, instrument.graduation().division};
    mean.divisions += one.divisions / static_cast<double>(sample.readings.size());
    mean.on_a_mark = mean.on_a_mark && one.on_a_mark && !(r.half_width > 0) &&
                     instrument.hydrometer() != nullptr;
  }
  return mean;
}

std::vector<Noted> noted_of(batch::Batch& batch) {
  std::vector<Noted> all;
  for (const batch::Sample& sample : batch.samples())
    all.push_back(noted_of(sample, batch.shelf()));
  return all;
}

bool in_whole_divisions(std::span<const Noted> noted) {
  std::size_t on = 0, off = 0;
  for (std::size_t i = 0; i < noted.size(); ++i)
    if (i == 0 || std::abs(noted[i].divisions - noted[i - 1].divisions) > nearly)
      ++(noted[i].on_a_mark ? on : off);
  return on > 0 && (off == 0 || (on >= least_on_marks && on >= on_marks_for_each_other * off));
}

void count_rounding(Series& series, std::span<const Noted> noted,
                    std::span<const double> rounding) {
  if (series.size() < least_points || !in_whole_divisions(noted)) return;
  for (std::size_t i = 0; i < series.size(); ++i) {
    series.errors.set_own(i, std::hypot(series.errors.own(i), rounding[i]));
    series.division = std::max(series.division, std::sqrt(12) * rounding[i]);
  }
}

}  // namespace areo::trend
