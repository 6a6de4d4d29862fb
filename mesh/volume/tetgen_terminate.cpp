// SPDX-License-Identifier: AGPL-3.0-or-later
// TetGen 1.5.0 gives up on bad input by calling terminatetetgen(), which frees the mesh and throws; the
// mesh's destructor then frees it again and the process dies. This definition takes the place of that weak
// inline one (the shared library calls it through the dynamic symbol): it only throws, and the destructor
// frees once. tetgen.h must not be included here. tests/unit/tetrahedralize.cpp fails if the override stops
// working.

class tetgenmesh;

void terminatetetgen(tetgenmesh* mesh, int code);
void terminatetetgen(tetgenmesh* /*mesh*/, int code) {
  throw code;
}

namespace crownproof {
void keep_tetgen_terminate_override();
void keep_tetgen_terminate_override() {}  // a call to it pulls this file out of the static library
}  // namespace crownproof
