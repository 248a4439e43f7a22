// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What the readings of a batch say, each with the calibration that was in force when it was made
// and the original gravity as it stood then.
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "areo/measurement/original.hpp"
#include "areo/notebook/instrument_history.hpp"
#include "areo/notebook/store.hpp"

namespace areo::batch {

/// Readings of one sample with one instrument; they count as one reading, their mean.
struct Sample {
  std::vector<notebook::ReadingRecord> readings;  ///< those that count, at least one

  [[nodiscard]] const notebook::ReadingRecord& first() const { return readings.front(); }
  [[nodiscard]] Moment at() const { return first().made_at; }
  [[nodiscard]] const std::string& bottle() const { return first().bottle; }
  /// How results call it: "reading 10", by the first of its readings.
  [[nodiscard]] std::string name() const;
};

/// The samples that a list shows, by their numbers: all of up to sixty; of more, the originals and
/// of each bottle the last one of each day.
/// @param samples  in order of time
[[nodiscard]] std::vector<std::size_t> listed(std::span<const Sample* const> samples);

/// What became of a sample.
struct Point {
  Sample sample;
  /// Of a present reading with an original gravity: as measurement::alcohol().
  std::optional<measurement::AlcoholResult> drink{};
  /// Of an original, or without one: its gravity alone.
  measurement::Result alone{};
  /// Bubbles may have lifted the hydrometer: the gravity is at most what was read, and the strength
  /// at least.
  bool lifted = false;
  std::string refused{};  ///< why nothing could be computed; empty if something was

  [[nodiscard]] bool computed() const { return refused.empty(); }
  /// Whether its result holds a strength, be it an upper bound.
  [[nodiscard]] bool has_strength() const { return computed() && drink && drink->has_strength(); }
  /// The result that holds the gravity, and the gravity itself.
  /// @throws Error{domain} if nothing could be computed
  [[nodiscard]] const measurement::Result& result() const { return drink ? drink->result : alone; }
  [[nodiscard]] const measurement::Quantity& gravity() const;
};

/// Readings that are compared count with different corrections of one instrument.
struct CorrectionChange {
  std::string instrument;
  notebook::Id id = 0;  ///< of the instrument
  /// In order of the first reading with each; nothing: without a calibration.
  std::optional<notebook::CalibrationRecord> before, after;
  Moment last_before;  ///< last reading with the one
  /// Of the later correction against the earlier one, where it is most certain: 95 %, and beyond
  /// it.
  double indication = 0, difference = 0, expanded = 0;
};

/// Gravity of a later point minus that of an earlier one of the same ferment. The scale, the glass
/// and the thermometer that they share cancel.
/// @throws Error{domain} unless both were computed, and in the same way
[[nodiscard]] uncertainty::Value change(const Point& earlier, const Point& later);

/// A batch as the notebook stood at a moment.
class Batch {
 public:
  /// @param notebook must outlive it
  /// @param between  the correction of a reading between two calibrations
  /// @throws Error{store} if there is no such batch
  Batch(const notebook::Notebook& notebook, std::string_view name,
        Moment as_of = notebook::end_of_time,
        notebook::InstrumentHistory::Between between =
            notebook::InstrumentHistory::Between::in_force);

  [[nodiscard]] const notebook::BatchRecord& record() const { return record_; }
  /// All of them, also what does not count. In order of time.
  [[nodiscard]] const std::vector<notebook::ReadingRecord>& readings() const { return readings_; }
  [[nodiscard]] const std::vector<notebook::AdditionRecord>& additions() const {
    return additions_;
  }
  /// Samples with at least one reading that counts, in order of time.
  [[nodiscard]] const std::vector<Sample>& samples() const { return samples_; }
  /// Those of a bottle, and of the batch before it was filled; "" is the batch as a whole.
  [[nodiscard]] std::vector<const Sample*> samples(const std::string& bottle) const;
  /// Names of the bottles that were read or added to, in order; "" is the batch as a whole.
  [[nodiscard]] std::vector<std::string> bottles() const;

  /// The original liquid of a bottle as it stood at a moment: the readings marked original, of the
  /// bottle or of the whole batch, since the last addition before the newest of them, and the
  /// additions since. Its list of readings is empty without such a reading.
  /// @throws Error{inconsistent} for an addition to a bottle that does not say to how much, or of a
  ///         batch without an original gravity; Error{domain}, Error{store} for what is computed
  ///         from unusable rows
  [[nodiscard]] measurement::Original original(const std::string& bottle, Moment at);
  /// Original gravities of original() that contradict each other, one sentence for each pair. They
  /// count all the same.
  [[nodiscard]] std::vector<std::string> contradictions(
      const measurement::Original& original) const;
  /// Refusals of the models are kept in the point: a bad reading stops no other.
  [[nodiscard]] Point point(const Sample& sample) { return point(sample, record_.culture); }
  /// The same as if another culture had fermented it.
  [[nodiscard]] Point point(const Sample& sample, ferment::Culture culture);
  /// The same as if an instrument had counted with one calibration, or none, at all times.
  [[nodiscard]] Point point(const Sample& sample, notebook::Id instrument,
                            const std::optional<notebook::CalibrationRecord>& calibration);
  /// The corrections of one instrument, or thermometer, that these samples mix though they differ
  /// significantly: beyond the 95 % of their difference; of none and one, beyond the 95 % of that
  /// one. None with interpolation, which is there to bridge them.
  [[nodiscard]] std::vector<CorrectionChange> correction_changes(
      std::span<const Sample* const> samples);
  /// What a result of a sample may rest on: those of its bottle and of the batch as a whole until
  /// then, and the sample itself.
  [[nodiscard]] std::vector<const Sample*> behind(const Sample& sample) const;
  /// The same for readings that are not in the notebook yet, at least one.
  [[nodiscard]] Point preview(std::vector<notebook::ReadingRecord> readings);
  /// Of all samples, in order of time.
  [[nodiscard]] std::vector<Point> points();
  /// The last sample of the same bottle and stage, with the same instrument, before this one.
  [[nodiscard]] const Sample* before(const Sample& sample) const;
  /// Whether something was added to a bottle after one sample and before another; that of the later
  /// one unless stated.
  [[nodiscard]] bool added_between(const Sample& earlier, const Sample& later) const {
    return added_between(earlier, later, later.bottle());
  }
  [[nodiscard]] bool added_between(const Sample& earlier, const Sample& later,
                                   const std::string& bottle) const;
  /// Whether something was added to a bottle, or to the whole batch, after a sample.
  [[nodiscard]] bool added_since(const Sample& sample, const std::string& bottle) const;
  /// Whether bubbles may have lifted the hydrometer in it.
  [[nodiscard]] bool is_lifted(const Sample& sample);
  /// A sample as a model takes it: the mean of its repeats, with what its instrument and
  /// thermometer were at that time.
  [[nodiscard]] measurement::OriginalSample sample_of(const Sample& sample);
  [[nodiscard]] notebook::InstrumentHistory& shelf() { return shelf_; }
  /// Of its notebook, for whoever tells something of it.
  [[nodiscard]] const notebook::Settings& settings() const { return settings_; }

 private:
  // When something was, and of what happened at one moment, when it was noted.
  using When = std::pair<std::int64_t, std::int64_t>;
  template <class Record>
  [[nodiscard]] static When when(const Record& r) {
    return {r.made_at.seconds, r.noted_at.seconds};
  }
  [[nodiscard]] measurement::Original original(const std::string& bottle, When at);
  [[nodiscard]] std::vector<const notebook::AdditionRecord*> additions_until(
      const std::string& bottle, When at) const;
  [[nodiscard]] measurement::Addition addition_of(const notebook::AdditionRecord& addition);
  [[nodiscard]] const measurement::ExtractKind& kind();
  void compute(Point& point, ferment::Culture culture);
  void note_odd_repeats(const Sample& sample, std::vector<measurement::Note>& notes);

  const notebook::Notebook* notebook_;
  Moment as_of_;
  notebook::InstrumentHistory::Between between_;
  notebook::InstrumentHistory shelf_;
  notebook::Settings settings_;
  notebook::BatchRecord record_;
  std::vector<notebook::ReadingRecord> readings_;
  std::vector<notebook::AdditionRecord> additions_;
  std::vector<Sample> samples_;
  std::vector<std::size_t> originals_;            // numbers of those of an original
  std::optional<measurement::ExtractKind> kind_;  // once it was asked for
};

/// @throws Error{inconsistent} unless the batch has such a bottle; of several one has to be named,
///         without any it is the batch
void require_bottle(const Batch& batch, const std::string& bottle);

/// What was read of the whole is old when bottles were read since.
/// @throws Error{inconsistent} if a bottle has readings of its own
void refuse_bottles(const Batch& batch);

}  // namespace areo::batch
