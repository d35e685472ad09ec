# Builds SOURCE with CXX and OPTIONS, runs it with 1, 2 and 4 threads (its only argument) and compares what it prints
# with EXPECTED, where lines that begin with # are comments. RENEW=ON writes EXPECTED instead.
cmake_policy(SET CMP0007 NEW)

string(MAKE_C_IDENTIFIER "${CXX} ${OPTIONS}" name)
file(MAKE_DIRECTORY "${FOLDER}")
set(program "${FOLDER}/${name}")
separate_arguments(options UNIX_COMMAND "${OPTIONS}")
execute_process(
  COMMAND "${CXX}" ${ARGUMENTS} ${options} -pthread "-DHANDLAID_TEST_DATA=\"${ROOT}/tests/data\""
          "-DHANDLAID_DEMO_DATA=\"${ROOT}/examples/demo\"" "${SOURCE}" -o "${program}"
  RESULT_VARIABLE result
  OUTPUT_VARIABLE output
  ERROR_VARIABLE output)
if(NOT result EQUAL 0)
  message(FATAL_ERROR "does not build:\n${output}")
endif()

if(RENEW)
  execute_process(COMMAND "${program}" 1 OUTPUT_VARIABLE printed COMMAND_ERROR_IS_FATAL ANY)
  file(WRITE "${EXPECTED}" "# What tests/determinism/fingerprint.cpp prints; written by the target renew_fingerprints.\n"
                           "${printed}")
  message(STATUS "written: ${EXPECTED}")
  return()
endif()

file(STRINGS "${EXPECTED}" expected REGEX "^[^#]")
list(LENGTH expected count)
if(count EQUAL 0)
  message(FATAL_ERROR "${EXPECTED} holds no fingerprint")
endif()
foreach(threads IN ITEMS 1 2 4)
  execute_process(COMMAND "${program}" ${threads} RESULT_VARIABLE result OUTPUT_VARIABLE printed ERROR_VARIABLE errors)
  if(NOT result EQUAL 0)
    message(FATAL_ERROR "with ${threads} threads: ended with ${result}\n${errors}")
  endif()
  string(REGEX REPLACE "\n$" "" printed "${printed}")
  string(REPLACE "\n" ";" printed "${printed}")
  if(NOT printed STREQUAL expected)
    set(missing ${expected})
    set(unknown ${printed})
    list(REMOVE_ITEM missing ${printed})
    list(REMOVE_ITEM unknown ${expected})
    list(JOIN missing "\n  " missing)
    list(JOIN unknown "\n  " unknown)
    message(FATAL_ERROR "with ${threads} threads, expected\n  ${missing}\nbut got\n  ${unknown}")
  endif()
endforeach()
message(STATUS "${count} fingerprints met with 1, 2 and 4 threads")
