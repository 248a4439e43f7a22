#include "write_file.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <string_view>

#include "areo/core/error.hpp"

namespace areo::cli {

namespace fs = std::filesystem;

void refuse_existing(const std::string& path) {
  std::error_code error;
  if (fs::exists(fs::symlink_status(path, error)))
    throw Error{Errc::file, fmt::format("{} is there already", path),
                "name a new one; nothing was changed"};
}

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
                "check its folder, its rights, and the room on the disk"};
  file.finish();
}

}  // namespace areo::cli
