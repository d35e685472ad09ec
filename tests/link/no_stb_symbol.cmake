# No object may offer a symbol of stb to the linker: cmake -D NM=… -D OBJECTS=… -P no_stb_symbol.cmake
foreach(object IN LISTS OBJECTS)
  execute_process(COMMAND "${NM}" --defined-only "${object}" OUTPUT_VARIABLE all COMMAND_ERROR_IS_FATAL ANY)
  execute_process(COMMAND "${NM}" --defined-only --extern-only "${object}" OUTPUT_VARIABLE visible
                  COMMAND_ERROR_IS_FATAL ANY)
  if(NOT all MATCHES "stbi_")
    message(FATAL_ERROR "${object} holds no stb at all, so this test would prove nothing")
  endif()
  string(REGEX MATCHALL "[^\n]*stbi[^\n]*" found "${visible}")
  if(found)
    list(JOIN found "\n" found)
    message(FATAL_ERROR "${object} offers:\n${found}")
  endif()
endforeach()
