// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The notebook: one SQLite file that survives power cuts and its owner's typing.
#include <cstdint>
#include <functional>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "areo/calibration/check.hpp"
#include "areo/notebook/batch.hpp"
#include "areo/notebook/dump.hpp"
#include "areo/notebook/record.hpp"
#include "areo/notebook/settings.hpp"

namespace areo::notebook {

/// Where the notebook is if nobody says: $AREO_NOTEBOOK, else areo/notebook.db in the XDG data
/// folder ($XDG_DATA_HOME, else ~/.local/share).
/// @throws Error{store} if none of these variables nor $HOME is set
[[nodiscard]] std::string default_path();

/// Version of the tables that this program writes.
inline constexpr int notebook_version = 6;
/// Version of the oldest notebook whose export can be brought back.
inline constexpr int oldest_export = 3;

/// What a notebook is opened for.
enum class Open {
  existing,  ///< to be read and written
  create,    ///< the same; made if it is missing
  read,      ///< to be read only: may lie where nobody can write
};

/// What a program that opens a notebook may want to hear of.
struct Listener {
  /// A row that cannot be read, by its table and number, and why. It is reported once, and left out
  /// of what is read; where nobody listens, it is an Error{store}.
  std::function<void(const std::string& what)> passed_over;
  /// Something is on disk that was not there before.
  std::function<void()> noted;
};

/// Later than anything that is noted.
inline constexpr Moment end_of_time{std::numeric_limits<std::int64_t>::max(), 0};

/// An instrument is no longer used.
struct Retirement {
  Moment at;
  std::string reason;
};

/// This many samples are enough to tell how well somebody repeats a reading: the standard deviation
/// of 500 differences is known to 1/sqrt(2 * 500), 3 %. Older ones cost time and say no more.
inline constexpr int most_repeated_samples = 500;

/// Readings of a batch that count.
struct ReadingCount {
  std::int64_t count = 0;
  std::optional<Moment> last;
};

/// Something that was read with an instrument and counts.
struct ReadWith {
  enum class What { reading, pair, check } what = What::reading;
  std::string of;  ///< the batch, the liquid, or the instrument that was checked
  Id id = 0;
  Moment made_at;
};

/// An open notebook. Each add() is one transaction: on disk when it returns, or not at all.
/// All members throw Error{store} with the file's name if SQLite refuses.
///
/// Several threads may share one: a member waits while another thread writes, or is within
/// at_once() or at_one_moment(); what one of these calls must not wait for another thread that uses
/// the notebook. Threads with a Notebook each read beside one that writes, without waiting.
class Notebook {
 public:
  /// Open::create makes the file and its folders if they are missing.
  /// @throws Error{store} if the file is missing (unless Open::create), is no notebook, is damaged,
  ///         was written by a newer areo, or may not be written (unless Open::read); the file is
  ///         left as it is. One written by an older areo is brought up to date after a copy of it,
  ///         `<file>.version-N`
  explicit Notebook(const std::string& path, Open how = Open::existing, Listener listener = {});
  ~Notebook();
  Notebook(Notebook&&) noexcept;
  Notebook& operator=(Notebook&&) noexcept;
  Notebook(const Notebook&) = delete;
  Notebook& operator=(const Notebook&) = delete;

  /// @return the new row's id  @throws Error{store} if the name is taken
  Id add(const InstrumentRecord& record);
  Id add(const CheckRecord& record);
  /// @throws Error{store} if a check is missing or belongs to another instrument
  Id add(const CalibrationRecord& record);
  Id add(const LiquidPairRecord& record);
  /// A pair of this liquid no longer counts; it stays in the notebook, with the reason.
  /// @throws Error{store} if there is no such pair, if it is left out already, or without a reason
  void leave_out(std::string_view liquid, Id pair, Moment at, std::string_view reason);

  /// The instrument is no longer used; what was read with it stays.
  /// @throws Error{store} if it is retired already, or without a reason
  void retire(Id instrument, Moment at, std::string_view reason);

  /// @throws Error{store} if the name is taken
  Id add(const BatchRecord& record);
  /// @throws Error{store} without a reason
  void amend(const BatchAmendment& amendment);
  /// @throws Error{store} if it is closed, or open, already
  void note(Id batch, const BatchEvent& event);
  /// Readings of one sample, all or none of them. The id of the first becomes `sample` of all that
  /// have none.
  /// @return their ids
  /// @throws Error{store} for a reading of another batch to be amended, or one that is amended
  ///         already
  std::vector<Id> add(std::span<const ReadingRecord> sample);
  Id add(const AdditionRecord& record);
  /// A reading no longer counts, or counts again; it stays in the notebook, with the reason.
  /// @throws Error{store} if there is no such reading, if it is so already, or without a reason
  void exclude_reading(Id reading, const Exclusion& exclusion);
  void exclude_addition(Id addition, const Exclusion& exclusion);

  /// From now on; an empty value takes it back.
  /// @throws Error{store} for a name or a value that setting_kinds() lacks
  void set(std::string_view name, std::string_view value, Moment at);
  [[nodiscard]] Settings settings() const;
  /// In the order in which they were made.
  [[nodiscard]] std::vector<SettingRecord> setting_changes() const;

  /// In order of their names.
  [[nodiscard]] std::vector<InstrumentRecord> instruments() const;
  /// When and why an instrument was retired.
  [[nodiscard]] std::optional<Retirement> retired(Id instrument) const;
  /// As amended up to `as_of`. In order of their names.
  [[nodiscard]] std::vector<BatchRecord> batches(Moment as_of = end_of_time) const;
  /// @throws Error{store} naming the nearest name there is
  [[nodiscard]] BatchRecord batch(std::string_view name, Moment as_of = end_of_time) const;
  [[nodiscard]] BatchRecord batch(Id id, Moment as_of = end_of_time) const;
  /// In order of their time.
  [[nodiscard]] std::vector<BatchAmendment> amendments(Id batch) const;
  [[nodiscard]] std::vector<BatchEvent> events(Id batch) const;
  /// All readings of a batch as the notebook stood at `as_of`, amended and excluded ones too. In
  /// order of their time, then as noted.
  [[nodiscard]] std::vector<ReadingRecord> readings(Id batch, Moment as_of = end_of_time) const;
  /// @throws Error{store} if there is no such reading
  [[nodiscard]] ReadingRecord reading(Id id) const;
  /// What was read with an instrument, or with it as the thermometer; not its own checks. By `what`
  /// and `of`, each in order of its time.
  [[nodiscard]] std::vector<ReadWith> read_with(Id instrument) const;
  /// How many readings that count a batch has, and when the last one was made.
  [[nodiscard]] ReadingCount count_readings(Id batch) const;
  /// Readings that count of the newest samples that one person read repeatedly with one instrument,
  /// one list a sample; at most most_repeated_samples of them.
  [[nodiscard]] std::vector<std::vector<double>> repeats(Id instrument,
                                                         std::string_view person) const;
  [[nodiscard]] std::vector<AdditionRecord> additions(Id batch, Moment as_of = end_of_time) const;
  /// @throws Error{store} naming the nearest name there is
  [[nodiscard]] InstrumentRecord instrument(std::string_view name) const;
  [[nodiscard]] InstrumentRecord instrument(Id id) const;
  /// Of one instrument, in order of their time.
  [[nodiscard]] std::vector<CheckRecord> checks(Id instrument) const;
  [[nodiscard]] std::vector<CalibrationRecord> calibrations(Id instrument) const;
  /// Names of all liquids that pairs were read of, in order.
  [[nodiscard]] std::vector<std::string> liquids() const;
  /// Of one liquid, in order of their time.
  [[nodiscard]] std::vector<LiquidPairRecord> liquid_pairs(std::string_view liquid) const;
  /// As in_force() of its calibrations.
  [[nodiscard]] std::optional<CalibrationRecord> in_force(Id instrument, Moment at) const;

  /// Readings of several samples, all or none of them; as add() of one.
  std::vector<Id> add_samples(const std::vector<std::vector<ReadingRecord>>& samples);

  /// What act() adds is on disk together when this returns, or none of it if act() says no; act()
  /// sees what others had added before, and nobody adds meanwhile.
  void at_once(const std::function<bool()>& act);
  /// All that act() reads is of one moment, whoever writes meanwhile.
  void at_one_moment(const std::function<void()>& act) const;

  /// How many rows there are in all tables.
  [[nodiscard]] std::int64_t rows() const;
  /// Everything there is, in an order in which no row refers to a later table.
  [[nodiscard]] std::vector<Table> tables() const;
  /// Rows of a table in order of their keys, cells in order of its columns.
  void each_row(const Table& table, const std::function<void(const std::vector<Cell>&)>& act) const;
  /// Brings rows of an export back, all or none, if each is as if it had been added.
  /// @param accept  a last look at the notebook as it will be; may throw
  /// @throws Error{store} if a row is there already with another content, has other columns than
  ///         its table, refers to one that is missing, or holds what add() would never have noted;
  ///         what `next` and `accept` throw
  Restored restore(const NextRow& next, const std::function<void()>& accept = {});
  /// Copies the notebook to a new file while others may go on writing, and verifies the copy.
  /// @return rows of the copy
  /// @throws Error{store} if the file is there already or cannot be written
  std::int64_t backup(const std::string& path) const;

  /// What make() makes of these checks; what it made before if it was asked already, and no
  /// instrument, check or calibration was noted since. Whoever needs one asks notebook::evaluate()
  /// or notebook::correction_of().
  [[nodiscard]] calibration::CheckSet evaluated(
      const InstrumentRecord& instrument, std::span<const CheckRecord> checks,
      const std::function<calibration::CheckSet()>& make) const;
  /// The same of the correction that a calibration is.
  [[nodiscard]] instruments::Correction corrected(
      const CalibrationRecord& calibration,
      const std::function<instruments::Correction()>& make) const;
  /// How many sets of checks had to be evaluated so far.
  [[nodiscard]] std::size_t evaluations() const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace areo::notebook
