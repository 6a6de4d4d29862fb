// SPDX-License-Identifier: AGPL-3.0-or-later
// What a shape hands to the mesher: smooth surface patches cut by shared rings, the bodies they enclose, thin
// bonded layers, and the named places where contacts are put. Shapes know nothing of triangles; the mesher
// (fill) knows nothing of teeth.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "mesh/shape/implicit.hpp"
#include "mesh/shape/warp.hpp"

namespace crownproof {

/// A closed curve shared by patches; t in [0,1) runs counter-clockwise seen from +z.
struct Ring {
  std::string name;
  std::function<Vec3(double t)> point;
};

/// A piece of surface F = 0 between one ring and another (a band) or a pole (a cap).
struct Patch {
  ImplicitField field;  ///< its gradient is the patch's normal
  int first_ring = 0;   ///< index into Domain::rings
  int last_ring = -1;   ///< the other ring of a band; -1: a cap that closes in a pole
  std::function<Vec3(double t, double s)>
      start;  ///< first guess of a point: s = 0 on first_ring, 1 on last_ring or
              ///< at the pole; the mesher projects it on F = 0
  std::function<std::string(const Vec3&)> face_name;  ///< name of the face at a point of the patch
};

/// A patch as part of a body's boundary.
struct PatchUse {
  int patch = 0;             ///< index into Domain::patches
  bool flipped = false;      ///< the patch's normal points into the body
  bool offset_copy = false;  ///< the far side of the layer that grows from this patch (e.g. the intaglio)
};

/// A body meshed by itself, closed by its patches.
struct Body {
  std::string region;  ///< crown, die, ...
  std::vector<PatchUse> boundary;
};

/// A thin bonded layer: prisms between a patch and its copy moved by `thickness_mm` along the exact normal.
/// The ring `offset_ring` is `base_ring` moved likewise (same t), so that the outer surface of the next body
/// starts there; the open rim between the two rings gets the face name `rim_name`.
struct Layer {
  std::string region;  ///< cement
  int base_patch = 0;  ///< e.g. the preparation
  double thickness_mm = 0;
  int base_ring = 0;
  int offset_ring = 0;
  std::string offset_name;  ///< name of the far face, e.g. intaglio
  std::string rim_name;     ///< e.g. cement_margin
};

/// Tips of functional cusps bite into fossae of the opposite tooth.
enum class LandmarkKind { place, fossa, functional_cusp_tip, other_cusp_tip };

/// A named place on the outer surface.
struct Landmark {
  std::string name;
  Vec3 point = Vec3::Zero();
  Vec3 normal = Vec3::UnitZ();  ///< outward unit normal
  LandmarkKind kind = LandmarkKind::place;
};

/// Heights above the finish line.
struct CrownHeights {
  double crown_mm = 0;     ///< of the highest cusp tip
  double abutment_mm = 0;  ///< of the abutment below the central fossa
};

/// A shape ready to be meshed.
struct Domain {
  std::vector<Ring> rings;
  std::vector<Patch> patches;
  std::vector<Body> bodies;
  std::vector<Layer> layers;  ///< none (bonded directly) or one
  std::vector<Landmark> landmarks;
  int outer_patch = 0;                  ///< the patch that contacts touch
  std::string outer_region = "crown";   ///< the body under study
  std::optional<Vec3> fossa;            ///< where the asked thickness is met
  std::optional<Warp> warp;             ///< laid over all of the above but landmarks, fossa and margins
  std::optional<CrownHeights> heights;  ///< of a crown
  /// Whether a point of the outer surface lies between the cusp tips and the pits, where the asked thickness
  /// holds; empty if the shape has no occlusal table.
  std::function<bool(const Vec3&)> on_occlusal_table;
  std::vector<std::pair<Vec3, double>>
      margins;  ///< points on the finish line, where it lies, and the fine cell size wanted there
};

/// The point of the outer surface met first by a line that comes down from +z at (x, y), with its normal;
/// nothing if the line misses the surface (or meets it outside the other patches of the body under study).
std::optional<Landmark> drop_on_outer_surface(const Domain& domain, double x, double y);

/// The whole shape turned about the origin by a rotation matrix: the same case in other axes. Rings then run
/// counter-clockwise about the turned z axis.
Domain rotated(const Domain& domain, const Mat3& rotation);

/// Position of a landmark in the domain's list by its name; -1 if there is none.
int landmark_index(const Domain& domain, const std::string& name);

}  // namespace crownproof
