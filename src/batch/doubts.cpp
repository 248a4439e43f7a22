// SPDX-License-Identifier: GPL-3.0-or-later
// Doubts about additions, batches and checks.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <numeric>
#include <tuple>

#include "areo/batch/expectation.hpp"
#include "moments.hpp"

namespace areo::batch {
namespace {

using notebook::AdditionRecord;
using notebook::CheckRecord;
using notebook::Substance;

bool same_addition(const AdditionRecord& a, const AdditionRecord& b) {
  return std::tie(a.bottle, a.what, a.mass_g, a.volume_l, a.extract_percent, a.other, a.into_l,
                  a.person, a.note) == std::tie(b.bottle, b.what, b.mass_g, b.volume_l,
                                                b.extract_percent, b.other, b.into_l, b.person,
                                                b.note);
}

void about_amount(const AdditionRecord& a, double into_l, Doubts& doubts) {
  if (a.mass_g) {
    const double g_l = *a.mass_g / into_l;
    const double most = a.what == Substance::sugar  ? most_sugar_g_l
                        : a.what == Substance::salt ? most_salt_g_l
                        : a.what == Substance::acid ? most_acid_g_l
                                                    : 1000 * most_volume_ratio;
    if (g_l > most)
      doubts.push_back(
          fmt::format("{} into {:.3g} L are {:.0f} g to a litre; more than {:g} is "
                      "rarely meant",
                      a.amount_typed, into_l, g_l, most));
    return;
  }
  if (a.volume_l && *a.volume_l > most_volume_ratio * into_l)
    doubts.push_back(fmt::format("{} into {:.3g} L: more than {:g} times what was there",
                                 a.amount_typed, into_l, most_volume_ratio));
}

double most_off(const notebook::InstrumentRecord& instrument) {
  const notebook::Graduation g = instrument.graduation();
  const double most = most_check_divisions * std::max(g.division, g.maximum_permissible_error);
  return instrument.thermometer() != nullptr ? std::max(most, most_thermometer_error_c) : most;
}

bool same_check(const CheckRecord& a, const CheckRecord& b) {
  const auto masses = [](const CheckRecord& r) {
    return r.solution ? std::pair{r.solution->solute_g, r.solution->water_g} : std::pair{0.0, 0.0};
  };
  return std::tie(a.method, a.reading, a.temperature_c, a.thermometer, a.meniscus, a.correction,
                  a.expanded, a.pressure_pa, a.note) ==
             std::tie(b.method, b.reading, b.temperature_c, b.thermometer, b.meniscus, b.correction,
                      b.expanded, b.pressure_pa, b.note) &&
         masses(a) == masses(b);
}

}  // namespace

// A batch while a table goes into it.
struct Incoming::Filling {
  Batch batch;
  Expectation expectation;

  Filling(const notebook::Notebook& notebook, notebook::Id id)
      : batch{notebook, notebook.batch(id).name}, expectation{batch} {}
};

Incoming::Incoming(const notebook::Notebook& notebook) : notebook_{&notebook} {}
Incoming::~Incoming() = default;

std::vector<Doubts> Incoming::doubts(
    const std::vector<std::vector<notebook::ReadingRecord>>& samples) {
  std::vector<std::size_t> in_time(samples.size());
  std::iota(in_time.begin(), in_time.end(), std::size_t{0});
  const auto order = [&](std::size_t i) {
    const notebook::ReadingRecord& r = samples[i].front();
    // Of one moment, an original comes first.
    return std::tuple{r.made_at.seconds, r.stage != notebook::Stage::original};
  };
  std::stable_sort(in_time.begin(), in_time.end(),
                   [&](std::size_t a, std::size_t b) { return order(a) < order(b); });
  std::vector<Doubts> all(samples.size());
  for (const std::size_t i : in_time) {
    std::unique_ptr<Filling>& filling = batches_[samples[i].front().batch];
    if (!filling) filling = std::make_unique<Filling>(*notebook_, samples[i].front().batch);
    all[i] = filling->expectation.of(samples[i]);
    if (all[i].empty()) filling->expectation.accept(samples[i]);
  }
  for (const auto& [batch, filling] : batches_) filling->expectation.keep_neighbours();
  return all;
}

Doubts doubts(Batch& batch, const AdditionRecord& a) {
  Doubts doubts;
  const Moment start = batch.record().started_at;
  if (a.made_at.date() < start.date() &&
      std::none_of(batch.samples().begin(), batch.samples().end(),
                   [&](const Sample& s) { return s.at().date() <= a.made_at.date(); }))
    doubts.push_back(fmt::format("{} is before {} began, {}", moment_text(a.made_at),
                                 batch.record().name, start.date()));
  for (const AdditionRecord& there : batch.additions())
    if (there.excluded().empty() && same_addition(there, a) && at_once(there, a)) {
      doubts.push_back(fmt::format("{} of {} is addition {} already: typed twice?", a.amount_typed,
                                   moment_text(a.made_at), there.id));
      break;
    }
  const std::optional<double> volume = batch.record().volume_l;
  if (const auto into = a.into_l ? a.into_l : volume) about_amount(a, *into, doubts);
  if (a.into_l && volume && *a.into_l > most_volume_ratio * *volume)
    doubts.push_back(fmt::format("into {}, where {} holds {}", a.into_typed, batch.record().name,
                                 batch.record().volume_typed));
  return doubts;
}

Doubts doubts(const notebook::BatchRecord& batch, Moment now) {
  Doubts doubts;
  if (batch.volume_l && (*batch.volume_l < least_batch_l || *batch.volume_l > most_batch_l))
    doubts.push_back(fmt::format("a batch of {}: less than {:g} L or more than {:g} L",
                                 batch.volume_typed, least_batch_l, most_batch_l));
  const double days = static_cast<double>(now.seconds - batch.started_at.seconds) / seconds_per_day;
  if (days > oldest_batch_days)
    doubts.push_back(fmt::format("a batch since {}, more than {:g} days ago",
                                 batch.started_at.date(), oldest_batch_days));
  return doubts;
}

Doubts doubts(const notebook::InstrumentRecord& instrument, const CheckRecord& check,
              const calibration::Check& evaluated, std::span<const CheckRecord> others) {
  Doubts doubts;
  const notebook::Graduation g = instrument.graduation();
  const double expected = evaluated.expected.estimate, expanded = evaluated.expected.expanded();
  const double most = most_off(instrument);
  if (expected - expanded > g.hi + most || expected + expanded < g.lo - most)
    doubts.push_back(
        fmt::format("{} would show {:.4g} there, and its scale goes from {:.4g} to "
                    "{:.4g}",
                    instrument.name(), expected, g.lo, g.hi));
  else if (const double off = std::abs(evaluated.correction.estimate);
           off > most + evaluated.correction.expanded())
    doubts.push_back(
        fmt::format("{} shows {} where {:.4g} is expected: {:.2g} off, {:.0f} divisions",
                    instrument.name(), check.reading_typed, expected, off, off / g.division));
  for (const CheckRecord& there : others) {
    // When a check was noted is not kept.
    const std::int64_t apart = std::abs(there.made_at.seconds - check.made_at.seconds);
    const bool at_once = apart == 0 || (!of_a_day(there.made_at) && apart <= typed_twice_s);
    if (!at_once || !same_check(there, check)) continue;
    doubts.push_back(fmt::format("{} of {} is check {} already: typed twice?", check.reading_typed,
                                 moment_text(check.made_at), there.id));
    break;
  }
  return doubts;
}

}  // namespace areo::batch
