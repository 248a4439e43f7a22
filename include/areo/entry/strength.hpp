// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Two typed gravities, or one and weighed sugar, as a strength.
#include <string>

#include "areo/entry/reading_resolver.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/measurement/original.hpp"
#include "areo/measurement/weighed.hpp"

namespace areo::entry {

/// As typed: sugar, and one of the two volumes; the other one is empty.
struct TypedSugar {
  std::string sugar, water, made_up_to;
};
/// @throws ParseError for what is not above zero
[[nodiscard]] measurement::WeighedSugar weighed_sugar(const TypedSugar& typed);

/// An original with what is said about how it was typed.
struct TakenOriginal {
  measurement::Original original;
  std::string echo;
};
[[nodiscard]] TakenOriginal taken_original(const TakenReading& reading);

/// With notes on how the texts were understood.
/// @throws as measurement::alcohol()
[[nodiscard]] measurement::AlcoholResult strength(const TakenOriginal& original,
                                                  const TakenReading& present,
                                                  ferment::Culture culture);

}  // namespace areo::entry
