// SPDX-License-Identifier: AGPL-3.0-or-later
// The occlusal thickness asked holds over the whole occlusal table, between the cusp tips and the fossae:
// nearest distance of outer surface and intaglio between the asked one and a quarter more, measured at every
// node of the mesh (a calliper's definition; the quarter is this project's own bar). A hundred crowns of the
// five classes.
#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <random>

#include "mesh/crown/crown_shape.hpp"
#include "mesh/crown/tooth_classes.hpp"
#include "mesh/quality.hpp"
#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/fill.hpp"
#include "mesh/volume/thickness.hpp"

using namespace crownproof;

namespace {

/// Least and most of measured over asked thickness.
struct Spread {
  double least = 1e9, most = 0;
  void add(double share) { least = std::min(least, share), most = std::max(most, share); }
};

class Draw {
 public:
  /// Uniform numbers made from the generator's own bits: std distributions differ between libraries.
  double between(double low, double high) {
    return low + (high - low) * (double(generator_()) / 4294967296.0);
  }
  int one_of(int n) { return std::min(n - 1, static_cast<int>(between(0, n))); }

 private:
  std::mt19937 generator_{2026};
};

/// Sizes and cusps near those of the class, everyday preparations, functional cusps thicker in every third
/// crown.
CrownParameters draw_crown(Draw& draw, int i) {
  const ToothClass& tooth = tooth_classes()[i % 5];
  CrownParameters p;
  p.tooth = tooth.name;
  p.mesiodistal_mm = tooth.mesiodistal_mm * draw.between(0.95, 1.1);
  p.buccolingual_mm = tooth.buccolingual_mm * draw.between(0.95, 1.1);
  p.height_mm = tooth.height_mm * draw.between(0.95, 1.1);
  p.cusp_height_mm = tooth.cusp_height_mm * draw.between(0.8, 1.0);
  p.fissure_depth_mm = draw.between(0, 0.3);
  p.occlusal_thickness_mm = std::array{0.6, 1.0, 1.5}[i / 5 % 3];
  p.axial_thickness_mm = draw.between(0.6, 1.0);
  p.finish_line.form = std::array{FinishLineForm::chamfer, FinishLineForm::shoulder}[draw.one_of(2)];
  p.finish_line.width_mm = draw.between(0.4, 0.55);
  p.total_occlusal_convergence_deg = draw.between(6, 20);
  p.cement_thickness_mm = draw.between(0.04, 0.12);
  p.line_angle_radius_mm = draw.between(0.2, 0.5);
  if (i % 3 == 2) p.functional_cusp_thickness_mm = p.occlusal_thickness_mm + draw.between(0, 0.5);
  return p;
}

}  // namespace

TEST_CASE("The occlusal thickness asked holds over the table of a hundred crowns", "[verification][slow]") {
  Draw draw;
  std::map<std::string, Spread> table, functional;
  int n = 0;
  for (int i = 0; n < 100; ++i) {
    const CrownParameters p = draw_crown(draw, i);
    INFO("crown " << i << ", " << p.tooth << ", " << p.occlusal_thickness_mm << " mm, axial "
                  << p.axial_thickness_mm);
    const Domain domain = crown_shape(p);
    SizeRequest size;
    size.scale = p.tooth.ends_with("premolar") ? 0.75 : 0.85;  // coarser than any run
    const TetMesh mesh = fill(domain, size);
    for (const RegionQuality& region : measure_quality(mesh).regions) CHECK(region.inverted_curved == 0);
    const ThicknessReport t = measure_thickness(mesh, domain, {"occlusal", "axial"}, "intaglio");
    const double asked = p.occlusal_thickness_mm, cusps = p.functional_cusp_thickness_mm.value_or(asked);
    // Towards cusps asked to be thicker the table thickens to theirs.
    table[p.tooth].add(t.table_thinnest.thickness_mm / asked);
    table[p.tooth].add(t.table_thickest.thickness_mm / cusps);
    for (const ThicknessAt& tip : t.functional_cusps) functional[p.tooth].add(tip.thickness_mm / cusps);
    CHECK(t.table_thinnest.thickness_mm >= asked);
    CHECK(t.table_thickest.thickness_mm <= 1.25 * cusps);
    for (const ThicknessAt& tip : t.functional_cusps) {
      CHECK(tip.thickness_mm >= cusps);
      CHECK(tip.thickness_mm <= 1.25 * cusps);
    }
    ++n;
  }
  for (const auto& [tooth, spread] : table)
    WARN(tooth << ": table " << 100 * (spread.least - 1) << " to " << 100 * (spread.most - 1)
               << " %, tips of functional cusps " << 100 * (functional[tooth].least - 1) << " to "
               << 100 * (functional[tooth].most - 1) << " %");
}
