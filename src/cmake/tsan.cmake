# SPDX-License-Identifier: GPL-3.0-or-later
# Initial cache for the search for data races: threads that compute, that share a notebook, and that
# read one beside another that writes.
# Build the target areo_threads; sh tests/run.sh tsan does.
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(CMAKE_CXX_FLAGS_RELWITHDEBINFO "-O1 -g1" CACHE STRING "")
set(CMAKE_COMPILE_WARNING_AS_ERROR ON CACHE BOOL "")
set(AREO_SANITIZE "thread" CACHE STRING "")
set(AREO_BUILD_BENCH OFF CACHE BOOL "")
set(AREO_PRECOMPILE ON CACHE BOOL "")
