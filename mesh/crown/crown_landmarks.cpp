// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/crown/crown_landmarks.hpp"
#include "mesh/shape/domain.hpp"

#include <cmath>

namespace crownproof {
namespace {

Landmark on_surface(const CrownAnatomy& anatomy, const std::string& name, const Vec3& point,
                    LandmarkKind kind = LandmarkKind::place) {
  return {name, point, unit_normal(std::cref(anatomy), point), kind};
}

Vec3 over(const CrownAnatomy& anatomy, double x, double y) {
  return {x, y, surface_height(anatomy, x, y)};
}

/// A place between tip and fossa that belongs to this cusp alone: from half way, back towards the tip until
/// no other cusp has a say.
Vec3 inner_slope(const CrownAnatomy& anatomy, const Vec3& tip, const Vec3& fossa) {
  const double own = 0.9;
  double share = 0.5;
  Vec3 place = tip + share * (fossa - tip);
  while (share > 0.2 && anatomy.relief.dominance(place.x(), place.y()) < own) {
    share -= 0.02;
    place = tip + share * (fossa - tip);
  }
  return over(anatomy, place.x(), place.y());
}

/// The crest of a marginal ridge: highest along the mesiodistal line through the ridge.
Vec3 ridge_crest(const CrownAnatomy& anatomy, const Cone& ridge) {
  Vec3 crest = over(anatomy, ridge.x, ridge.y);
  for (int i = -40; i <= 40; ++i) {
    const Vec3 next = over(anatomy, ridge.x + 0.02 * i, ridge.y);
    if (next.z() > crest.z()) crest = next;
  }
  return crest;
}

/// The pit on the inner side of a marginal ridge.
Vec3 side_fossa(const CrownAnatomy& anatomy, const Vec3& crest) {
  const double reach = 0.22 * std::abs(crest.x());
  return extreme_height(anatomy, 0.68 * crest.x(), crest.y(), reach, -1);
}

}  // namespace

std::vector<Landmark> crown_landmarks(const CrownDesign& design, const ToothClass& tooth) {
  const CrownAnatomy& anatomy = design.anatomy;
  std::vector<Landmark> marks{on_surface(anatomy, "central_fossa", design.fossa, LandmarkKind::fossa)};
  for (size_t i = 0; i < tooth.peaks.size(); ++i) {
    const Peak& peak = tooth.peaks[i];
    const Cone& cone = anatomy.relief.cones[i];
    if (peak.is_ridge) {
      const Vec3 crest = ridge_crest(anatomy, cone);
      marks.push_back(on_surface(anatomy, peak.name, crest));
      marks.push_back(on_surface(anatomy, crest.x() < 0 ? "mesial_fossa" : "distal_fossa",
                                 side_fossa(anatomy, crest), LandmarkKind::fossa));
    } else {
      const Vec3 tip = cusp_tip(anatomy, cone);
      const LandmarkKind kind =
          peak.functional ? LandmarkKind::functional_cusp_tip : LandmarkKind::other_cusp_tip;
      marks.push_back(on_surface(anatomy, peak.name + "_tip", tip, kind));
      marks.push_back(
          on_surface(anatomy, peak.name + "_inner_slope", inner_slope(anatomy, tip, design.fossa)));
    }
  }
  return marks;
}

}  // namespace crownproof
