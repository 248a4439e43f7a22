// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/changes.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "record_value.hpp"

namespace areo::wording {
namespace {

using notebook::ReadWith;

// Calls act(first, last) for all that is of one batch, liquid or instrument.
template <class Act>
void each_group(const std::vector<ReadWith>& all, const Act& act) {
  for (auto first = all.begin(); first != all.end();) {
    const auto last = std::find_if(first, all.end(), [&](const ReadWith& r) {
      return r.what != first->what || r.of != first->of;
    });
    act(first, last);
    first = last;
  }
}

std::string of_text(const ReadWith& r) {
  switch (r.what) {
    case ReadWith::What::reading: return r.of;
    case ReadWith::What::pair: return "the liquid " + r.of;
    case ReadWith::What::check: return "the checks of " + r.of;
  }
  return "";
}

const char* plural(ReadWith::What what, bool many) {
  switch (what) {
    case ReadWith::What::reading: return many ? "readings" : "reading";
    case ReadWith::What::pair: return many ? "pairs" : "pair";
    case ReadWith::What::check: return many ? "checks" : "check";
  }
  return "";
}

const char* key_of(ReadWith::What what) {
  switch (what) {
    case ReadWith::What::reading: return "batch";
    case ReadWith::What::pair: return "liquid";
    case ReadWith::What::check: return "instrument";
  }
  return "";
}

}  // namespace

std::vector<std::string> changes_lines(const std::vector<ReadWith>& all) {
  constexpr std::ptrdiff_t listed = 8;
  std::vector<std::string> lines;
  each_group(all, [&](auto first, auto last) {
    const auto n = last - first;
    std::vector<notebook::Id> ids;
    for (auto r = first; r != last; ++r) ids.push_back(r->id);
    const std::string which =
        n <= listed ? fmt::format("{} {}", plural(first->what, n > 1), fmt::join(ids, ", "))
                    : fmt::format("{} {}", n, plural(first->what, true));
    const std::string from = first->made_at.date();
    const std::string to = (last - 1)->made_at.date();
    lines.push_back(
        fmt::format("changes the results of {}: {}, {}", of_text(*first), which,
                    from == to ? "of " + from : fmt::format("from {} to {}", from, to)));
  });
  return lines;
}

text::Json changes_value(const std::vector<ReadWith>& all) {
  text::Json groups = text::Json::array();
  each_group(all, [&](auto first, auto last) {
    text::Json ids = text::Json::array();
    for (auto r = first; r != last; ++r) ids.push_back(r->id);
    groups.push_back(
        {{key_of(first->what), first->of}, {plural(first->what, true), std::move(ids)}});
  });
  return groups;
}

}  // namespace areo::wording
