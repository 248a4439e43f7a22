# SPDX-License-Identifier: GPL-3.0-or-later
# Configures the project beside this file, as if neither SQLite nor the option library were there:
# areo is its library alone then, and installs nothing.
# cmake -D AREO_SOURCE=dir -D SCRATCH=dir -D COMPILER=path -P run.cmake
file(REMOVE_RECURSE ${SCRATCH})
execute_process(COMMAND ${CMAKE_COMMAND} -S ${CMAKE_CURRENT_LIST_DIR} -B ${SCRATCH}/build -G Ninja
    -D AREO_SOURCE=${AREO_SOURCE} -D CMAKE_CXX_COMPILER=${COMPILER} -D AREO_BUILD_NOTEBOOK=OFF
    -D CMAKE_DISABLE_FIND_PACKAGE_SQLite3=ON -D CMAKE_DISABLE_FIND_PACKAGE_CLI11=ON
  RESULT_VARIABLE rc OUTPUT_VARIABLE out ERROR_VARIABLE out)
if(NOT rc EQUAL 0)
  message(FATAL_ERROR "${out}")
endif()
string(REGEX MATCH "targets: [^\n]*" targets "${out}")
if(NOT targets STREQUAL "targets: areo_flags;areo")
  message(FATAL_ERROR "${targets}")
endif()
execute_process(COMMAND ${CMAKE_COMMAND} --install ${SCRATCH}/build --prefix ${SCRATCH}/prefix
  RESULT_VARIABLE rc OUTPUT_VARIABLE out ERROR_VARIABLE out)
file(GLOB_RECURSE installed ${SCRATCH}/prefix/*)
if(NOT rc EQUAL 0 OR installed)
  message(FATAL_ERROR "installed: ${installed}\n${out}")
endif()
