# What the headers in handlaid/optional/ need. Each becomes a target to link where its libraries are installed, and is
# left out, with a line that says so, where they are not: handlaid_pdf (cairo and a font), handlaid_spreadsheet
# (libxlsxwriter to write; libzip and pugixml to read).

find_path(CAIRO_INCLUDE_DIR cairo-ft.h PATH_SUFFIXES cairo)
find_library(CAIRO_LIBRARY cairo)
find_package(Freetype QUIET)
# Any TrueType or OpenType font will do; its digits are what a maker reads.
find_file(HANDLAID_FONT DejaVuSans.ttf PATHS /usr/share/fonts/truetype/dejavu /usr/share/fonts/TTF
                                             /usr/share/fonts/dejavu /usr/share/fonts/dejavu-sans-fonts
          DOC "the font that is put into PDF files")
find_file(HANDLAID_BOLD_FONT DejaVuSans-Bold.ttf
          PATHS /usr/share/fonts/truetype/dejavu /usr/share/fonts/TTF /usr/share/fonts/dejavu
                /usr/share/fonts/dejavu-sans-fonts
          DOC "its bold face")
if(CAIRO_INCLUDE_DIR AND CAIRO_LIBRARY AND TARGET Freetype::Freetype AND HANDLAID_FONT AND HANDLAID_BOLD_FONT)
  add_library(handlaid_pdf INTERFACE)
  target_include_directories(handlaid_pdf SYSTEM INTERFACE "${CAIRO_INCLUDE_DIR}")
  target_link_libraries(handlaid_pdf INTERFACE handlaid::handlaid "${CAIRO_LIBRARY}" Freetype::Freetype)
  target_compile_definitions(handlaid_pdf INTERFACE HANDLAID_HAS_PDF HANDLAID_FONT="${HANDLAID_FONT}"
                                                    HANDLAID_BOLD_FONT="${HANDLAID_BOLD_FONT}")
else()
  message(STATUS "no PDF files: they need cairo, FreeType and DejaVu Sans (Debian: libcairo2-dev, fonts-dejavu-core)")
endif()

find_path(XLSXWRITER_INCLUDE_DIR xlsxwriter.h)
find_library(XLSXWRITER_LIBRARY xlsxwriter)
find_path(ZIP_INCLUDE_DIR zip.h)
find_library(ZIP_LIBRARY zip)
find_path(PUGIXML_INCLUDE_DIR pugixml.hpp)
find_library(PUGIXML_LIBRARY pugixml)
if(XLSXWRITER_INCLUDE_DIR AND XLSXWRITER_LIBRARY AND ZIP_INCLUDE_DIR AND ZIP_LIBRARY AND PUGIXML_INCLUDE_DIR AND
   PUGIXML_LIBRARY)
  add_library(handlaid_spreadsheet INTERFACE)
  target_include_directories(handlaid_spreadsheet SYSTEM INTERFACE "${XLSXWRITER_INCLUDE_DIR}" "${ZIP_INCLUDE_DIR}"
                                                                   "${PUGIXML_INCLUDE_DIR}")
  target_link_libraries(handlaid_spreadsheet INTERFACE handlaid::handlaid "${XLSXWRITER_LIBRARY}" "${ZIP_LIBRARY}"
                                                       "${PUGIXML_LIBRARY}")
  target_compile_definitions(handlaid_spreadsheet INTERFACE HANDLAID_HAS_SPREADSHEET)
else()
  message(STATUS "no spreadsheet files: they need libxlsxwriter, libzip and pugixml "
                 "(Debian: libxlsxwriter-dev, libzip-dev, libpugixml-dev)")
endif()
