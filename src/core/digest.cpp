// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/digest.hpp"

#include <fmt/format.h>

namespace areo {

std::uint64_t fnv1a(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001b3;
  }
  return hash;
}

std::string short_digest(std::string_view text) {
  constexpr std::uint64_t lower_48 = 0xffffffffffff;
  const std::uint64_t hash = fnv1a(text);
  return fmt::format("{:012x}", (hash ^ (hash >> 48)) & lower_48);
}

}  // namespace areo
