// SPDX-License-Identifier: AGPL-3.0-or-later
// Crowns drawn at random over the whole range of their parameters must all mesh with sound cells and the
// asked thickness. The whole sweep of 200 crowns takes minutes and is run by hand: verification_tests
// "[.sweep]".
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "mesh/crown/crown_shape.hpp"
#include "mesh/quality.hpp"
#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/fill.hpp"
#include "mesh/volume/thickness.hpp"
#include "tests/support/random_crowns.hpp"

using namespace crownproof;

namespace {

/// The usual sizes, finer round the fossa and below it.
SizeRequest request_for(const Domain& domain, const CrownParameters& p, double scale) {
  SizeRequest request;
  request.scale = scale;
  const Vec3 below(0, 0, -p.occlusal_thickness_mm);
  request.seeds = {{*domain.fossa, 0.6, 0.16}, {*domain.fossa + below, 0.6, 0.21}};
  return request;
}

struct SweepFigures {
  int meshed = 0;
  double smallest_dihedral = 180;
  double worst_thickness = 0;  ///< relative error at the fossa
};

SweepFigures sweep(int first, int n, double scale) {
  SweepFigures figures;
  const RandomCrowns crowns = random_crowns(first + n);
  for (int i = first; i < first + n; ++i) {
    const CrownParameters& p = crowns.parameters[i];
    INFO("random crown " << i);
    const Domain domain = crown_shape(p);
    const TetMesh mesh = fill(domain, request_for(domain, p, scale));
    for (const RegionQuality& r : measure_quality(mesh).regions) {
      CHECK(r.inverted_straight == 0);
      CHECK(r.inverted_curved == 0);
      if (r.region == "cement") continue;  // a flat layer has flat cells: about gap over cell size
      CHECK(r.smallest_dihedral_deg >= 8);
      figures.smallest_dihedral = std::min(figures.smallest_dihedral, r.smallest_dihedral_deg);
    }
    const double thickness = distance_to_faces(mesh, "intaglio", *domain.fossa);
    CHECK(thickness == Approx(p.occlusal_thickness_mm).epsilon(0.02));
    figures.worst_thickness =
        std::max(figures.worst_thickness, std::abs(thickness / p.occlusal_thickness_mm - 1));
    ++figures.meshed;
  }
  return figures;
}

}  // namespace

TEST_CASE("Random crowns mesh with sound cells and the asked thickness", "[mesher][crown_sweep]") {
  CHECK(sweep(0, 10, 1.6).meshed == 10);
}

TEST_CASE("Two hundred random crowns, two sizes", "[.sweep]") {
  for (const double scale : {1.0, 0.7}) {
    const SweepFigures figures = sweep(0, 200, scale);
    WARN("scale " << scale << ": " << figures.meshed << " meshed, smallest dihedral "
                  << figures.smallest_dihedral << " degrees, worst thickness error "
                  << 100 * figures.worst_thickness << " %");
    CHECK(figures.meshed == 200);
  }
}

TEST_CASE("The demo crown at its size has 100 000 to 200 000 sound cells", "[mesher][crown_sweep]") {
  CrownParameters p;
  p.occlusal_thickness_mm = 0.6;
  const Domain domain = crown_shape(p);
  const SizedMesh sized = fill_to_target(domain, request_for(domain, p, 1), 150'000);
  CHECK(sized.mesh.n_cells() == Approx(150'000).epsilon(0.15));
  for (const RegionQuality& r : measure_quality(sized.mesh).regions) {
    CHECK(r.inverted_straight + r.inverted_curved == 0);
    if (r.region != "cement") CHECK(r.smallest_dihedral_deg >= 8);
  }
}
