# SPDX-License-Identifier: AGPL-3.0-or-later
# Finds TetGen (Debian: libtet1.5-dev) and offers it as TetGen::TetGen.
find_path(TetGen_INCLUDE_DIR tetgen.h)
find_library(TetGen_LIBRARY NAMES tet tet1.5)
# The header has no version number; Debian's package name carries it.
if(TetGen_LIBRARY)
  file(REAL_PATH "${TetGen_LIBRARY}" _tetgen_file)
  string(REGEX MATCH "[0-9]+\\.[0-9.]+[0-9]" TetGen_VERSION "${_tetgen_file}")
endif()
include(FindPackageHandleStandardArgs)
find_package_handle_standard_args(TetGen REQUIRED_VARS TetGen_LIBRARY TetGen_INCLUDE_DIR)
if(TetGen_FOUND AND NOT TARGET TetGen::TetGen)
  add_library(TetGen::TetGen UNKNOWN IMPORTED)
  set_target_properties(TetGen::TetGen PROPERTIES
    IMPORTED_LOCATION "${TetGen_LIBRARY}"
    INTERFACE_INCLUDE_DIRECTORIES "${TetGen_INCLUDE_DIR}"
    INTERFACE_COMPILE_DEFINITIONS TETLIBRARY)
endif()
