// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/stream/rise_detector.hpp"

#include <algorithm>
#include <utility>

#include "areo/analysis/difference.hpp"

namespace areo::stream {
namespace {

constexpr std::size_t most_ferments = 1000;

std::string name_of(const RowView& row, const std::string& original) {
  const bool named = row.has("batch") || row.has("bottle");
  if (!named) return original;
  const std::string batch = row["batch"];
  const std::string bottle = row["bottle"];
  return batch.empty() && bottle.empty() ? "" : batch + '\x1f' + bottle;
}

}  // namespace

void RiseDetector::flag(const RowView& row, const std::string& original,
                        measurement::Result& result, const std::string& gravity) {
  const std::string name = name_of(row, original);
  if (name.empty()) return;
  const std::string ferment = name + '\x1f' + gravity;
  Last now{ferment, {}};
  now.result.quantities = result.quantities;
  now.result.inputs = result.inputs;
  now.result.shares = result.shares;
  const auto found =
      std::find_if(last_.begin(), last_.end(), [&](const Last& l) { return l.ferment == ferment; });
  if (found != last_.end()) {
    if (analysis::has_risen(analysis::difference(found->result, now.result, gravity)))
      result.notes.emplace_back(measurement::note::Said{"jump up: bubbles or an addition?"});
    last_.erase(found);
  }
  last_.push_front(std::move(now));
  if (last_.size() > most_ferments) last_.pop_back();
}

}  // namespace areo::stream
