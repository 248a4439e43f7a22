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
  if (fs::exists(path, error))
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
  std::ifstream in{path, std::ios::binary};
  std::string found(begins.size(), '\0');
  return in.read(found.data(), static_cast<std::streamsize>(found.size())) && found == begins;
}

}  // namespace

void write_file(const std::string& path, const std::function<void(std::ostream&)>& write) {
  std::error_code error;
  const fs::file_status there = fs::status(path, error);
  if (fs::exists(there) && !fs::is_regular_file(there))
    throw Error{Errc::file, fmt::format("{} is no ordinary file", path), "name a file"};
  if (is_database(path))
    throw Error{Errc::file, fmt::format("{} is a notebook, or another database", path),
                "name another file"};
  const std::string target = fs::exists(there) ? fs::canonical(path, error).string() : path;
  const std::string partial = target + ".partial";
  std::ofstream out{partial, std::ios::binary};
  if (out) write(out);
  out.close();
  if (out) fs::rename(partial, target, error);
  if (!out || error) {
    fs::remove(partial, error);
    throw Error{Errc::file, fmt::format("{} cannot be written", path),
                "check its folder, its rights, and the room on the disk"};
  }
}

}  // namespace areo::cli
