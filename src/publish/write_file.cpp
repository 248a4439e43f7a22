// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/publish/write_file.hpp"

#include <fmt/format.h>
#include <sys/stat.h>

#include <cerrno>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string_view>

#include "areo/core/error.hpp"
#include "areo/core/temporary_name.hpp"

namespace areo::publish {

namespace fs = std::filesystem;

void refuse_same(const std::string& path, const std::string& other, const char* what) {
  std::error_code error;
  if (path == other || fs::equivalent(path, other, error))
    throw Error{Errc::file, fmt::format("{} is {}", path, what), "name another file"};
}

namespace {

// A notebook, in use or a copy of one, is never what somebody wants to lose.
bool is_database(const std::string& path) {
  constexpr std::string_view begins = "SQLite format 3";
  std::error_code error;
  if (!fs::is_regular_file(path, error)) return false;
  std::ifstream in{path, std::ios::binary};
  std::string found(begins.size(), '\0');
  return in.read(found.data(), static_cast<std::streamsize>(found.size())) && found == begins;
}

// Where no more files may be open, an empty one goes all the same.
void remove_folder(const std::string& path) {
  std::error_code ignored;
  if (!fs::remove(path, ignored)) fs::remove_all(path, ignored);
}

}  // namespace

void write_file(const std::string& path, const std::function<void(std::ostream&)>& write,
                Present present) {
  if (is_database(path))
    throw Error{Errc::file, fmt::format("{} is a notebook, or another database", path),
                "name another file"};
  UnfinishedFile file{path, present};
  std::ofstream out{file.path(), std::ios::binary};
  if (out) write(out);
  out.close();
  if (!out)
    throw Error{Errc::file, fmt::format("{} cannot be written", path),
                "check its folder, its rights, and the free space on the disk"};
  file.finish();
}

void write_folder(const std::string& path, const std::function<void(const std::string&)>& fill) {
  const auto refuse = [&](const std::error_code& error, const std::string& unfinished = {}) {
    if (!unfinished.empty()) remove_folder(unfinished);
    throw Error{Errc::file, fmt::format("{} cannot be made: {}", path, error.message()),
                "name another folder"};
  };
  std::error_code error;
  if (fs::exists(fs::symlink_status(path, error)))
    throw Error{Errc::file, fmt::format("{} is there already", path),
                "name a new one; nothing was changed"};
  error.clear();
  const fs::path named{path};
  const fs::path target = named.has_filename() ? named : named.parent_path();
  if (target.has_parent_path()) fs::create_directories(target.parent_path(), error);
  std::string unfinished = with_letters_to_fill(target.string() + ".");
  if (error || ::mkdtemp(unfinished.data()) == nullptr)
    refuse(error ? error : std::error_code{errno, std::generic_category()});
  try {
    fill(unfinished);
  } catch (...) {
    remove_folder(unfinished);
    throw;
  }
  const mode_t mask = ::umask(0);  // reading it sets it for a moment
  ::umask(mask);
  fs::permissions(unfinished, static_cast<fs::perms>(0777 & ~mask), error);
  fs::rename(unfinished, target, error);
  if (error) refuse(error, unfinished);
}

}  // namespace areo::publish
