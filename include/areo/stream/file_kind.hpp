// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a file that is to be imported is; its first characters show it.
#include <istream>
#include <string>

namespace areo::stream {

enum class FileKind {
  exported,  ///< an export of a notebook, or a part of one
  list,      ///< objects in one JSON list
  objects,   ///< an object a line
  table      ///< CSV
};
/// Leaves the stream where its reader begins.
/// @param in    can be wound back
/// @param name  for messages
/// @throws      Error{file} if it is empty
[[nodiscard]] FileKind kind_of_file(std::istream& in, const std::string& name);

}  // namespace areo::stream
