// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Files that are complete under their names, or absent.
#include <functional>
#include <ostream>
#include <string>

#include "areo/core/unfinished_file.hpp"

namespace areo::publish {

/// An UnfinishedFile that write() fills.
/// @throws Error{file} as that, or if what is there is a database
void write_file(const std::string& path, const std::function<void(std::ostream&)>& write,
                Present present = Present::replaced);

/// A new folder that fill() fills, under its name when it is whole.
/// @throws Error{file} if something is there already, or it cannot be made; what fill() throws
void write_folder(const std::string& path, const std::function<void(const std::string&)>& fill);

/// @throws Error{file} if both are one file, behind whatever names
/// @param what  the other one is: "the notebook"
void refuse_same(const std::string& path, const std::string& other, const char* what);

}  // namespace areo::publish
