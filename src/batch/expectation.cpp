// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/batch/expectation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>
#include <tuple>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/ferment/balling.hpp"
#include "areo/physics/mixture.hpp"
#include "moments.hpp"

namespace areo::batch {
namespace {

using notebook::AdditionRecord;
using notebook::ReadingRecord;
using notebook::Stage;
using notebook::Substance;

constexpr double seconds_per_hour = 3600;

// "30 minutes", "5 hours", "2.1 days"
std::string duration_text(std::int64_t seconds) {
  const double hours = static_cast<double>(seconds) / seconds_per_hour;
  if (hours < 2) return fmt::format("{:.0f} minutes", 60 * hours);
  return hours < 48 ? fmt::format("{:.0f} hours", hours) : fmt::format("{:.1f} days", hours / 24);
}

bool same_reading(const ReadingRecord& a, const ReadingRecord& b) {
  return std::tie(a.instrument, a.bottle, a.stage, a.indication, a.temperature_c, a.meniscus,
                  a.degassed, a.person,
                  a.note) == std::tie(b.instrument, b.bottle, b.stage, b.indication,
                                      b.temperature_c, b.meniscus, b.degassed, b.person, b.note);
}

}  // namespace

Expectation::Expectation(Batch& batch, std::optional<notebook::Id> without) : batch_{&batch} {
  for (const Sample& s : batch.samples()) {
    if (s.readings.size() == 1 && without == s.first().id) continue;
    remember(s);
  }
}

void Expectation::remember(const Sample& sample) {
  Series& series = series_[sample.bottle()];
  const Seen seen{&sample};
  series.insert(std::upper_bound(series.begin(), series.end(), seen, before), seen);
  if (sample.first().stage == Stage::original) originals_.push_back(seen);
  if (!earliest_ || sample.at() < *earliest_) earliest_ = sample.at();
}

bool Expectation::before(const Seen& a, const Seen& b) {
  return when(a.sample->first()) < when(b.sample->first());
}

void Expectation::accept(std::vector<ReadingRecord> sample) {
  accepted_.push_back({std::move(sample)});
  remember(accepted_.back());
}

void Expectation::keep_neighbours() {
  // Samples of one moment, of both kinds of instrument, and readings that were typed twice.
  constexpr std::size_t last = 1000;
  std::set<const Sample*> kept;
  for (const Seen& o : originals_) kept.insert(o.sample);
  for (auto& [bottle, series] : series_) {
    if (series.size() > last + 1) {
      const auto end = series.end() - static_cast<std::ptrdiff_t>(last);
      series.erase(std::remove_if(series.begin() + 1, end,
                                  [&](const Seen& s) { return !kept.contains(s.sample); }),
                   end);
    }
    for (const Seen& s : series) kept.insert(s.sample);
  }
  std::erase_if(accepted_, [&](const Sample& s) { return !kept.contains(&s); });
}

bool Expectation::is_refractometer(const Sample& sample) {
  return batch_->shelf().instrument(sample.first().instrument).refractometer() != nullptr;
}

std::optional<double> Expectation::gravity_of(Seen& seen) {
  if (!seen.gravity) {
    try {
      seen.gravity.emplace(measurement::seen_gravity(batch_->sample_of(*seen.sample)));
    } catch (const Error&) {
      seen.gravity.emplace(std::nullopt);  // no liquid shows that
    }
  }
  return *seen.gravity;
}

// In specific gravity: what the eye, or the digits typed, leave of it; 1 Brix, or °P, is 0.004.
double Expectation::width_of(const Sample& sample) {
  constexpr double sg_per_percent = 0.004, sg_per_oechsle = 0.001, sg_per_kg_m3 = 0.001,
                   sg_per_baume = 0.008, sg_per_g_l = 0.0004;
  const ReadingRecord& r = sample.first();
  const notebook::InstrumentRecord& record = batch_->shelf().instrument(r.instrument);
  const double own = std::max(r.half_width, record.graduation().division / 2);
  const double without = r.temperature_c ? 0 : no_temperature_sg;
  const auto* h = record.hydrometer();
  if (h == nullptr)
    return without + own * (record.refractometer()->scale == instruments::RefractometerScale::brix
                                ? sg_per_percent
                                : 1 / 0.37);  // index 0.37 per unit of gravity
  using enum physics::ScaleKind;
  switch (h->scale.kind) {
    case plato:
    case brix: return without + own * sg_per_percent;
    case oechsle: return without + own * sg_per_oechsle;
    case density: return without + own * sg_per_kg_m3;
    case baume: return without + own * sg_per_baume;
    case sugar_concentration: return without + own * sg_per_g_l;
    case specific_gravity:
    case apparent_gravity: break;
  }
  return without + own;
}

std::optional<double> Expectation::rise_by_additions(const Sample& earlier, const Sample& later) {
  constexpr double sg_per_g_l = 0.0004;  // 0.00038 of sugar, and a little
  double rise = 0;
  for (const AdditionRecord& a : batch_->additions()) {
    const bool concerns = a.bottle.empty() || a.bottle == later.bottle();
    if (!a.excluded().empty() || !concerns || when(a) <= when(earlier.first()) ||
        when(a) > when(later.first()))
      continue;
    const std::optional<double> into = a.into_l ? a.into_l : batch_->record().volume_l;
    if (a.what != Substance::sugar || !a.mass_g || !into) return std::nullopt;
    rise += sg_per_g_l * *a.mass_g / *into;
  }
  return rise;
}

// "1.15": where a nought slipped in or out, what would be near the reading beside it.
std::string Expectation::slip_text(const Seen& candidate, double reference) {
  const ReadingRecord& r = candidate.sample->first();
  const auto& record = batch_->shelf().instrument(r.instrument);
  const auto* h = record.hydrometer();
  if (h == nullptr || h->scale.kind != physics::ScaleKind::specific_gravity) return "";
  for (const double factor : {10.0, 0.1}) {
    const double meant = 1 + (r.indication - 1) * factor;
    if (std::abs(meant - reference) <= largest_lift_sg && meant >= h->lo && meant <= h->hi)
      return fmt::format("; was it {:.4g}?", meant);
  }
  return "";
}

void Expectation::compare(Seen& earlier, Seen& later, bool later_is_new, Doubts& doubts) {
  const auto first = gravity_of(earlier), second = gravity_of(later);
  if (!first || !second) return;
  const auto added = rise_by_additions(*earlier.sample, *later.sample);
  if (!added) return;
  const Moment from = earlier.sample->at(), to = later.sample->at();
  const double slack = largest_lift_sg + width_of(*earlier.sample) + width_of(*later.sample);
  const double rise = *second - *first;
  const std::int64_t known_s = to.seconds - from.seconds;
  const std::int64_t most_s =
      known_s + (of_a_day(from) || of_a_day(to) ? seconds_per_day : std::int64_t{0});
  const double fall_allowed =
      fastest_fall_sg_per_hour * static_cast<double>(most_s) / seconds_per_hour + slack;
  const Seen& candidate = later_is_new ? later : earlier;
  const Seen& other = later_is_new ? earlier : later;
  const std::string beside =
      fmt::format("{} of {}{}", other.sample->first().typed, moment_text(other.sample->at()),
                  other.sample->first().stage == Stage::original ? ", the original" : "");
  const std::string slip = slip_text(candidate, *(later_is_new ? first : second));
  if (rise > *added + slack)
    doubts.push_back(fmt::format(
        "{} is {:.4f} in gravity {} {}: nothing rises by itself, and bubbles lift by at "
        "most {}{}",
        candidate.sample->first().typed, std::abs(rise), later_is_new ? "above" : "below", beside,
        largest_lift_sg, slip));
  else if (-rise > fall_allowed)
    doubts.push_back(fmt::format("{} is {:.4f} in gravity {} {}, {} {}: no ferment falls so fast{}",
                                 candidate.sample->first().typed, std::abs(rise),
                                 later_is_new ? "below" : "above", beside, duration_text(known_s),
                                 later_is_new ? "earlier" : "later", slip));
}

// The last of the same kind, or an original, unless it is of another sample of the very reading.
Expectation::Seen* Expectation::comparable_before(Series& series, const Seen& candidate) {
  const bool refractometer = is_refractometer(*candidate.sample);
  for (auto at = std::upper_bound(series.begin(), series.end(), candidate, before);
       at != series.begin();) {
    --at;
    if (at->sample == candidate.sample) continue;
    if (at->sample->first().stage == Stage::original ||
        is_refractometer(*at->sample) == refractometer)
      return &*at;
  }
  return nullptr;
}

bool Expectation::far_apart(Seen& earlier, Seen& later) {
  Doubts doubts;
  compare(earlier, later, true, doubts);
  return !doubts.empty();
}

// Whether one that is passed over was far from what came before it is asked in the same way, so
// many readings back at most.
Expectation::Seen* Expectation::earlier_of(Seen& candidate, int back) {
  const std::string& bottle = candidate.sample->bottle();
  const auto before = [&](const Seen& of) -> Seen* {
    if (const auto own = series_.find(bottle); own != series_.end())
      if (Seen* found = comparable_before(own->second, of)) return found;
    // A bottle began as the batch did.
    const auto whole = series_.find("");
    return bottle.empty() || whole == series_.end() ? nullptr
                                                    : comparable_before(whole->second, of);
  };
  Seen* earlier = before(candidate);
  for (; back > 0 && earlier != nullptr && far_apart(*earlier, candidate); --back) {
    Seen* sound = earlier_of(*earlier, back - 1);
    if (sound == nullptr || !far_apart(*sound, *earlier)) break;
    earlier = sound;
  }
  return earlier;
}

const Sample* Expectation::compared_with(const Sample& sample) {
  Seen candidate{&sample};
  // One that is noted already is no sample before itself.
  for (const Seen& s : series_[sample.bottle()])
    if (sample.first().id != 0 && s.sample->first().id == sample.first().id)
      candidate.sample = s.sample;
  const Seen* earlier = earlier_of(candidate);
  return earlier == nullptr ? nullptr : earlier->sample;
}

void Expectation::about_neighbours(Seen& candidate, Doubts& doubts) {
  const bool original = candidate.sample->first().stage == Stage::original;
  const auto own = series_.find(candidate.sample->bottle());
  if (Seen* earlier = earlier_of(candidate)) compare(*earlier, candidate, true, doubts);
  if (own == series_.end()) return;
  const bool refractometer = is_refractometer(*candidate.sample);
  for (auto at = std::upper_bound(own->second.begin(), own->second.end(), candidate, before);
       at != own->second.end(); ++at)
    if (original || is_refractometer(*at->sample) == refractometer) {
      compare(candidate, *at, false, doubts);
      return;
    }
}

// What was fermenting was no original liquid, unless something went in since.
const Sample* Expectation::fermented_before(const Sample& original) const {
  for (const auto& [bottle, series] : series_) {
    if (!original.bottle().empty() && bottle != original.bottle()) continue;
    for (const Seen& s : series) {
      if (s.sample->at() > original.at()) break;
      if (s.sample->first().stage == Stage::present &&
          surely_later(original.at(), s.sample->at()) &&
          !batch_->added_between(*s.sample, original))
        return s.sample;
    }
  }
  return nullptr;
}

// An original that is later than a reading of the ferment, if there is none before that.
const Sample* Expectation::original_after(const Sample& present) const {
  const Sample* first = nullptr;
  for (const Seen& o : originals_) {
    if (!o.sample->bottle().empty() && o.sample->bottle() != present.bottle()) continue;
    if (!surely_later(o.sample->at(), present.at())) return nullptr;
    if (first == nullptr) first = o.sample;
  }
  return first;
}

void Expectation::about_the_original(Seen& candidate, Doubts& doubts) {
  const ReadingRecord& r = candidate.sample->first();
  const bool original = r.stage == Stage::original;
  if (const auto gravity = gravity_of(candidate); original && gravity) {
    if (*gravity < least_original_sg)
      doubts.push_back(fmt::format("{} as an original: hardly anything to ferment{}", r.typed,
                                   slip_text(candidate, 1 + (*gravity - 1) * 10)));
    else if (*gravity > most_coarse_original_sg && r.half_width > 0)
      doubts.push_back(fmt::format("{} as an original, with a digit less than {} shows{}", r.typed,
                                   batch_->shelf().instrument(r.instrument).name(),
                                   slip_text(candidate, 1 + (*gravity - 1) / 10)));
  }
  const Sample* clash =
      original ? fermented_before(*candidate.sample) : original_after(*candidate.sample);
  if (clash == nullptr) return;
  doubts.push_back(
      original
          ? fmt::format("an original of {}, after {} of {} was read while it fermented",
                        moment_text(r.made_at), clash->first().typed, moment_text(clash->at()))
          : fmt::format("a reading of {}, before the original, {} of {}", moment_text(r.made_at),
                        clash->first().typed, moment_text(clash->at())));
}

// What the last original before it leaves when all of it has fermented. With an addition since, the
// result's own check has to do.
void Expectation::about_the_floor(Seen& candidate, Doubts& doubts) {
  const ReadingRecord& r = candidate.sample->first();
  const auto gravity = gravity_of(candidate);
  if (!gravity) {
    doubts.push_back(fmt::format("{} at its temperature is no liquid that areo knows", r.typed));
    return;
  }
  if (r.stage == Stage::original || is_refractometer(*candidate.sample)) return;
  Seen* original = nullptr;  // the last one
  for (Seen& o : originals_)
    if ((o.sample->bottle().empty() || o.sample->bottle() == r.bottle) && !before(candidate, o) &&
        (original == nullptr || before(*original, o)))
      original = &o;
  if (original == nullptr || batch_->added_between(*original->sample, *candidate.sample)) return;
  const auto begun = gravity_of(*original);
  if (!begun) return;
  const ExtractFraction none{0};
  const auto all = physics::liquid_from_mark(physics::sg_20_20, *begun).extract;
  if (!(all.value() > 0)) return;
  const EthanolFraction dry = ferment::ethanol_from_extracts(all, none);
  if (!(dry.value() < physics::mixture_ethanol_range.hi)) return;
  const double floor = physics::mark_from_liquid(physics::sg_20_20, {none, dry});
  const double slack = largest_lift_sg + width_of(*candidate.sample) + width_of(*original->sample);
  if (*gravity < floor - slack)
    doubts.push_back(fmt::format(
        "{} is {:.4f} in gravity, lower than {:.4f}, which all of the original {} would leave{}",
        r.typed, *gravity, floor, original->sample->first().typed, slip_text(candidate, *begun)));
}

void Expectation::about_dates(const Sample& sample, Doubts& doubts) {
  const Moment at = sample.at(), start = batch_->record().started_at;
  if (at.date() >= start.date() || (earliest_ && earliest_->date() <= at.date())) return;
  doubts.push_back(fmt::format("{} is before {} began, {}", moment_text(at), batch_->record().name,
                               start.date()));
}

void Expectation::about_repeats(const Sample& sample, Doubts& doubts) {
  const auto series = series_.find(sample.bottle());
  if (series == series_.end()) return;
  const auto near = [](const Seen& s, std::int64_t at) { return s.sample->at().seconds < at; };
  for (auto s = std::lower_bound(series->second.begin(), series->second.end(),
                                 sample.at().seconds - typed_twice_s, near);
       s != series->second.end() && s->sample->at().seconds <= sample.at().seconds + typed_twice_s;
       ++s) {
    const auto& there = s->sample->readings;
    if (there.size() != sample.readings.size() || !at_once(there.front(), sample.first()) ||
        !std::equal(there.begin(), there.end(), sample.readings.begin(), same_reading))
      continue;
    doubts.push_back(
        fmt::format("{} of {} {}: typed twice?", sample.first().typed, moment_text(sample.at()),
                    there.front().id != 0 ? fmt::format("is reading {} already", there.front().id)
                                          : "stands there once more"));
    return;
  }
}

Doubts Expectation::of(const std::vector<ReadingRecord>& readings) {
  const Sample sample{readings};
  Seen candidate{&sample};
  Doubts doubts;
  about_dates(sample, doubts);
  about_the_original(candidate, doubts);
  about_repeats(sample, doubts);
  about_the_floor(candidate, doubts);
  about_neighbours(candidate, doubts);
  return doubts;
}

}  // namespace areo::batch
