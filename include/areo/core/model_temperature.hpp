// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The temperature at which a formula is evaluated: stated, or drawn from what a reading leaves
// open.
#include "areo/core/range.hpp"
#include "areo/core/units.hpp"

namespace areo {

/// What is stated lies within the range of a formula, strictly. What was read is known within some
/// degrees: its estimate lies within the range, and whoever accepts the reading sees to that
/// (instruments::require_temperature()); but its ± needs the formula a little beyond as well.
/// Cutting the spread off at the end of the range would halve the ± there. So the values that the
/// law of propagation and sampling take for a reading may lie `most_beyond_c` outside, where every
/// formula of areo is continued as it is printed and stays smooth (tests/property). No estimate
/// ever rests on that.
class ModelTemperature {
 public:
  /// As much as is assumed of a temperature that nobody took.
  static constexpr double most_beyond_c = 5;

  /// A stated one.
  // NOLINTNEXTLINE(google-explicit-constructor): every temperature is one; only drawn() is another
  constexpr ModelTemperature(Temperature t) noexcept : t_{t} {}
  /// One of the values that a reading within the range may stand for.
  [[nodiscard]] static constexpr ModelTemperature drawn(Temperature t) noexcept {
    ModelTemperature m{t};
    m.beyond_c_ = most_beyond_c;
    return m;
  }
  [[nodiscard]] constexpr double celsius() const noexcept { return t_.celsius(); }
  [[nodiscard]] constexpr Temperature point() const noexcept { return t_; }
  /// How far outside a range it may lie: 0 if stated.
  [[nodiscard]] constexpr double beyond_c() const noexcept { return beyond_c_; }

 private:
  Temperature t_;
  double beyond_c_ = 0;
};

namespace detail {
[[noreturn]] void throw_too_far_outside(const Range& range, double beyond);
}

/// Does nothing inside the range, or for a drawn temperature near it.
/// @throws Error{domain} as require(Range, double). The message never
///         shows a drawn value: nobody read it.
constexpr void require(const Range& range, ModelTemperature t) {
  const double c = t.celsius();
  if (range.contains(c)) return;
  if (t.beyond_c() == 0) detail::throw_outside(range, c);
  if (!(c >= range.lo - t.beyond_c() && c <= range.hi + t.beyond_c()))
    detail::throw_too_far_outside(range, t.beyond_c());
}

}  // namespace areo
