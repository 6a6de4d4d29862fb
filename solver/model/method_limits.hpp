// SPDX-License-Identifier: AGPL-3.0-or-later
// What the method cannot do well, said before or beside the result.
#pragma once

#include <string>
#include <vector>

namespace crownproof {

struct MeshQuality;
struct Model;

/// Poisson's ratio from which pointwise stress is withheld, and from which the case is refused. Displacements
/// of quadratic cells hold to about 0.49, but the pressure part of the stress swings between cells (locking;
/// Hughes, The Finite Element Method, 1987, section 4.4, from memory).
inline constexpr double withhold_from_poisson = 0.47;
inline constexpr double refuse_from_poisson = 0.4995;

/// Throws ModelError if a region is so nearly incompressible that no displacement can be trusted, or if the
/// body under study is in the range where its stress would be withheld.
void refuse_impossible(const Model& model);

/// What limits a result.
enum class LimitKind {
  nearly_incompressible,  ///< `region` has a Poisson's ratio of at least withhold_from_poisson
  extreme_contrast,       ///< `stiff_region` is `figure` times as stiff as `region`
  slivers,                ///< the flattest cell of `region` has a dihedral angle of `figure` degrees
};
struct MethodLimit {
  LimitKind kind = LimitKind::slivers;
  std::string region;
  std::string stiff_region = {};
  double figure = 0;
};

/// Nearly incompressible regions, extreme ratios of stiffness, slivers.
std::vector<MethodLimit> limits_of(const Model& model, const MeshQuality& quality);

/// Regions whose pointwise stress must not be shown.
std::vector<std::string> withheld_regions(const Model& model);

}  // namespace crownproof
