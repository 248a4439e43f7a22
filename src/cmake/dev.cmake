# SPDX-License-Identifier: GPL-3.0-or-later
# Initial cache for daily work: cmake -G Ninja -C src/cmake/dev.cmake -S . -B build/dev
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_COMPILE_WARNING_AS_ERROR ON CACHE BOOL "")
set(CMAKE_EXPORT_COMPILE_COMMANDS ON CACHE BOOL "")
