#pragma once
// Files that are complete under their names, or absent.
#include <functional>
#include <ostream>
#include <string>

#include "areo/core/unfinished_file.hpp"

namespace areo::cli {

/// @throws Error{file} if the file is there already
void refuse_existing(const std::string& path);
/// An UnfinishedFile that write() fills.
/// @throws Error{file} as that, or if what is there is a database
void write_file(const std::string& path, const std::function<void(std::ostream&)>& write,
                Present present = Present::replaced);

/// @throws Error{file} if both are one file, behind whatever names
/// @param what  the other one is: "the notebook"
void refuse_same(const std::string& path, const std::string& other, const char* what);

}  // namespace areo::cli
