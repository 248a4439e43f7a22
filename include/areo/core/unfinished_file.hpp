// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A file that appears whole under its name, or not at all.
#include <string>

namespace areo {

/// What happens to a file that has the name already.
enum class Present {
  replaced,  ///< it keeps its rights; the file behind a link is replaced, not the link
  kept,      ///< finish() refuses
};

/// A new, empty file beside its target, under a name that nobody can have guessed; no link is
/// followed to it. finish() gives it the target's name in one step. Without finish() it goes.
class UnfinishedFile {
 public:
  /// @param rights_of  a file whose rights it gets; nothing: those of the file that it replaces, or
  ///                   those of any new file
  /// @throws Error{file} if the folder is missing or may not be written; if the target is no
  ///         ordinary file, or is there and to be kept
  UnfinishedFile(const std::string& target, Present present, const std::string& rights_of = {});
  ~UnfinishedFile();
  UnfinishedFile(const UnfinishedFile&) = delete;
  UnfinishedFile& operator=(const UnfinishedFile&) = delete;

  /// Where to write meanwhile.
  [[nodiscard]] const std::string& path() const { return path_; }
  /// What was written is on the disk, under its name, when it returns.
  /// @throws Error{file} if that cannot be done, or if somebody else was faster and `kept`
  void finish();

 private:
  std::string target_, path_;
  Present present_;
  bool finished_ = false;
};

}  // namespace areo
