// SPDX-License-Identifier: AGPL-3.0-or-later
// What the pictures of one bite have in common: the value at each node and how the words of it read.
#pragma once

#include <string>
#include <vector>

#include "io/drawing/picture_geometry.hpp"
#include "io/drawing/scene.hpp"
#include "io/record/picture_wishes.hpp"
#include "solver/model/region_surface.hpp"

namespace crownproof {

struct Bite;
struct BiteReport;
struct Fields;
struct VariantRecord;

/// B, L, M, D.
std::vector<SceneSide> tooth_sides();

/// Refers to the variant and its fields, which must outlive it.
struct BiteView {
  BiteView(const VariantRecord& variant, const Fields& fields, std::size_t bite);

  NodeValue value() const {
    return [this](int node) { return shown[node]; };
  }
  /// "92 %" or "756 MPa".
  std::string words(double value) const;
  /// The sides of a tooth; none for bodies that have no such.
  std::vector<SceneSide> sides() const;
  /// Where it decides: a node, or a point between nodes on the rim of a contact.
  Vec3 deciding_point() const;
  double deciding_value() const;
  /// A view with what all of them show.
  SceneView empty_view() const;

  const VariantRecord& variant;
  const TetMesh& mesh;
  const BiteReport& bite;
  const Bite& asked;
  PictureQuantity quantity;
  int copies;  ///< of a specimen computed in part
  int region;
  RegionSurface skin;
  std::vector<double> shown;  ///< of each node: share of the strength in percent, or tension in MPa
  double highest = 0;
};

/// A ring at the point that decides, with its value; nothing where there is no tension.
void mark_deciding(SceneView& view, const BiteView& bite);

/// A ring with the value at the highest place of a surface; says so if that place is turned away.
void mark_highest(SceneView& view, const ValueSurface& surface, const BiteView& bite);

}  // namespace crownproof
