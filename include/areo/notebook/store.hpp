#pragma once
// The notebook: one SQLite file that survives power cuts and its owner's typing.
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "areo/notebook/record.hpp"

namespace areo::notebook {

/// Where the notebook is if nobody says: $AREO_NOTEBOOK, else areo/notebook.db in the XDG data
/// folder ($XDG_DATA_HOME, else ~/.local/share).
/// @throws Error{store} if none of these variables nor $HOME is set
[[nodiscard]] std::string default_path();

enum class Open { existing, create };

/// An open notebook. Each add() is one transaction: on disk when it returns, or not at all.
/// All members throw Error{store} with the file's name if SQLite refuses.
class Notebook {
 public:
  /// Open::create makes the file and its folders if they are missing.
  /// @throws Error{store} if the file is missing (Open::existing), is no notebook, is damaged, or
  ///         was written by a newer areo; the file is left as it is. One written by an older areo
  ///         is brought up to date after a copy of it, `<file>.version-N`
  explicit Notebook(const std::string& path, Open how = Open::existing);
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
  /// A pair of this liquid counts no more; it stays in the notebook, with the reason.
  /// @throws Error{store} if there is no such pair, if it is left out already, or without a reason
  void leave_out(std::string_view liquid, Id pair, Moment at, std::string_view reason);

  /// In order of their names.
  [[nodiscard]] std::vector<InstrumentRecord> instruments() const;
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
  /// The newest calibration in force at `at`; of two from the same moment, the one added last.
  [[nodiscard]] std::optional<CalibrationRecord> in_force(Id instrument, Moment at) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace areo::notebook
