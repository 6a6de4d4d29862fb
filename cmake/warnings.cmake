# SPDX-License-Identifier: AGPL-3.0-or-later
# One interface target carries the warnings, the sanitizers and the include root to every room.
add_library(crownproof_options INTERFACE)
target_include_directories(crownproof_options INTERFACE ${CMAKE_SOURCE_DIR})
target_compile_options(crownproof_options INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion -Wno-missing-field-initializers -Wnon-virtual-dtor -Wold-style-cast)
if(CROWNPROOF_WARNINGS_AS_ERRORS)
  target_compile_options(crownproof_options INTERFACE -Werror)
endif()
if(CROWNPROOF_SANITIZE)
  target_compile_options(crownproof_options INTERFACE -fsanitize=address,undefined -fno-omit-frame-pointer)
  target_link_options(crownproof_options INTERFACE -fsanitize=address,undefined)
endif()
