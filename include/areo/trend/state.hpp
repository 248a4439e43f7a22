// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a ferment is doing, as far as all readings together tell.
#include <optional>
#include <string>
#include <vector>

#include "areo/trend/odd.hpp"
#include "areo/trend/series.hpp"

namespace areo::trend {

/// A fall over a stretch of a series.
struct Fall {
  double days = 0;           ///< how far the ends lie apart
  uncertainty::Value value;  ///< of the gravity; positive when it fell
  std::size_t points = 2;    ///< how many readings it rests on
  /// Of the interval, so that it holds with 95 % though the stretch was chosen among others.
  double coverage_factor = 1.96;
  std::size_t first = 0, last = 0;  ///< numbers of the points at its ends

  [[nodiscard]] double expanded() const { return coverage_factor * value.u; }
};

/// The fastest pace that goes with the readings of a stretch: with 95 % whichever stretch was
/// chosen, and with 90 % whichever reading is left out.
struct Pace {
  double per_day = 0;  ///< SG
  double days = 0;
  std::size_t points = 0;
  std::size_t first = 0;  ///< number of the point that the stretch begins with
};

enum class Phase {
  unclear,    ///< too few readings, or they do not go together, or a fall hangs on one of them
  not_begun,  ///< no fall since the first reading that the readings could show
  falling,    ///< it falls
  fell,       ///< it fell; whether it still does these readings leave open
  no_fall,    ///< none is seen any more; a slow one would hide
  steady,     ///< none is seen, and one that would hide is harmless for a week
};

struct State {
  Phase phase = Phase::unclear;
  std::optional<Fall> whole{};   ///< from the first reading to the last; none of a single one
  std::optional<Fall> fall{};    ///< falling: the shortest stretch at the end that surely falls
  std::optional<Pace> hidden{};  ///< in every other phase, if there is a stretch
  std::vector<OddPoint> odd{};   ///< they count for nothing here
  /// The last reading fell so much faster than any before that the next one has to tell whether it
  /// is a slip; it does not count yet.
  std::optional<std::size_t> unconfirmed{};
  std::size_t last = 0;  ///< the last point that counts
  double scatter = 1;    ///< as scatter_of()
  std::string why{};     ///< why it is not called steady although no faster fall could hide, or why
                         ///< nothing is said
};

/// A hidden fall is harmless where a week of it makes less than this much alcohol, and less
/// pressure in a closed bottle (measurement::made_by_fall()). Judgements.
inline constexpr double harmless_percent_vol = 0.1, harmless_bar = 0.3;

/// From the straight lines through the stretches that end now. A fall is certain with 99 % whatever
/// stretch was chosen, and still with 90 % whichever reading is left out, so that no single slip
/// makes one; and it is falling only where the later half of the stretch shows it too. What is not
/// degassed counts where bubbles cannot make the fall: late in it, or, for the fastest pace, not at
/// all. The constants were chosen in the study that docs/explanation/series.md tells of.
/// @param series in order of time, without a jump between its points: nothing was added
/// @source common practice, no source, for taking two or three equal readings as the end: this asks
///         for more
[[nodiscard]] State state_of(const Series& series);

/// Three or more in a row are odd: they are no slips. Something was added, or it is another drink.
[[nodiscard]] bool shifted(const State& state);
/// So many are odd, or so many in a row, that the readings do not go together: nothing is
/// concluded.
[[nodiscard]] bool conflicting(const State& state);
/// Whether a point of its series counts: it is neither odd nor to be confirmed.
[[nodiscard]] bool counts(const State& state, std::size_t point);
/// Those that count and were not lifted by bubbles.
[[nodiscard]] std::vector<std::size_t> sound_points(const Series& series, const State& state);

}  // namespace areo::trend
