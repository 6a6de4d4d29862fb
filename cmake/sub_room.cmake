# SPDX-License-Identifier: AGPL-3.0-or-later
# A sub-room is a folder of one of the three rooms. Its CMakeLists.txt is one line,
#
#   sub_room(MAY_INCLUDE solver/material solver/bench)
#
# which adds its sources to the library of the room and names the folders of the same room that its files may
# include; what lies in the rooms below (io -> solver -> mesh) is open to it. tests/acceptance/rooms.py reads
# these lines and holds every include against them.
function(sub_room)
  cmake_parse_arguments(room "" "" "MAY_INCLUDE" ${ARGN})
  file(RELATIVE_PATH folder ${CMAKE_SOURCE_DIR} ${CMAKE_CURRENT_SOURCE_DIR})
  string(REGEX REPLACE "/.*" "" house ${folder})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*.cpp)
  target_sources(crownproof_${house} PRIVATE ${sources})
endfunction()
