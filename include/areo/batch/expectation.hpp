// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What the notebook expects of the next reading, addition, check or batch. One rule for every way
// in: whatever is impossible, or far from what is expected, is a doubt, and a doubt is asked about
// before anything is noted.
#include <cstdint>
#include <list>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "areo/batch/batch.hpp"
#include "areo/calibration/check.hpp"

namespace areo::batch {

/// Why something should be looked at again, one sentence without its point each; none: as expected.
using Doubts = std::vector<std::string>;

// Thresholds. They are wide: what ferments do, and what eyes and bubbles do to a reading, passes; a
// digit that slipped by one place does not. All are common practice without a source or engineering
// judgements, and none of them enters a result.

/// Half a cubic centimetre of bubbles, more than a stem holds that was looked at, lifts a
/// hydrometer of 50 g by this. Between additions a gravity never rises by itself, so that more than
/// this, and what both readings leave in doubt, is another digit, another bottle, or an addition
/// that was not noted.
inline constexpr double largest_lift_sg = 0.010;
/// A vigorous, warm ferment falls by 0.02 to 0.03 in a day; this is 0.05.
inline constexpr double fastest_fall_sg_per_hour = 0.002;
/// What a reading without temperature may be off by: 5 °C away from 20 °C, 0.001, and as much for
/// whoever reads in a warm kitchen.
inline constexpr double no_temperature_sg = 0.002;
/// Less holds 13 g of sugar in a litre, and ferments to 0.6 % vol; more, typed without its third
/// decimal, is rather 1.015 than 1.150.
inline constexpr double least_original_sg = 1.005, most_coarse_original_sg = 1.100;
/// Two readings made within this time that are the same in every respect are one, typed twice:
/// washing, filling and settling take longer. Repeats of a sample are typed together.
inline constexpr std::int64_t typed_twice_s = 600;
/// In grams to a litre of what was there. Sugar: 250 g/L ferment to 15 % vol, more than one feed of
/// a strong mead. Salt and acid: up to 5 % and 2 %; beyond, little ferments and nobody drinks it.
inline constexpr double most_sugar_g_l = 250, most_salt_g_l = 50, most_acid_g_l = 20;
/// Water, juice or part of a batch: how often as much as was there.
inline constexpr double most_volume_ratio = 2;
/// Of a batch in litres: less is a sample, more no kitchen and no small cidery has. In days since
/// it began: nobody starts a notebook with an older one.
inline constexpr double least_batch_l = 0.1, most_batch_l = 1000, oldest_batch_days = 1100;
/// An instrument that is further off than so many divisions, or tolerances if they are larger,
/// beyond the expanded uncertainty, was misread, or the solution was mistyped; 5 °C of a
/// thermometer at least, as kitchen thermometers go.
inline constexpr double most_check_divisions = 5, most_thermometer_error_c = 5;

/// Of the readings of one batch. Only neighbours in time are compared, so that a long series costs
/// no more than a short one.
class Expectation {
 public:
  /// @param batch    must outlive it
  /// @param without  a reading that is to be amended: it no longer counts
  explicit Expectation(Batch& batch, std::optional<notebook::Id> without = std::nullopt);

  /// Doubts about readings of one sample that are to be noted:
  /// - no liquid shows that, or it is lower than fermenting everything could make it;
  /// - it rose, or fell, more than largest_lift_sg and fastest_fall_sg_per_hour allow since the
  ///   reading before it of the same bottle, or does so until the one after it. Readings of a
  ///   hydrometer are compared with such, of a refractometer with such, and both with an original;
  ///   none across an addition, but for the sugar that one brought;
  /// - an original of a liquid that hardly ferments, or above 1.100 where a digit is missing;
  /// - the same reading twice;
  /// - an original later than a reading of the ferment, without an addition in between, or a
  ///   reading of the ferment before its original;
  /// - dated before the day on which the batch began, and before everything that counts already.
  /// @param sample  at least one, of this batch and of one instrument and moment
  [[nodiscard]] Doubts of(const std::vector<notebook::ReadingRecord>& sample);
  /// What a sample is compared with: the last one before it of the same kind. One that somebody
  /// noted although it was far from what came before it says nothing of what follows: where the
  /// sample is far from it too, the last one before that.
  /// @return nothing: none
  [[nodiscard]] const Sample* compared_with(const Sample& sample);
  /// From now on the sample counts as if it were in the notebook.
  void accept(std::vector<notebook::ReadingRecord> sample);
  /// Of what was accepted only originals and the first and last samples of each bottle are kept: no
  /// more is compared with what comes later.
  void keep_neighbours();

 private:
  static constexpr int most_passed_over = 4;  // slips that one after the other were noted
  struct Seen {
    const Sample* sample;
    std::optional<std::optional<double>> gravity{};  // once it was asked for; nothing: none
  };
  using Series = std::vector<Seen>;  // of one bottle, in order of time

  static bool before(const Seen& a, const Seen& b);
  void remember(const Sample& sample);
  [[nodiscard]] std::optional<double> gravity_of(Seen& seen);
  /// How far two readings may be apart by what is not known of them.
  [[nodiscard]] double width_of(const Sample& sample);
  [[nodiscard]] bool is_refractometer(const Sample& sample);
  /// Extract that was added between two moments, as a rise of the gravity; nothing: not known.
  [[nodiscard]] std::optional<double> rise_by_additions(const Sample& earlier, const Sample& later);
  [[nodiscard]] const Sample* fermented_before(const Sample& original) const;
  [[nodiscard]] const Sample* original_after(const Sample& present) const;
  void compare(Seen& earlier, Seen& later, bool later_is_new, Doubts& doubts);
  [[nodiscard]] Seen* comparable_before(Series& series, const Seen& candidate);
  [[nodiscard]] Seen* earlier_of(Seen& candidate, int back = most_passed_over);
  [[nodiscard]] bool far_apart(Seen& earlier, Seen& later);
  void about_neighbours(Seen& candidate, Doubts& doubts);
  void about_the_original(Seen& candidate, Doubts& doubts);
  void about_the_floor(Seen& candidate, Doubts& doubts);
  void about_dates(const Sample& sample, Doubts& doubts);
  void about_repeats(const Sample& sample, Doubts& doubts);
  [[nodiscard]] std::string slip_text(const Seen& candidate, double reference);

  Batch* batch_;
  std::map<std::string, Series> series_;
  std::vector<Seen> originals_;  // of all bottles
  std::list<Sample> accepted_;
  std::optional<Moment> earliest_;  // of what counts
};

/// Doubts about samples that come from a table, many at a time: each is judged in the order of time
/// as if those before it were noted that raised none, so that one slip throws no doubt on what
/// follows. What is kept of a long table does not grow with it.
class Incoming {
 public:
  /// @param notebook  must outlive it; as it was before the first of them
  explicit Incoming(const notebook::Notebook& notebook);
  ~Incoming();
  Incoming(const Incoming&) = delete;
  Incoming& operator=(const Incoming&) = delete;
  /// @param samples  each of one batch, instrument and moment, in any order
  /// @return         for each sample, in the order given
  [[nodiscard]] std::vector<Doubts> doubts(
      const std::vector<std::vector<notebook::ReadingRecord>>& samples);

 private:
  struct Filling;
  const notebook::Notebook* notebook_;
  std::map<notebook::Id, std::unique_ptr<Filling>> batches_;
};

/// Doubts about an addition that is to be noted: far more than the volume takes, into more than
/// there is, the same one twice, or dated before the batch began.
/// @throws Error as Batch
[[nodiscard]] Doubts doubts(Batch& batch, const notebook::AdditionRecord& addition);

/// Doubts about a batch that is to be noted: a volume, or an age, that no kitchen has.
[[nodiscard]] Doubts doubts(const notebook::BatchRecord& batch, Moment now);

/// Doubts about a check that is to be noted: the liquid is beyond the scale of the instrument, the
/// instrument would be further off than any in use, or the same check twice.
/// @param evaluated  what the check says
/// @param others     checks of the instrument that are in the notebook
[[nodiscard]] Doubts doubts(const notebook::InstrumentRecord& instrument,
                            const notebook::CheckRecord& check, const calibration::Check& evaluated,
                            std::span<const notebook::CheckRecord> others);

}  // namespace areo::batch
