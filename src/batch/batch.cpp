// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/batch/batch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <memory>
#include <numeric>
#include <set>

#include "areo/analysis/difference.hpp"
#include "areo/core/error.hpp"
#include "areo/instruments/repeated.hpp"
#include "areo/notebook/recompute.hpp"

namespace areo::batch {
namespace {

using measurement::Addition;
using measurement::Original;
using notebook::AdditionRecord;
using notebook::ReadingRecord;
using notebook::Stage;
using notebook::Substance;

// Readings that count, those of one sample and instrument together.
std::vector<Sample> samples_of(const std::vector<ReadingRecord>& readings) {
  std::vector<Sample> all;
  std::map<std::pair<notebook::Id, notebook::Id>, std::size_t> known;
  for (const ReadingRecord& r : readings) {
    if (!r.counts()) continue;
    const auto [at, is_new] = known.emplace(std::pair{r.sample, r.instrument}, all.size());
    if (is_new) all.emplace_back();
    all[at->second].readings.push_back(r);
  }
  return all;
}

measurement::ExtractKind kind_of(const notebook::Notebook& book,
                                 const notebook::BatchRecord& batch) {
  if (!batch.liquid.empty()) {
    const auto factor = notebook::liquid_factor(book, batch.liquid);
    return {batch.liquid, factor.optics,
            "pairs of readings of " + batch.liquid + " in the notebook", factor.remarks};
  }
  const std::string word = batch.extract.empty() ? "mixed" : batch.extract;
  if (const auto kind = measurement::extract_kind_from_word(word)) return *kind;
  throw Error{Errc::store, fmt::format("the notebook holds an unknown kind of extract '{}'", word)};
}

constexpr std::array substances{std::pair{Substance::sugar, Addition::Substance::sugar},
                                std::pair{Substance::juice, Addition::Substance::juice},
                                std::pair{Substance::water, Addition::Substance::water},
                                std::pair{Substance::salt, Addition::Substance::salt},
                                std::pair{Substance::acid, Addition::Substance::acid},
                                std::pair{Substance::batch, Addition::Substance::drink}};

Addition::Substance substance_of(Substance what) {
  return std::find_if(substances.begin(), substances.end(),
                      [&](const auto& s) { return s.first == what; })
      ->second;
}

// Of the batch as a whole, or of this bottle.
bool concerns(const std::string& of, const std::string& bottle) {
  return of.empty() || of == bottle;
}

// The mean of the repeats, for either kind of reading.
template <class Reading>
void take_mean(Reading& reading, const Sample& sample, double division,
               const uncertainty::Repeatability& pooled) {
  std::vector<double> shown;
  for (const ReadingRecord& r : sample.readings) {
    shown.push_back(r.indication);
    reading.half_width = std::max(reading.half_width, r.half_width);
  }
  reading.indication =
      std::accumulate(shown.begin(), shown.end(), 0.0) / static_cast<double>(shown.size());
  if (shown.size() == 1 && pooled.degrees_of_freedom < instruments::enough_degrees_of_freedom)
    return;
  const double half_width = reading.half_width > 0 ? reading.half_width : division / 2;
  reading.repeated = instruments::mean_of(shown, half_width, pooled);
}

std::optional<double> mean_temperature(const Sample& sample) {
  double sum = 0;
  int n = 0;
  for (const ReadingRecord& r : sample.readings)
    if (r.temperature_c) {
      sum += *r.temperature_c;
      ++n;
    }
  if (n == 0) return std::nullopt;
  return sum / n;
}

}  // namespace

std::vector<std::size_t> listed(std::span<const Sample* const> samples) {
  constexpr std::size_t readable = 60;
  std::vector<std::size_t> all;
  std::map<std::string, std::string> day_of_bottle;  // of the one after it
  for (std::size_t i = samples.size(); i-- > 0;) {
    const std::string day = samples[i]->at().date();
    std::string& after = day_of_bottle[samples[i]->bottle()];
    if (samples.size() <= readable || samples[i]->first().stage == Stage::original || day != after)
      all.push_back(i);
    after = day;
  }
  std::reverse(all.begin(), all.end());
  return all;
}

const measurement::Quantity& Point::gravity() const {
  if (!computed()) throw Error{Errc::domain, "nothing was computed: " + refused};
  if (drink) return drink->result.at("sg_20_20_present");
  return alone.at(sample.first().stage == Stage::original ? "sg_20_20_original" : "sg_20_20");
}

std::string Sample::name() const {
  return first().id == 0 ? "this reading" : fmt::format("reading {}", first().id);
}

uncertainty::Value change(const Point& earlier, const Point& later) {
  return analysis::difference(earlier.result(), later.result(), later.gravity().key);
}

Batch::Batch(const notebook::Notebook& notebook, std::string_view name, Moment as_of,
             notebook::InstrumentHistory::Between between)
    : notebook_{&notebook},
      as_of_{as_of},
      between_{between},
      shelf_{notebook, between},
      settings_{notebook.settings()},
      record_{notebook.batch(name, as_of)},
      readings_{notebook.readings(record_.id, as_of)},
      additions_{notebook.additions(record_.id, as_of)},
      samples_{samples_of(readings_)} {
  for (std::size_t i = 0; i < samples_.size(); ++i)
    if (samples_[i].first().stage == Stage::original) originals_.push_back(i);
}

std::vector<const Sample*> Batch::samples(const std::string& bottle) const {
  const auto filled = std::find_if(samples_.begin(), samples_.end(),
                                   [&](const Sample& s) { return s.bottle() == bottle; });
  std::vector<const Sample*> all;
  for (auto s = samples_.begin(); s != samples_.end(); ++s)
    if (s->bottle() == bottle || (s->bottle().empty() && s < filled)) all.push_back(&*s);
  return all;
}

const measurement::ExtractKind& Batch::kind() {
  if (!kind_) kind_ = kind_of(*notebook_, record_);
  return *kind_;
}

std::vector<std::string> Batch::bottles() const {
  std::set<std::string> all;
  for (const ReadingRecord& r : readings_) all.insert(r.bottle);
  for (const AdditionRecord& a : additions_) all.insert(a.bottle);
  return {all.begin(), all.end()};
}

std::vector<const AdditionRecord*> Batch::additions_until(const std::string& bottle,
                                                          When at) const {
  std::vector<const AdditionRecord*> all;
  for (const AdditionRecord& a : additions_)
    if (a.excluded().empty() && concerns(a.bottle, bottle) && when(a) <= at) all.push_back(&a);
  return all;
}

Original Batch::original(const std::string& bottle, Moment at) {
  return original(bottle, When{at.seconds, std::numeric_limits<std::int64_t>::max()});
}

Original Batch::original(const std::string& bottle, When at) {
  std::vector<const Sample*> read;
  for (const std::size_t i : originals_) {
    const Sample& s = samples_[i];
    if (concerns(s.bottle(), bottle) && when(s.first()) <= at) read.push_back(&s);
  }
  Original o{{}, record_.volume_l, {}, kind()};
  if (read.empty()) return o;
  const When newest = when(read.back()->first());
  When since{std::numeric_limits<std::int64_t>::min(), 0};
  bool in_bottle = false;
  for (const AdditionRecord* a : additions_until(bottle, at)) {
    // Of one moment, as of two bare dates: what was added went into what had been read.
    if (when(*a) < newest) {
      since = when(*a);
      continue;
    }
    o.additions.push_back(addition_of(*a));
    // What goes into the batch after something went into the bottle is shared out again.
    if (a->bottle.empty() && in_bottle && !a->into_l) o.additions.back().into_l = record_.volume_l;
    in_bottle = in_bottle || !a->bottle.empty();
  }
  for (const Sample* s : read)
    if (when(s->first()) > since) o.readings.push_back(sample_of(*s));
  return o;
}

std::vector<std::string> Batch::contradictions(const Original& o) const {
  std::vector<measurement::Result> each;
  for (const measurement::OriginalSample& s : o.readings)
    each.push_back(original_gravity(Original{{s}, {}, {}, o.kind},
                                    fmt::format("original sample {}", each.size() + 1)));
  constexpr const char* key = "sg_20_20_original";
  std::vector<std::string> all;
  for (std::size_t i = 0; i < each.size(); ++i)
    for (std::size_t j = i + 1; j < each.size(); ++j) {
      const auto d = analysis::difference(each[i], each[j], key);
      if (std::abs(d.estimate) <= d.expanded()) continue;
      all.push_back(fmt::format(
          "original gravities {:.4f} and {:.4f} differ by more than their uncertainty: is one of "
          "another liquid? their mean counts until areo reading exclude keeps one out",
          each[i].at(key).value.estimate, each[j].at(key).value.estimate));
    }
  return all;
}

Addition Batch::addition_of(const AdditionRecord& r) {
  Addition a;
  // With its number: two bottles may each get as much on one day.
  a.name = fmt::format("{} of {}, addition {}", word(r.what), r.made_at.date(), r.id);
  a.substance = substance_of(r.what);
  a.mass_g = r.mass_g;
  a.volume_l = r.volume_l;
  a.into_l = r.into_l;
  if (!r.bottle.empty() && !r.into_l)
    throw Error{
        Errc::inconsistent,
        fmt::format("{} went into bottle {}, and nobody said how much was there", a.name, r.bottle),
        fmt::format("exclude addition {} and note it anew with --into", r.id)};
  if (r.extract_percent) {
    a.extract = ExtractFraction{*r.extract_percent / 100};
    a.extract_half_width = r.extract_half_width.value_or(0) / 100;
  }
  if (r.other) {
    // As it was just before: what two batches gave each other comes to an end somewhere.
    const std::string name = notebook_->batch(*r.other).name;
    Batch other{*notebook_, name, as_of_, between_};
    const auto drink = other.original("", Moment{r.made_at.seconds - 1, 0});
    if (drink.readings.empty())
      throw Error{Errc::inconsistent,
                  fmt::format("{} has no original gravity, so {} is unknown", name, a.name)};
    a.drink = std::make_shared<const Original>(drink);
  }
  return a;
}

measurement::OriginalSample Batch::sample_of(const Sample& sample) {
  const ReadingRecord& first = sample.first();
  const notebook::InstrumentRecord& record = shelf_.instrument(first.instrument);
  const instruments::Correction correction = shelf_.correction(first.instrument, first.made_at);
  const auto& pooled = shelf_.repeatability(first.instrument, first.person);
  const auto temperature = [&](Temperature reference) {
    return shelf_.temperature(reference, mean_temperature(sample), first.temperature_half_width_c,
                              first.thermometer, first.made_at);
  };
  if (const auto* h = record.hydrometer()) {
    measurement::HydrometerSample s{{*h, correction}, {}};
    take_mean(s.reading, sample, h->division, pooled);
    s.reading.temperature = temperature(h->scale.reference());
    s.reading.meniscus = first.meniscus;
    return s;
  }
  const auto* r = record.refractometer();
  if (r == nullptr)
    throw Error{Errc::store, fmt::format("{} is a thermometer, so reading {} is not of a drink",
                                         record.name(), first.id)};
  measurement::RefractometerSample s{{*r, correction}, {}};
  take_mean(s.reading, sample, r->division, pooled);
  s.reading.temperature = temperature(celsius_point(20));
  return s;
}

void Batch::compute(Point& point, ferment::Culture culture) {
  const ReadingRecord& first = point.sample.first();
  const measurement::OriginalSample sample = sample_of(point.sample);
  const std::string name = point.sample.name();
  if (first.stage == Stage::original) {
    point.alone = original_gravity(Original{{sample}, {}, {}, kind()}, name);
    return;
  }
  const Original start = original(first.bottle, when(first));
  if (!start.readings.empty()) {
    point.drink = alcohol(sample, start, culture, name);
    return;
  }
  const auto* h = std::get_if<measurement::HydrometerSample>(&sample);
  if (h == nullptr)
    throw Error{Errc::inconsistent,
                "no original gravity, and a refractometer alone cannot tell sugar from alcohol"};
  point.alone = correct(h->instrument, h->reading, std::array{physics::sg_20_20}, name);
}

Point Batch::point(const Sample& sample, ferment::Culture culture) {
  Point point{sample};
  try {
    compute(point, culture);
  } catch (const Error& e) {
    point.refused = e.what();
    return point;
  }
  auto& notes = point.drink ? point.drink->result.notes : point.alone.notes;
  note_odd_repeats(sample, notes);
  point.lifted = is_lifted(sample);
  if (point.drink) point.drink->lifted = point.lifted;
  if (point.lifted) notes.emplace_back(measurement::note::NotDegassed{});
  return point;
}

bool Batch::is_lifted(const Sample& sample) {
  return sample.first().degassed == false &&
         shelf_.instrument(sample.first().instrument).hydrometer() != nullptr;
}

Point Batch::preview(std::vector<ReadingRecord> readings) {
  for (ReadingRecord& r : readings) r.batch = record_.id;
  return point({std::move(readings)});
}

bool Batch::added_between(const Sample& earlier, const Sample& later,
                          const std::string& bottle) const {
  const auto all = additions_until(bottle, when(later.first()));
  return std::any_of(all.begin(), all.end(),
                     [&](const AdditionRecord* a) { return when(*a) > when(earlier.first()); });
}

bool Batch::added_since(const Sample& sample, const std::string& bottle) const {
  constexpr std::int64_t end = std::numeric_limits<std::int64_t>::max();
  const auto all = additions_until(bottle, {end, end});
  return std::any_of(all.begin(), all.end(),
                     [&](const AdditionRecord* a) { return when(*a) > when(sample.first()); });
}

// Two readings of one sample do not differ by more divisions than this; a judgement.
constexpr double odd_divisions = 2;

void Batch::note_odd_repeats(const Sample& sample, std::vector<measurement::Note>& notes) {
  const auto [least, most] = std::minmax_element(
      sample.readings.begin(), sample.readings.end(),
      [](const ReadingRecord& a, const ReadingRecord& b) { return a.indication < b.indication; });
  const double division = shelf_.instrument(sample.first().instrument).graduation().division;
  if (most->indication - least->indication <= odd_divisions * division * (1 + 1e-9)) return;
  notes.emplace_back(measurement::note::RepeatsApart{
      least->id, most->id, (most->indication - least->indication) / division});
}

std::vector<Point> Batch::points() {
  std::vector<Point> all;
  all.reserve(samples_.size());
  for (const Sample& s : samples_) all.push_back(point(s));
  return all;
}

const Sample* Batch::before(const Sample& sample) const {
  // In order of time, then as noted.
  auto at = std::lower_bound(samples_.begin(), samples_.end(), sample.at(),
                             [](const Sample& s, Moment m) { return s.at() < m; });
  while (at != samples_.end() && at->at() == sample.at() && at->first().id != sample.first().id)
    ++at;
  while (at != samples_.begin()) {
    --at;
    if (at->bottle() == sample.bottle() && at->first().stage == sample.first().stage &&
        at->first().instrument == sample.first().instrument)
      return &*at;
  }
  return nullptr;
}

}  // namespace areo::batch
