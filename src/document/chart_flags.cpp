// SPDX-License-Identifier: GPL-3.0-or-later
#include "chart_flags.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "chart_words.hpp"

namespace areo::document {
namespace {

using Events = std::vector<std::pair<std::string, double>>;

constexpr double gap = 4;    // between a pole and its text
constexpr double apart = 8;  // between texts
constexpr std::size_t most_rows = 4;

double far_end(const Flag& f) { return f.text_x + (f.ends ? -1 : 1) * text_width(f.text); }

// Titles to the right of the first poles, and to the left of the others: a text that crosses the
// poles of its neighbours lies above them, and these end below it.
std::optional<Flags> split(const Events& events, std::size_t first_left, double left,
                           double right) {
  Flags all;
  double right_end = left - apart, left_end = right + apart;
  for (std::size_t i = 0; i < events.size(); ++i) {
    const auto& [title, pole] = events[i];
    const bool ends = i >= first_left;
    const Flag f{pole, title, pole + (ends ? -gap : gap), ends, 0};
    if (ends ? far_end(f) < left : far_end(f) > right) return std::nullopt;
    if (ends)
      left_end = std::min(left_end, far_end(f));
    else
      right_end = std::max(right_end, far_end(f));
    all.flags.push_back(f);
  }
  if (left_end - right_end < apart) return std::nullopt;
  for (std::size_t i = first_left; i-- > 0;)
    for (std::size_t j = i + 1; j < first_left; ++j)
      if (all.flags[j].pole < far_end(all.flags[i]) + apart)
        all.flags[i].row = std::max(all.flags[i].row, all.flags[j].row + 1);
  for (std::size_t i = first_left; i < events.size(); ++i)
    for (std::size_t j = first_left; j < i; ++j)
      if (all.flags[j].pole > far_end(all.flags[i]) - apart)
        all.flags[i].row = std::max(all.flags[i].row, all.flags[j].row + 1);
  for (const Flag& f : all.flags) all.rows = std::max(all.rows, f.row + 1);
  if (all.rows > most_rows) return std::nullopt;
  return all;
}

// Neighbours that share a number's place.
struct Group {
  std::size_t first, last;
  [[nodiscard]] std::string text() const {
    return first == last ? fmt::format("{}", first + 1) : fmt::format("{}–{}", first + 1, last + 1);
  }
  [[nodiscard]] double begin(const Events& events, double right) const {
    return std::min(events[first].second, right - text_width(text()));
  }
};

Flags numbered(const Events& events, double right) {
  std::vector<Group> groups;
  Flags all;
  all.rows = 1;
  for (std::size_t i = 0; i < events.size(); ++i) {
    groups.push_back({i, i});
    while (groups.size() > 1) {
      Group& before = groups[groups.size() - 2];
      if (groups.back().begin(events, right) >=
          before.begin(events, right) + text_width(before.text()) + apart)
        break;
      before.last = groups.back().last;
      groups.pop_back();
    }
    all.flags.push_back({events[i].second, {}, 0, false, 0});
    all.legend.push_back(fmt::format("{}: {}", i + 1, events[i].first));
  }
  for (const Group& g : groups) {
    all.flags[g.first].text = g.text();
    all.flags[g.first].text_x = g.begin(events, right);
  }
  return all;
}

}  // namespace

Flags flags_of(Events events, double left, double right) {
  if (events.empty()) return {};
  std::stable_sort(events.begin(), events.end(),
                   [](const auto& a, const auto& b) { return a.second < b.second; });
  for (std::size_t first_left = events.size() + 1; first_left-- > 0;)
    if (auto all = split(events, first_left, left, right)) return *std::move(all);
  return numbered(events, right);
}

}  // namespace areo::document
