// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/unfinished_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string_view>
#include <system_error>

#include "areo/core/error.hpp"
#include "areo/core/temporary_name.hpp"

namespace areo {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(const std::string& path, const std::string& why, const char* hint) {
  throw Error{Errc::file, fmt::format("{} {}", path, why), hint};
}
[[noreturn]] void refuse_write(const std::string& path, int error) {
  refuse(path, "cannot be written: " + std::generic_category().message(error),
         "check its folder, its rights, and the free space on the disk");
}
[[noreturn]] void refuse_present(const std::string& path) {
  refuse(path, "is there already", "name a new one; nothing was changed");
}

// SQLite keeps such files beside a database, and does with them as it likes; where it fails, for
// want of files that may be open, it leaves them.
constexpr std::array<std::string_view, 3> beside_database{"-wal", "-shm", "-journal"};

void refuse_beside_database(const std::string& path) {
  for (const std::string_view end : beside_database) {
    std::error_code error;
    if (path.ends_with(end) && fs::exists(path.substr(0, path.size() - end.size()), error))
      refuse(path, "would be taken for a part of the file beside it", "name another file");
  }
}

std::string target_behind(const std::string& path, Present present) {
  refuse_beside_database(path);
  std::error_code error;
  if (!fs::exists(fs::symlink_status(path, error))) return path;
  if (present == Present::kept) refuse_present(path);
  if (!fs::is_regular_file(fs::status(path, error)))
    refuse(path, "is not an ordinary file", "name a file");
  return fs::canonical(path).string();
}

// A new file gets what the process lets through; reading that mask sets it for a moment.
mode_t usual_rights() {
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return 0666 & ~mask;
}

mode_t rights(const std::string& like) {
  struct stat there {};
  if (::stat(like.c_str(), &there) != 0) return usual_rights();
  return there.st_mode & 0777;
}

// On the disk: a file with what it holds, a folder with its names.
bool sync(const std::string& path, int flags) {
  const int file = ::open(path.c_str(), flags | O_CLOEXEC);
  if (file < 0) return false;
  const bool done = ::fsync(file) == 0;
  ::close(file);
  return done;
}

// Some file systems cannot rename without replacing, but link, or neither.
bool rename_if_free(const std::string& from, const std::string& to) {
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return true;
  if (errno != EINVAL && errno != ENOSYS) return false;
  if (::link(from.c_str(), to.c_str()) == 0) {
    ::unlink(from.c_str());
    return true;
  }
  if (errno == EEXIST) return false;
  const int claim = ::open(to.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0600);
  if (claim < 0) return false;
  ::close(claim);
  return ::rename(from.c_str(), to.c_str()) == 0;
}

}  // namespace

UnfinishedFile::UnfinishedFile(const std::string& target, Present present,
                               const std::string& rights_of)
    : target_{target_behind(target, present)},
      path_{with_letters_to_fill(target_ + ".")},
      present_{present} {
  const int file = ::mkostemp(path_.data(), O_CLOEXEC);
  if (file < 0) refuse_write(target, errno);
  const bool done = ::fchmod(file, rights(rights_of.empty() ? target_ : rights_of)) == 0;
  const int error = errno;
  ::close(file);
  if (done) return;
  ::unlink(path_.c_str());
  refuse_write(target, error);
}

UnfinishedFile::~UnfinishedFile() {
  if (finished_) return;
  ::unlink(path_.c_str());
  for (const std::string_view end : beside_database) ::unlink((path_ + std::string{end}).c_str());
}

void UnfinishedFile::finish() {
  if (!sync(path_, O_RDONLY)) refuse_write(target_, errno);
  if (present_ == Present::replaced) {
    if (::rename(path_.c_str(), target_.c_str()) != 0) refuse_write(target_, errno);
  } else if (!rename_if_free(path_, target_)) {
    if (errno == EEXIST) refuse_present(target_);
    refuse_write(target_, errno);
  }
  finished_ = true;
  const std::string folder = fs::path{target_}.parent_path().string();
  // A file system that cannot do this for a folder keeps its names in another way.
  (void)sync(folder.empty() ? "." : folder, O_RDONLY | O_DIRECTORY);
}

}  // namespace areo
