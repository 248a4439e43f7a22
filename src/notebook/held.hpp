// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A notebook that another process holds for itself: who that is, and how to read it nevertheless.
#include <optional>
#include <string>

#include "sqlite.hpp"

namespace areo::notebook {

/// A process that writes to a notebook.
struct Holder {
  std::string words;  ///< "process 1234 (areo), stopped, running since 2026-03-01 10:15"
  bool stopped = false;
};
/// Nothing if none is seen.
[[nodiscard]] std::optional<Holder> holder_of(const std::string& path);

/// What is committed in a notebook that its holder does not let be opened, read from a copy of it
/// and of its -wal: the one holds whatever the other lacks. Nothing is locked or changed.
/// @throws Error{store} if the files change while they are copied, again and again
[[nodiscard]] sqlite::Connection read_from_copy(const std::string& path);

}  // namespace areo::notebook
