// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Which one of all things of a kind: not what it is called, and not what it is like.
#include <compare>
#include <cstdint>
#include <string>

namespace areo {

/// Of one thing, such as an instrument. A copy is the same thing.
class Identity {
 public:
  /// Of a thing that differs from every other in this run of the program.
  Identity();
  /// In some order, for maps.
  friend auto operator<=>(const Identity&, const Identity&) = default;

 private:
  friend class IdentityRegister;
  Identity(std::uint64_t list, std::int64_t number) : list_{list}, number_{number} {}
  std::uint64_t list_;
  std::int64_t number_;
};

/// A list in which things have numbers, such as a notebook: the same number is the same thing.
class IdentityRegister {
 public:
  /// A list unlike every other.
  IdentityRegister();
  /// The list with this name, the same one in this run of the program whoever asks.
  explicit IdentityRegister(const std::string& name);
  [[nodiscard]] Identity at(std::int64_t number) const { return {list_, number}; }

 private:
  std::uint64_t list_;
};

}  // namespace areo
