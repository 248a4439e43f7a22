// SPDX-License-Identifier: GPL-3.0-or-later
#include "spool.hpp"

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <string>
#include <system_error>

#include "areo/core/error.hpp"
#include "areo/core/temporary_name.hpp"

namespace areo::cli {

std::ifstream spooled(std::istream& in) {
  std::error_code error;
  std::string path =
      with_letters_to_fill((std::filesystem::temp_directory_path(error) / "areo-").string());
  const int file = error ? -1 : ::mkstemp(path.data());
  bool whole = file >= 0;
  std::ifstream out;
  if (whole) {
    ::close(file);
    std::ofstream to{path, std::ios::binary};
    if (in.peek() != std::istream::traits_type::eof()) to << in.rdbuf();
    to.close();
    whole = to.good();
    out.open(path, std::ios::binary);
    ::unlink(path.c_str());
  }
  if (!whole || !out)
    throw Error{Errc::file, "what comes through the pipe cannot be put aside",
                "check the free space on the disk and the folder for temporary files"};
  return out;
}

}  // namespace areo::cli
