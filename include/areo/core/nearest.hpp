// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// "Did you mean ...?": the nearest of a few known words.
#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace areo {

/// The known word with the smallest edit distance to `word` (insert, delete, replace a byte), or
/// empty if none is nearer than half of its length. Of equally near ones, the first.
[[nodiscard]] std::string nearest(std::string_view word, std::span<const std::string> known);
/// The same, no further away than `most`.
[[nodiscard]] std::string nearest(std::string_view word, std::span<const std::string> known,
                                  std::size_t most);

}  // namespace areo
