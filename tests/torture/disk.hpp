// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a power cut would leave of the files in a folder.
#include <sys/types.h>

#include <cstdint>
#include <map>
#include <random>
#include <string>
#include <string_view>
#include <vector>

namespace areo::torture {

using Chance = std::mt19937_64;
/// What the files of a folder hold, by their names.
using Files = std::map<std::string, std::string>;

[[nodiscard]] Files files_in(const std::string& folder);
/// The folder holds these and nothing else.
void put(const std::string& folder, const Files& files);

/// Tells of one folder what is on the disk for certain from what was only written. What a file
/// holds is certain after fsync() of the file; which names there are, after fsync() of the folder.
/// While one exists, fsync() and fdatasync() of this program only tell it: the real disk is not
/// asked, since these files are gone before it could matter.
class Disk {
 public:
  /// What is in the folder now is certain.
  explicit Disk(std::string folder);
  ~Disk();
  Disk(const Disk&) = delete;
  Disk& operator=(const Disk&) = delete;

  /// A number that the file keeps under any name.
  ino_t know(const std::string& path);
  void written(ino_t file, std::int64_t offset, std::string_view bytes);
  void truncated(ino_t file, std::int64_t size);
  /// Nothing becomes certain any more.
  void stop() { stopped_ = true; }
  /// @return what fsync() of the file or folder returns
  int synced(int descriptor);

  /// What was written and is not certain may be there or not: each 512 bytes of a write, each
  /// truncation, each name. A rename is done or not.
  [[nodiscard]] Files after_a_cut(Chance& chance) const;

 private:
  struct Change {
    std::int64_t offset;
    std::string bytes;  ///< none: the file was truncated there
  };
  struct Content {
    std::string certain;
    std::vector<Change> since;
    int held;  ///< keeps its number from being given to another file
  };
  using Names = std::map<std::string, ino_t>;
  [[nodiscard]] Names names_now() const;

  std::string folder_;
  ino_t folder_number_ = 0;
  std::map<ino_t, Content> files_;
  Names certain_;
  bool stopped_ = false;
};

}  // namespace areo::torture
