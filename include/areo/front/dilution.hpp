// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Water or sugar that brings an unfermented liquid from one mark to another.
#include <string>

#include "areo/front/by_name.hpp"
#include "areo/front/uncertain.hpp"

namespace areo {

/// A liquid as it is, and the mark that it shall have, on one scale.
template <DensityMark Mark>
struct FromTo {
  detail::ByName by_name{};
  Mark from, to;
  Uncertain<Volume> volume;  ///< of the liquid as it is; within() says how well it is known
};

/// What goes in, and what it becomes.
struct Addition {
  Uncertain<Mass> mass;      ///< as weighed
  Uncertain<Volume> volume;  ///< of all of it at 20 °C; volumes do not add up
};

namespace detail {
[[nodiscard]] Addition water_to_add(const physics::Scale& scale, double from, double to,
                                    const Uncertain<Volume>& volume);
[[nodiscard]] Addition sugar_to_add(const physics::Scale& scale, double from, double to,
                                    const Uncertain<Volume>& volume);
}  // namespace detail

/// `water_to_add<Gravity>({.from = 1.060_sg, .to = 1.050_sg, .volume = 5_L})`
/// @throws Error{domain} unless 0 < extract of `to` <= extract of `from`, and for a volume that is
///         not above zero
/// @source measurement::water_to_add()
template <DensityMark Mark>
[[nodiscard]] Addition water_to_add(const FromTo<Mark>& liquid) {
  return detail::water_to_add(physics::scale_of<Mark>::value, liquid.from.value(),
                              liquid.to.value(), liquid.volume);
}
/// White sugar.
/// @throws Error{domain} unless the extract of `from` is zero or more, and `to` not below it, and
///         for a volume that is not above zero
/// @source measurement::sugar_to_add()
template <DensityMark Mark>
[[nodiscard]] Addition sugar_to_add(const FromTo<Mark>& liquid) {
  return detail::sugar_to_add(physics::scale_of<Mark>::value, liquid.from.value(),
                              liquid.to.value(), liquid.volume);
}

}  // namespace areo
