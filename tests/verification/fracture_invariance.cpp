// SPDX-License-Identifier: AGPL-3.0-or-later
// A layered crown does not know which way is up: turn the mesh, the load and the build direction together and
// every safety factor and every probability of fracture must stay. And the probability must not depend on the
// mesh.
#include <cmath>
#include <memory>

#include <catch2/catch.hpp>

#include "mesh/shape/domain.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/fill.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/loads/contact_load.hpp"
#include "solver/loads/supports.hpp"
#include "solver/material/material.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/specimen_test.hpp"
#include "solver/model/strength.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zones.hpp"
#include "solver/result/result.hpp"
#include "solver/simulate.hpp"
#include "solver/strength/fracture_outlook.hpp"
#include "solver/strength/fracture_probability.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/strength/zone_peak.hpp"
#include "solver/strength/zone_peaks.hpp"
#include "solver/stress/region_stress.hpp"
#include "solver/stress/stress_field.hpp"
#include "solver/stress/stress_recovery.hpp"
#include "tests/support/case_text.hpp"
#include "tests/support/elastic_problems.hpp"

using namespace crownproof;
using namespace crownproof::test;

namespace {

/// A printed crown, built at a slant, with curved cells; ten years of chewing.
Model printed_crown() {
  const Case whole = read_and_build(
      "crownproof: 1\n"
      "crown: {tooth: lower_first_molar, occlusal_thickness_mm: 1.0}\n"
      "materials: {crown: zirconia_3y_printed, cement: resin_cement, die: dentin}\n"
      "build: {tilt_deg: 35, toward: mesial}\n"
      "bites:\n"
      "  - name: clench\n"
      "    contacts:\n"
      "      - {at: mesiobuccal_cusp_inner_slope, force_N: 900, radius_mm: 0.8, direction: surface_normal}\n"
      "      - {at: distolingual_cusp_inner_slope, force_N: 700, radius_mm: 0.8}\n"
      "strength: {years: 10}\n"
      "accuracy: {cells: 6000}\n");
  return build_model(whole.variants[0].case_file, whole.library);
}

struct Answer {
  std::vector<ZonePeak> peaks;
  FractureOutlook fracture;
};

/// Everything from the stiffness on, as simulate() does it, with the solver's tolerance small enough to
/// compare.
Answer compute(const TetMesh& mesh, const Eigen::VectorXd& loads, const Model& model,
               const std::vector<Zone>& zones) {
  std::vector<Stiffness> stiffnesses;
  for (const std::string& region : mesh.region_names)
    for (const RegionMaterial& m : model.materials)
      if (m.region == region) stiffnesses.push_back(stiffness(m.material.elastic, m.axes));
  const HeldFlags held = held_flags(mesh, model.supports);
  const ElasticitySolver solver(mesh, stiffnesses, held);
  const Solution s = solve_with(solver, held, Eigen::VectorXd::Zero(loads.size()), loads, 1e-12);
  CAPTURE(s.report.relative_residual, s.report.diagnosis);
  REQUIRE(s.report.converged);
  const RegionStress stress = recover_stress(mesh, stiffnesses, s.displacement);
  const StudiedBody crown{mesh, mesh.region_index("crown"), material_under_study(model), stiffnesses, zones};
  Answer answer;
  answer.peaks = zone_peaks(crown, stress);
  double smallest = 1e300;
  for (const ZonePeak& peak : answer.peaks) smallest = std::min(smallest, peak.safety_factor);
  answer.fracture = fracture_outlook(crown, recovered_field(mesh, stress, crown.region), 1600, smallest,
                                     model.requirement.chewing);
  return answer;
}

}  // namespace

TEST_CASE("turning mesh, load and build direction together leaves safety factors and probabilities",
          "[fracture_invariance]") {
  const Model model = printed_crown();
  const TetMesh mesh = fill(*model.domain, model.size);
  const Eigen::VectorXd loads = bite_load(mesh, "crown", model.bites[0]);
  const std::vector<Zone> zones = ZoneMap(mesh, model).in_bite(model.bites[0]);

  const Mat3 r = turn(1.1, Vec3(0.3, -0.7, 0.5).normalized());
  TetMesh turned_mesh = mesh;
  for (Vec3& x : turned_mesh.nodes) x = r * x;
  Eigen::VectorXd turned_loads = loads;
  for (Eigen::Index i = 0; i < loads.size(); i += 3) turned_loads.segment<3>(i) = r * loads.segment<3>(i);
  Model turned = model;
  for (RegionMaterial& m : turned.materials) m.axes = r * m.axes;

  const Answer a = compute(mesh, loads, model, zones), b = compute(turned_mesh, turned_loads, turned, zones);
  REQUIRE(a.peaks.size() == b.peaks.size());
  for (const ZonePeak& peak : a.peaks)
    for (const ZonePeak& other : b.peaks) {
      if (other.zone != peak.zone) continue;
      INFO(zone_name(peak.zone));
      CHECK(other.safety_factor == Approx(peak.safety_factor).epsilon(1e-8));
      CHECK(other.mechanism == peak.mechanism);
    }
  REQUIRE_FALSE(a.fracture.withheld.has_value());
  CHECK(a.fracture.now.probability > 1e-9);
  CHECK(b.fracture.now.probability == Approx(a.fracture.now.probability).epsilon(1e-8));
  CHECK(b.fracture.later->probability == Approx(a.fracture.later->probability).epsilon(1e-8));
  CHECK(*b.fracture.loads.at_5_percent_N == Approx(*a.fracture.loads.at_5_percent_N).epsilon(1e-8));
  // If only the load turned, the layers would lie elsewhere in it.
  const Answer wrong = compute(turned_mesh, turned_loads, model, zones);
  CHECK(std::abs(wrong.fracture.now.probability / a.fracture.now.probability - 1) > 1e-3);
}

TEST_CASE("probability of fracture of a bar changes by less than 1 % when its mesh is refined once",
          "[fracture_invariance][slow]") {
  Model model;
  Domain body;
  body.outer_region = "specimen";
  model.domain = std::make_shared<const Domain>(body);
  SpecimenTest test{
      .specimen = {.test = BenchTest::bend_4_point, .width_mm = 4, .thickness_mm = 3, .span_mm = 40}};
  test.specimen.inner_span_mm = 20;
  test.load_N = 480;
  Strength strength{.characteristic_MPa = 500, .weibull_modulus = 10};
  strength.specimen = std::make_shared<const BenchSpecimen>(test.specimen);
  RegionMaterial ceramic{.region = "specimen"};
  ceramic.material = {"invented ceramic", isotropic(210e3, 0.3), MaterialStrength{strength, {}}};
  model.materials = {ceramic};
  model.bites = {{"bending", {Contact{.at = "fixture", .force_N = test.load_N}}}};
  double before = 0, change = 1;
  for (const int layers : {3, 6}) {
    test.layers = layers;
    model.specimen = std::make_shared<const SpecimenTest>(test);
    const FractureProbability p = simulate(model).report.bites[0].fracture.now;
    change = p.probability / before - 1;
    before = p.probability;
  }
  CAPTURE(before, change);
  CHECK(std::abs(change) < 0.01);
  // 400 MPa against 500 by the formula: 1 - exp(-0.8^10) = 10.2 %.
  CHECK(before == Approx(-std::expm1(-std::pow(0.8, 10))).epsilon(0.03));
}
