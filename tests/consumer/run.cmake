# SPDX-License-Identifier: GPL-3.0-or-later
# Installs areo, then configures, builds and runs the project beside this file against it.
# cmake -D AREO_BUILD=dir -D SCRATCH=dir -D COMPILER=path -P run.cmake
function(run)
  execute_process(COMMAND ${ARGN} RESULT_VARIABLE rc OUTPUT_VARIABLE out ERROR_VARIABLE out)
  if(NOT rc EQUAL 0)
    message(FATAL_ERROR "${ARGN}: ${rc}\n${out}")
  endif()
  set(out "${out}" PARENT_SCOPE)
endfunction()

file(REMOVE_RECURSE ${SCRATCH})
run(${CMAKE_COMMAND} --install ${AREO_BUILD} --prefix ${SCRATCH}/prefix)
function(run_consumer name expected)
  run(${CMAKE_COMMAND} -S ${CMAKE_CURRENT_LIST_DIR} -B ${SCRATCH}/${name} -G Ninja
    -D CMAKE_PREFIX_PATH=${SCRATCH}/prefix -D CMAKE_CXX_COMPILER=${COMPILER} ${ARGN})
  run(${CMAKE_COMMAND} --build ${SCRATCH}/${name})
  run(${SCRATCH}/${name}/consumer)
  if(NOT out STREQUAL expected)
    message(FATAL_ERROR "printed: ${out}")
  endif()
endfunction()
# What computes is used where there is no SQLite. 12.5 % sucrose: 1 + 50.3415/998.2067, the increment
# of [sps4] over the water of [tanaka2001].
run_consumer(science "SG 1.0504\n" -D CMAKE_DISABLE_FIND_PACKAGE_SQLite3=ON)
run_consumer(notebook "0.1.0: 1 instrument\n" -D WITH_NOTEBOOK=ON)
run(${SCRATCH}/prefix/bin/areo --version)
