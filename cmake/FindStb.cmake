# Finds the single-file stb headers and offers them as the target Stb::Stb.
# Set Stb_INCLUDE_DIR to the folder of stb_image.h if they are somewhere unusual.
find_path(Stb_INCLUDE_DIR stb_image.h PATH_SUFFIXES stb
          DOC "folder that holds stb_image.h and stb_image_write.h")
mark_as_advanced(Stb_INCLUDE_DIR)

include(FindPackageHandleStandardArgs)
find_package_handle_standard_args(
  Stb
  REQUIRED_VARS Stb_INCLUDE_DIR
  REASON_FAILURE_MESSAGE
    "stb_image.h was not found. Install it (Debian, Ubuntu: libstb-dev) or set -DStb_INCLUDE_DIR=FOLDER.")

if(Stb_FOUND AND NOT TARGET Stb::Stb)
  add_library(Stb::Stb INTERFACE IMPORTED)
  set_target_properties(Stb::Stb PROPERTIES INTERFACE_INCLUDE_DIRECTORIES "${Stb_INCLUDE_DIR}")
endif()
