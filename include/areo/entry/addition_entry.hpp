// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Something that went into a batch, from what was typed of it.
#include <string>

#include "areo/notebook/store.hpp"

namespace areo::entry {

/// As typed; what is not given is empty.
struct TypedAddition {
  std::string batch;
  std::string amount;   ///< "100g" or "0.5L"
  std::string extract;  ///< of a juice, on whatever scale it was read or printed
  std::string other;    ///< the batch that a part came from
  std::string into;     ///< how much was there
  std::string on, bottle, person, note;
  notebook::Substance what = notebook::Substance::sugar;
};

/// @throws ParseError, Error{store}; Error{inconsistent} for a closed batch, and where it is not
///         known how much was there
[[nodiscard]] notebook::AdditionRecord addition_record(const TypedAddition& typed,
                                                       const notebook::Notebook& book);

}  // namespace areo::entry
