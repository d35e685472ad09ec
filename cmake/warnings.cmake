# Warnings for our own targets only: link handlaid_warnings privately. It is never installed or exported, so no
# user of the library inherits a flag from it.
add_library(handlaid_warnings INTERFACE)
target_compile_options(
  handlaid_warnings
  INTERFACE -Wall
            -Wextra
            -Wpedantic
            -Wconversion
            -Wsign-conversion
            -Wshadow
            -Werror
            # Two levels deep is where the named concept stands.
            $<$<CXX_COMPILER_ID:GNU>:-fconcepts-diagnostics-depth=2>
            # GCC 12 sees overlapping copies in "text" + std::string where there are none (GCC bug 105651).
            $<$<AND:$<CXX_COMPILER_ID:GNU>,$<VERSION_LESS:$<CXX_COMPILER_VERSION>,13>>:-Wno-restrict>)
