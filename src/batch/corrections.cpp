// SPDX-License-Identifier: GPL-3.0-or-later
// Two corrections of one instrument in one batch.
#include <algorithm>
#include <cmath>
#include <map>
#include <memory>

#include "areo/batch/batch.hpp"
#include "areo/notebook/recompute.hpp"

namespace areo::batch {
namespace {

using notebook::CalibrationRecord;
using notebook::Id;

// Readings with one calibration of an instrument, or with none.
struct Use {
  std::optional<Id> calibration;
  Moment last;
  std::vector<double> indications;
};

using Uses = std::map<Id, std::vector<Use>>;  // by instrument, in order of the first reading

void note_use(std::vector<Use>& uses, const std::optional<Id>& calibration, Moment at,
              double indication) {
  auto use = std::find_if(uses.begin(), uses.end(),
                          [&](const Use& u) { return u.calibration == calibration; });
  if (use == uses.end()) use = uses.insert(uses.end(), Use{calibration, at, {}});
  use->last = at;
  use->indications.push_back(indication);
}

// In order of their time.
Uses uses_of(notebook::InstrumentHistory& shelf, std::span<const Sample* const> samples) {
  Uses uses;
  for (const Sample* s : samples)
    for (const notebook::ReadingRecord& r : s->readings) {
      note_use(uses[r.instrument], shelf.calibration(r.instrument, s->at()), s->at(), r.indication);
      if (r.thermometer && r.temperature_c)
        note_use(uses[*r.thermometer], shelf.calibration(*r.thermometer, s->at()), s->at(),
                 *r.temperature_c);
    }
  return uses;
}

// Two corrections at one place of the scale.
struct Step {
  double indication = 0, difference = 0, expanded = 0;
  [[nodiscard]] double ratio() const { return std::abs(difference) / expanded; }
};

constexpr double two_sided_95 = 1.96;  // of a normal distribution

// Where the most certain difference is.
Step largest(const std::vector<Step>& steps) {
  return *std::max_element(steps.begin(), steps.end(),
                           [](const Step& a, const Step& b) { return a.ratio() < b.ratio(); });
}

class Judge {
 public:
  Judge(const notebook::Notebook& book, const notebook::InstrumentRecord& instrument)
      : book_{&book}, instrument_{&instrument}, all_{book.calibrations(instrument.id)} {}

  // Nothing if they do not differ significantly.
  [[nodiscard]] std::optional<Step> step(const Use& before, const Use& after) const {
    std::vector<Step> steps;
    const CalibrationRecord* a = find(before.calibration);
    const CalibrationRecord* b = find(after.calibration);
    if (a != nullptr && b != nullptr) {
      const calibration::Drift drift = notebook::drift(*book_, *instrument_, *a, *b);
      if (drift.verdict == calibration::DriftVerdict::none_seen ||
          drift.verdict == calibration::DriftVerdict::same_checks)
        return std::nullopt;
      for (const calibration::DriftPoint& p : drift.points)
        steps.push_back({p.indication, p.difference, p.expanded});
    }
    if (steps.empty()) steps = at_readings(before, after, a, b);
    const Step most = largest(steps);
    return most.ratio() > 1 ? std::optional{most} : std::nullopt;
  }

  [[nodiscard]] std::optional<CalibrationRecord> record(const Use& use) const {
    const CalibrationRecord* c = find(use.calibration);
    return c != nullptr ? std::optional{*c} : std::nullopt;
  }

 private:
  [[nodiscard]] const CalibrationRecord* find(const std::optional<Id>& id) const {
    const auto found = std::find_if(all_.begin(), all_.end(),
                                    [&](const CalibrationRecord& c) { return c.id == id; });
    return found != all_.end() ? &*found : nullptr;
  }
  // What was never checked is taken as right within a division: a check that finds it wrong says
  // so by its own uncertainty. Two that share no part of the scale are taken as independent.
  [[nodiscard]] std::vector<Step> at_readings(const Use& before, const Use& after,
                                              const CalibrationRecord* a,
                                              const CalibrationRecord* b) const {
    const auto correction = [&](const CalibrationRecord* c) {
      return c != nullptr ? notebook::correction_of(*book_, *instrument_, *c)
                          : instruments::Correction{};
    };
    const instruments::Correction of_a = correction(a);
    const instruments::Correction of_b = correction(b);
    std::vector<Step> steps;
    for (const auto* use : {&before, &after})
      for (const double r : use->indications)
        steps.push_back(
            {r, of_b.at(r) - of_a.at(r),
             two_sided_95 * std::hypot(of_a.uncertainty_at(r), of_b.uncertainty_at(r))});
    return steps;
  }
  const notebook::Notebook* book_;
  const notebook::InstrumentRecord* instrument_;
  std::vector<CalibrationRecord> all_;
};

}  // namespace

std::vector<const Sample*> Batch::behind(const Sample& sample) const {
  std::vector<const Sample*> all;
  for (const Sample& s : samples_)
    if ((s.bottle().empty() || s.bottle() == sample.bottle()) && s.at() <= sample.at() &&
        s.first().id != sample.first().id)
      all.push_back(&s);
  all.push_back(&sample);
  return all;
}

Point Batch::point(const Sample& sample, Id instrument,
                   const std::optional<notebook::CalibrationRecord>& calibration) {
  const auto release = [](notebook::InstrumentHistory* shelf) { shelf->release(); };
  const std::unique_ptr<notebook::InstrumentHistory, decltype(release)> afterwards{&shelf_,
                                                                                   release};
  shelf_.hold(instrument, calibration ? std::optional{calibration->id} : std::nullopt);
  return point(sample);
}

std::vector<CorrectionChange> Batch::correction_changes(std::span<const Sample* const> samples) {
  std::vector<CorrectionChange> changes;
  if (between_ == notebook::InstrumentHistory::Between::interpolated) return changes;
  for (const auto& [id, uses] : uses_of(shelf_, samples)) {
    if (uses.size() < 2) continue;
    const Judge judge{*notebook_, shelf_.instrument(id)};
    std::optional<CorrectionChange> most;
    for (std::size_t i = 0; i < uses.size(); ++i)
      for (std::size_t j = i + 1; j < uses.size(); ++j) {
        const auto step = judge.step(uses[i], uses[j]);
        if (!step || (most && step->ratio() <= std::abs(most->difference) / most->expanded))
          continue;
        most = CorrectionChange{.instrument = shelf_.instrument(id).name(),
                                .id = id,
                                .before = judge.record(uses[i]),
                                .after = judge.record(uses[j]),
                                .last_before = uses[i].last,
                                .indication = step->indication,
                                .difference = step->difference,
                                .expanded = step->expanded};
      }
    if (most) changes.push_back(std::move(*most));
  }
  return changes;
}

}  // namespace areo::batch
