# SPDX-License-Identifier: GPL-3.0-or-later
# Initial cache of what is shipped, strict: cmake -G Ninja -C src/cmake/release.cmake -S . -B build/release
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(CMAKE_COMPILE_WARNING_AS_ERROR ON CACHE BOOL "")
set(CMAKE_EXPORT_COMPILE_COMMANDS ON CACHE BOOL "")
# Also where the demonstration was built without them.
set(AREO_BUILD_TESTS ON CACHE BOOL "" FORCE)
set(AREO_BUILD_BENCH ON CACHE BOOL "" FORCE)
