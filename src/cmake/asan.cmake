# SPDX-License-Identifier: GPL-3.0-or-later
# Initial cache for memory and undefined-behaviour checks; the first finding ends the program.
# -O1 keeps the checks readable and the tests quick. Clang takes half of the time that GCC takes to
# compile them, and is a second compiler: other warnings, and the same digits.
set(CMAKE_CXX_COMPILER clang++-14 CACHE STRING "")
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(CMAKE_CXX_FLAGS_RELWITHDEBINFO "-O1 -g1" CACHE STRING "")
set(CMAKE_COMPILE_WARNING_AS_ERROR ON CACHE BOOL "")
set(AREO_SANITIZE "address,undefined" CACHE STRING "")
set(AREO_BUILD_BENCH OFF CACHE BOOL "")
set(AREO_PRECOMPILE ON CACHE BOOL "")
