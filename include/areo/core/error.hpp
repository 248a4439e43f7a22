// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The one exception of the library: a code for programs, a message and a hint for people.
#include <cstddef>
#include <stdexcept>
#include <string>
#include <utility>

namespace areo {

/// What kind of thing went wrong; `docs/reference/errors.md` lists cause and cure of each.
enum class Errc {
  parse,           ///< a text is not the number, unit, scale or date that it should be
  domain,          ///< a value is outside what a model, a scale or common sense allows
  no_convergence,  ///< a solver gave up; a defect or a very odd input
  inconsistent,    ///< each value is fine alone, together they contradict each other
  file,            ///< a file cannot be read or written
  store,           ///< the notebook refused: busy, damaged, newer, duplicate, not found
};

/// @param what  the quantity, the value with its unit, the limit, the source
/// @param hint  what to do about it, one sentence, printed on its own line; may be empty
struct Error : std::runtime_error {
  Error(Errc c, const std::string& what, std::string h = {})
      : std::runtime_error{what}, code{c}, hint{std::move(h)} {}
  Errc code;
  std::string hint;
};

/// A text that could not be read, with the offending part for a caret line.
/// `position` and `length` count bytes of `text`; a length of zero points at the end.
struct ParseError : Error {
  ParseError(const std::string& what, std::string t, std::size_t pos, std::size_t len,
             std::string h = {})
      : Error{Errc::parse, what, std::move(h)}, text{std::move(t)}, position{pos}, length{len} {}
  std::string text;
  std::size_t position;
  std::size_t length;
};

}  // namespace areo
