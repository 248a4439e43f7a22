#include "write_file.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>

#include "areo/core/error.hpp"

namespace areo::cli {

namespace fs = std::filesystem;

void refuse_existing(const std::string& path) {
  std::error_code error;
  if (fs::exists(path, error))
    throw Error{Errc::file, fmt::format("{} is there already", path),
                "name a new one; nothing was changed"};
}

void write_file(const std::string& path, const std::function<void(std::ostream&)>& write) {
  const std::string partial = path + ".partial";
  std::ofstream out{partial, std::ios::binary};
  if (out) write(out);
  out.close();
  std::error_code error;
  if (out) fs::rename(partial, path, error);
  if (!out || error) {
    fs::remove(partial, error);
    throw Error{Errc::file, fmt::format("{} cannot be written", path),
                "check its folder, its rights, and the room on the disk"};
  }
}

}  // namespace areo::cli
