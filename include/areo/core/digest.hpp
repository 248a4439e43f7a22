// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A short mark that tells texts apart.
#include <cstdint>
#include <string>
#include <string_view>

namespace areo {

/// 64 bits of a text: FNV-1a. It tells texts apart that differ by accident; it is no seal, because
/// somebody who wants to can make two texts with one digest.
/// @source the hash of Fowler, Noll and Vo; its two constants from memory
/// @check  "" -> cbf29ce484222325, "a" -> af63dc4c8601ec8c, "foobar" -> 85944171f73967e8
[[nodiscard]] std::uint64_t fnv1a(std::string_view text);

/// The same as twelve hexadecimal digits, the upper 16 bits folded onto the lower ones.
[[nodiscard]] std::string short_digest(std::string_view text);

}  // namespace areo
