// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The same refusal of many lines of a file, said once with the lines it holds for.
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace areo::text {

/// Collects refusals line by line. Two are the same if they differ in numbers only; a digit that
/// belongs to a name, as in "PT-1", counts. The memory is bounded, whatever the file.
class SaidOnce {
 public:
  /// Kinds of refusal that are kept apart; further ones are counted together.
  static constexpr std::size_t most_kinds = 100;
  /// Stretches of lines that are listed of one kind: "5, 7 to 9" are two.
  static constexpr std::size_t most_stretches = 10;

  /// @param line  not before the line of an earlier call
  void add(std::size_t line, const std::string& message, const std::string& hint);

  [[nodiscard]] bool empty() const noexcept { return kinds_.empty(); }

  /// A kind as it is reported.
  struct Reported {
    std::size_t line;  ///< the first one
    std::string message, hint;
  };
  /// In the order in which they were first met. The message of the first line, and behind it how
  /// many more there are and where: "..., and 99998 more lines: 3 to 100000"; with "like it" if
  /// their numbers are others.
  [[nodiscard]] std::vector<Reported> reported() const;

 private:
  struct Kind {
    std::string form;  // the message without its numbers
    std::size_t line;
    std::string message, hint;
    std::size_t more = 0;
    bool alike = true;  // to the letter
    std::vector<std::pair<std::size_t, std::size_t>> stretches = {};
    bool all_listed = true;
  };
  [[nodiscard]] static Reported reported(const Kind& kind);
  std::vector<Kind> kinds_;
};

}  // namespace areo::text
