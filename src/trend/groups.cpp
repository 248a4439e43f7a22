// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/trend/groups.hpp"

#include <algorithm>
#include <cmath>

namespace areo::trend {
namespace {

constexpr double most_a_day = 8, shortest_days = 0.25, most_groups = 200;

// The one in the middle by its gravity.
std::size_t middle_of(const Series& s, std::vector<std::size_t> all) {
  const auto middle = all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2);
  std::nth_element(all.begin(), middle, all.end(),
                   [&](std::size_t a, std::size_t b) { return s.gravity[a] < s.gravity[b]; });
  return *middle;
}

}  // namespace

double days_of_group(std::span<const double> days) {
  if (days.size() < 3) return 0;
  const auto n = static_cast<double>(days.size());
  const double span = days.back() - days.front();
  if (n > most_a_day * (span + 1)) return std::max(shortest_days, span / most_groups);
  return n > most_groups ? span / most_groups : 0;
}

Groups grouped(const Series& s) {
  Groups g;
  const double length = days_of_group(s.days);
  for (std::size_t i = 0; i < s.size(); ++i) {
    const auto cell = [&](std::size_t k) { return std::floor(s.days[k] / length); };
    if (i == 0 || length == 0 || cell(i) != cell(i - 1)) g.members.emplace_back();
    g.members.back().push_back(i);
  }
  for (const auto& all : g.members) {
    std::vector<std::size_t> clear;
    for (const std::size_t i : all)
      if (!s.is_lifted(i)) clear.push_back(i);
    g.middle.push_back(middle_of(s, clear.empty() ? all : clear));
  }
  g.series = s.only(g.middle);
  for (std::size_t k = 0; k < g.members.size(); ++k) {
    double sum = 0;
    for (const std::size_t i : g.members[k]) sum += s.days[i];
    g.series.days[k] = sum / static_cast<double>(g.members[k].size());
  }
  return g;
}

}  // namespace areo::trend
