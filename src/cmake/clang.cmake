# SPDX-License-Identifier: GPL-3.0-or-later
# Initial cache of the second compiler: other warnings, and the same digits.
set(CMAKE_CXX_COMPILER clang++-14 CACHE STRING "")
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
# What one compiler makes of undefined behaviour shows where it is optimized, and not the other's.
set(CMAKE_CXX_FLAGS_RELEASE "-O2" CACHE STRING "")
set(CMAKE_COMPILE_WARNING_AS_ERROR ON CACHE BOOL "")
set(AREO_BUILD_BENCH OFF CACHE BOOL "")
set(AREO_PRECOMPILE ON CACHE BOOL "")
set(AREO_TEST_PROPERTIES OFF CACHE BOOL "")
