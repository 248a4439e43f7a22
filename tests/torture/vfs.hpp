// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Between SQLite and its files: whoever stands there may let a call go through, fail, or be a lie.
#include <functional>

#include "disk.hpp"

namespace areo::torture {

/// What SQLite asks of files. Locks that are given back are not in it: nobody can refuse that.
enum class Call {
  open,
  remove,
  access,
  read,
  write,
  truncate,
  sync,
  size,
  lock,
  look_for_lock,
  map,      ///< memory that writers share
  map_lock  ///< a place in it
};
[[nodiscard]] const char* word(Call call);
/// Whether it changes what is on the disk, or what is certain of it.
[[nodiscard]] bool changes(Call call);

/// Instead of a result code: SQLite is told that it was done.
inline constexpr int pretend = -1;

/// What to answer to a call: SQLITE_OK lets it go through, a code is what SQLite gets, and nothing
/// is done.
using Answer = std::function<int(Call)>;

/// Stands between SQLite and its files as long as it exists.
class Interference {
 public:
  /// @param disk  is told what was written
  explicit Interference(Answer answer, Disk* disk = nullptr);
  ~Interference();
  Interference(const Interference&) = delete;
  Interference& operator=(const Interference&) = delete;
};

/// Files are as they ever are as long as it exists, also within an Interference.
class Aside {
 public:
  Aside();
  ~Aside();
  Aside(const Aside&) = delete;
  Aside& operator=(const Aside&) = delete;

 private:
  Answer answer_;
  Disk* disk_;
};

}  // namespace areo::torture
