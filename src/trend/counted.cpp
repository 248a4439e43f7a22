// SPDX-License-Identifier: GPL-3.0-or-later
#include "counted.hpp"

#include <utility>

#include "areo/core/error.hpp"
#include "areo/measurement/original.hpp"
#include "areo/trend/groups.hpp"

namespace areo::trend {
namespace {

using Counted = std::map<std::size_t, double>;

void count_middles(Counted& counted, batch::Batch& batch, const Runs& runs, std::size_t begin,
                   const std::vector<double>& days) {
  Series seen;
  std::vector<std::size_t> number;
  for (std::size_t i = 0; i < days.size(); ++i) {
    const batch::Sample& sample = *runs.samples[begin + i];
    try {
      seen.gravity.push_back(measurement::seen_gravity(batch.sample_of(sample)));
    } catch (const Error&) {
      continue;  // a list that shows it says why
    }
    seen.days.push_back(days[i]);
    seen.lifted.push_back(batch.is_lifted(sample));
    number.push_back(begin + i);
  }
  seen.errors = numeric::SharedErrors{seen.size()};
  const Groups groups = grouped(seen);
  for (std::size_t k = 0; k < groups.middle.size(); ++k)
    counted.emplace(number[groups.middle[k]], groups.series.days[k]);
}

}  // namespace

Runs runs_of(const batch::Batch& batch, std::vector<const batch::Sample*> samples) {
  Runs runs{std::move(samples), {}};
  for (std::size_t i = 1; i < runs.samples.size(); ++i)
    if (batch.added_between(*runs.samples[i - 1], *runs.samples[i], runs.samples.back()->bottle()))
      runs.ends.push_back(i);
  if (!runs.samples.empty()) runs.ends.push_back(runs.samples.size());
  return runs;
}

Counted counted_of(batch::Batch& batch, const Runs& runs, Moment zero) {
  Counted counted;
  std::size_t begin = 0;
  for (const std::size_t end : runs.ends) {
    std::vector<double> days;
    for (std::size_t i = begin; i < end; ++i)
      days.push_back(days_between(zero, runs.samples[i]->at()));
    if (days_of_group(days) > 0)
      count_middles(counted, batch, runs, begin, days);
    else
      for (std::size_t i = begin; i < end; ++i) counted.emplace(i, days[i - begin]);
    begin = end;
  }
  return counted;
}

double days_between(Moment from, Moment to) {
  constexpr double day_s = 86400;
  return static_cast<double>(to.seconds - from.seconds) / day_s;
}

}  // namespace areo::trend
