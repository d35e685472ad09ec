if(NOT CXX)
  message("skipped: no clang++")
  return()
endif()
file(WRITE "${FOLDER}/probe.cpp" "#include <vector>\nint main() {}\n")
execute_process(COMMAND "${CXX}" --target=wasm32-wasi "${FOLDER}/probe.cpp" -o "${FOLDER}/probe.wasm"
                RESULT_VARIABLE result OUTPUT_QUIET ERROR_QUIET)
if(NOT result EQUAL 0)
  message("skipped: no WebAssembly system library; Debian: wasi-libc libc++-14-dev-wasm32 libclang-rt-14-dev-wasm32")
  return()
endif()
execute_process(COMMAND "${CXX}" --target=wasm32-wasi ${ARGUMENTS} -O1 -c "${CMAKE_CURRENT_LIST_DIR}/bytes_to_bytes.cpp" -o
                        "${FOLDER}/bytes_to_bytes.o" COMMAND_ERROR_IS_FATAL ANY)
