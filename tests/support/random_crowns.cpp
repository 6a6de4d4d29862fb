// SPDX-License-Identifier: AGPL-3.0-or-later
#include "random_crowns.hpp"

#include <algorithm>
#include <random>

#include "mesh/geometry_error.hpp"

namespace crownproof {
namespace {

/// Uniform numbers made from the generator's own bits: std distributions differ between libraries.
class Draw {
 public:
  explicit Draw(unsigned seed) : generator_(seed) {}
  double between(double low, double high) {
    return low + (high - low) * (static_cast<double>(generator_()) / 4294967296.0);
  }
  int one_of(int n) { return std::min(n - 1, static_cast<int>(between(0, n))); }

 private:
  std::mt19937 generator_;
};

CrownParameters draw_crown(Draw& draw) {
  CrownParameters p;
  p.tooth = draw.one_of(2) == 0 ? "lower_first_molar" : "lower_second_molar";
  const double md = draw.between(6.5, 12), bl = draw.between(7.5, 12);
  p.mesiodistal_mm = md;
  p.buccolingual_mm = bl;
  p.occlusal_thickness_mm = draw.between(0.5, 2.5);
  p.axial_thickness_mm = draw.between(0.8, 2.0);
  p.finish_line.form = static_cast<FinishLineForm>(draw.one_of(3));
  const bool knife_edge = p.finish_line.form == FinishLineForm::knife_edge;
  p.finish_line.width_mm = draw.between(0.4, knife_edge ? 0.6 : std::min(1.2, p.axial_thickness_mm));
  p.cement_thickness_mm = draw.between(0.03, 0.12);
  p.cusp_height_mm = draw.between(0.8, std::min(3.2, 0.28 * std::min(md, bl)));
  p.fissure_depth_mm = draw.between(0, 0.7);
  p.total_occlusal_convergence_deg = draw.between(4, 24);
  p.abutment_height_mm = draw.between(2.5, 6);
  p.line_angle_radius_mm = draw.between(0.15, 0.8);
  return p;
}

}  // namespace

RandomCrowns random_crowns(int n, unsigned seed) {
  Draw draw(seed);
  RandomCrowns crowns;
  while (static_cast<int>(crowns.parameters.size()) < n) {
    const CrownParameters p = draw_crown(draw);
    try {
      design_crown(p);
      crowns.parameters.push_back(p);
    } catch (const GeometryError&) {
      ++crowns.n_refused;
    }
  }
  return crowns;
}

}  // namespace crownproof
