// SPDX-License-Identifier: AGPL-3.0-or-later
// An end to the splitting of triangles where the surface itself gives none.
#pragma once

#include <cstddef>

#include <fmt/core.h>

#include "mesh/geometry.hpp"
#include "mesh/geometry_error.hpp"

namespace crownproof {

/// Far more vertices than any surface of the cells allowed has.
inline constexpr std::size_t most_surface_vertices = 1'000'000;

/// Where a surface jumps, edges across the jump stay long however often they are split. Throws GeometryError
/// with the place (mm) when there are too many vertices.
inline void require_end(std::size_t n_vertices, const Vec3& at) {
  if (n_vertices < most_surface_vertices) return;
  throw GeometryError(fmt::format(
      "The surface cannot be meshed: near ({:.2f}, {:.2f}, {:.2f}) mm its triangles are split without "
      "end. Ask for larger cells there, or for a shape with less sudden steps.",
      at.x(), at.y(), at.z()));
}

}  // namespace crownproof
