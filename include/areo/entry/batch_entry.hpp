// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A batch, or what was noted wrongly of one, from what was typed.
#include <string>
#include <vector>

#include "areo/entry/extract_kind.hpp"
#include "areo/notebook/store.hpp"

namespace areo::entry {

/// As typed; what is not given is empty.
struct TypedBatch {
  std::string name, drink, culture, vessel, volume, on, note;
  ExtractWords extract;
};

/// @throws ParseError; Error{store} for an unknown liquid
[[nodiscard]] notebook::BatchRecord batch_record(const TypedBatch& typed,
                                                 const notebook::Notebook& book);

/// A batch that was noted wrongly.
struct AmendedBatch {
  notebook::BatchRecord record;  ///< with its new volume, if that is amended
  /// A field each that is not so already; empty if nothing was typed.
  std::vector<notebook::BatchAmendment> amendments{};
};
/// @throws as batch_record(); Error{inconsistent} if all that was typed is so already
[[nodiscard]] AmendedBatch amended_batch(const TypedBatch& typed, const std::string& reason,
                                         const notebook::Notebook& book);

}  // namespace areo::entry
