# Reads every header and checks the laws that a compiler cannot: cmake -D ROOT=… -D LAYERS=… -P layers.cmake
#   - a layer includes itself and the layers before it in LAYERS, nothing after;
#   - core and colour include no heavy standard header, no Eigen and no stb; threads are for core/executor alone,
#     which neither core nor colour includes; stb is included by image and Eigen from palette on;
#   - a header has one subject: at most 300 lines;
#   - handlaid.hpp includes every header.
# It also checks that no test case is named with a semicolon, which would make CTest skip it unseen.
cmake_policy(SET CMP0057 NEW)

set(faults)
set(heavy "^(thread|functional|iostream|filesystem|ranges|random|regex|future|Eigen/.*|stb.*)$")

file(GLOB_RECURSE headers RELATIVE "${ROOT}/include/handlaid" "${ROOT}/include/handlaid/*.hpp")
if(NOT headers)
  message(FATAL_ERROR "no header found below ${ROOT}/include/handlaid")
endif()
file(READ "${ROOT}/include/handlaid.hpp" everything)
foreach(header IN LISTS headers)
  string(FIND "${everything}" "#include \"handlaid/${header}\"" place)
  if(place EQUAL -1)
    list(APPEND faults "${header}: handlaid.hpp does not include it")
  endif()

  string(REGEX MATCH "^[^/]+" layer "${header}")
  list(FIND LAYERS "${layer}" place)
  if(place EQUAL -1)
    list(APPEND faults "${header}: '${layer}' is not a layer, see tests/CMakeLists.txt")
    continue()
  endif()

  file(READ "${ROOT}/include/handlaid/${header}" text)
  string(REGEX MATCHALL "\n" lines "${text}")
  list(LENGTH lines count)
  if(count GREATER 300)
    list(APPEND faults "${header}: ${count} lines, which is more than one subject (300 at most)")
  endif()
  if(NOT text MATCHES "#pragma once")
    list(APPEND faults "${header}: has no #pragma once")
  endif()

  file(STRINGS "${ROOT}/include/handlaid/${header}" includes REGEX "^ *# *include")
  foreach(include IN LISTS includes)
    string(REGEX REPLACE "^ *# *include *[<\"]([^>\"]+)[>\"].*" "\\1" included "${include}")
    if(included MATCHES "^handlaid/([^/]+)/")
      list(FIND LAYERS "${CMAKE_MATCH_1}" place_included)
      if(place_included EQUAL -1 OR place_included GREATER place)
        list(APPEND faults "${header}: includes ${included}, which comes after '${layer}'")
      endif()
      if(included STREQUAL "handlaid/core/executor.hpp" AND layer MATCHES "^(core|colour)$")
        list(APPEND faults "${header}: includes threads")
      endif()
    elseif(include MATCHES "\"")
      list(APPEND faults "${header}: write \"handlaid/…\" in full for ${included}")
    endif()
    if(layer MATCHES "^(core|colour)$" AND included MATCHES "${heavy}" AND NOT header STREQUAL "core/executor.hpp")
      list(APPEND faults "${header}: includes <${included}>, too heavy for ${layer}")
    endif()
  endforeach()
endforeach()

file(GLOB_RECURSE tests "${ROOT}/tests/*.cpp")
foreach(test IN LISTS tests)
  file(READ "${test}" text)
  if(text MATCHES "(TEST_CASE|TEMPLATE_TEST_CASE)\\([^\n]*\"[^\"\n]*;[^\"\n]*\"")
    list(APPEND faults "${test}: a test case's name holds a semicolon")
  endif()
endforeach()

if(faults)
  list(JOIN faults "\n  " faults)
  message(FATAL_ERROR "laws broken:\n  ${faults}")
endif()
list(LENGTH headers count)
message(STATUS "${count} headers keep the laws")
