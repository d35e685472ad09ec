# Builds SOURCE for WebAssembly and, with NODE, runs it and compares what it prints with EXPECTED.
if(NOT CXX)
  message("skipped: no clang++")
  return()
endif()
file(WRITE "${FOLDER}/probe.cpp" "#include <vector>\nint main() {}\n")
execute_process(COMMAND "${CXX}" --target=wasm32-wasi "${FOLDER}/probe.cpp" -o "${FOLDER}/probe.wasm"
                RESULT_VARIABLE result OUTPUT_QUIET ERROR_QUIET)
if(NOT result EQUAL 0)
  message("skipped: ${CXX} cannot build for WebAssembly; on Debian 12 that takes lld wasi-libc libc++-14-dev-wasm32 "
          "libclang-rt-14-dev-wasm32")
  return()
endif()

set(program "${FOLDER}/fingerprint.wasm")
execute_process(
  COMMAND "${CXX}" --target=wasm32-wasi ${ARGUMENTS} -O2 "-DHANDLAID_TEST_DATA=\"${ROOT}/tests/data\""
          "-DHANDLAID_DEMO_DATA=\"${ROOT}/examples/demo\"" "${SOURCE}" "${CMAKE_CURRENT_LIST_DIR}/no_throw.cpp" -o
          "${program}"
  RESULT_VARIABLE result
  ERROR_VARIABLE output)
if(NOT result EQUAL 0)
  message("${output}")
  message(FATAL_ERROR "does not build for WebAssembly")
endif()
if(NOT NODE)
  message(STATUS "built for WebAssembly, but not run: no Node.js")
  return()
endif()

execute_process(COMMAND "${NODE}" --no-warnings --experimental-wasi-unstable-preview1
                        "${CMAKE_CURRENT_LIST_DIR}/run.mjs" "${program}" "${ROOT}" 1
                RESULT_VARIABLE result OUTPUT_VARIABLE printed ERROR_VARIABLE errors)
if(NOT result EQUAL 0)
  message(FATAL_ERROR "ended with ${result}\n${printed}${errors}")
endif()
file(READ "${EXPECTED}" expected)
string(REGEX REPLACE "#[^\n]*\n" "" expected "${expected}")
if(NOT printed STREQUAL expected)
  message(FATAL_ERROR "expected\n${expected}\nbut got\n${printed}")
endif()
message(STATUS "built for WebAssembly, run, and the same bytes")
