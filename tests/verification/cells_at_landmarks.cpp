// SPDX-License-Identifier: AGPL-3.0-or-later
// Small cells at any named place of any tooth: on ridges and cusps narrower than the cells around them the
// surface mesher once split triangles that stood on their edges without end.
#include <catch2/catch.hpp>

#include "mesh/crown/crown_shape.hpp"
#include "mesh/crown/tooth_classes.hpp"
#include "mesh/quality.hpp"
#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/fill.hpp"

using namespace crownproof;

TEST_CASE("small cells at any landmark of any tooth can be meshed", "[mesher][slow]") {
  for (const ToothClass& tooth : tooth_classes()) {
    CrownParameters p;
    p.tooth = tooth.name;
    p.occlusal_thickness_mm = 0.8;
    const Domain domain = crown_shape(p);
    for (const Landmark& landmark : domain.landmarks) {
      INFO(tooth.name << ", " << landmark.name);
      SizeRequest request;
      request.scale = 1.6;
      request.seeds = {{landmark.point, 0.25, 0.03}};
      const TetMesh mesh = fill(domain, request);
      for (const RegionQuality& region : measure_quality(mesh).regions) CHECK(region.inverted_curved == 0);
    }
  }
}
