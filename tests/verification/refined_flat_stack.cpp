// SPDX-License-Identifier: AGPL-3.0-or-later
// Ceramic on cement on dentin under a round pressure, refined by the program itself through the path a user
// takes: case text, shape, meshes, verdict. Source: exact three-layer half-space solution (Burmister, J.
// Appl. Phys. 16 (1945) 89, 126, 296), computed independently.
#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <limits>

#include "io/words/names.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/element/barycentric.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/zone_peak.hpp"
#include "tests/support/layered_half_space.hpp"
#include "tests/support/stack_run.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

namespace {

/// Recovered stress of the ceramic at a place under it, between nodes; cells there are flat and straight.
Voigt ceramic_stress(const Result& result, const Vec3& place) {
  const TetMesh& mesh = result.fields.mesh;
  const int region = mesh.region_index("crown");
  for (int c = 0; c < mesh.n_cells(); ++c) {
    if (mesh.region[c] != region) continue;
    const auto& cell = mesh.cells[c];
    Mat3 edges;
    for (int i = 0; i < 3; ++i) edges.col(i) = mesh.nodes[cell[i + 1]] - mesh.nodes[cell[0]];
    const Vec3 part = edges.inverse() * (place - mesh.nodes[cell[0]]);
    const Barycentric at{1 - part.sum(), part[0], part[1], part[2]};
    if (*std::min_element(at.begin(), at.end()) < -1e-9) continue;
    Voigt sum = Voigt::Zero();
    const auto weight = shape_values(at);
    for (int a = 0; a < 10; ++a) sum += weight[a] * result.fields.bites[0].stress.at(region, cell[a]);
    return sum;
  }
  FAIL("no cell of the ceramic there");
  return Voigt::Zero();
}

/// Exact stress at a radius on the ceramic's side of the interface, MPa.
struct ProfilePoint {
  double radius_mm, radial, hoop, axial, shear;
};

/// Mean over four directions: radial, hoop, axial stress and shear.
ProfilePoint mean_at(const Result& result, double radius, double depth) {
  ProfilePoint mean{radius, 0, 0, 0, 0};
  for (int k = 0; k < 4; ++k) {
    const double angle = 0.3 + M_PI / 2 * k;
    const Vec3 out(std::cos(angle), std::sin(angle), 0), around(-out.y(), out.x(), 0);
    const Mat3 s = stress_tensor(ceramic_stress(result, radius * out + Vec3(0, 0, depth)));
    mean.radial += 0.25 * out.dot(s * out);
    mean.hoop += 0.25 * around.dot(s * around);
    mean.axial += 0.25 * s(2, 2);
    mean.shear -= 0.25 * (s * out).z();  // the reference counts depth downward
  }
  return mean;
}

void compare_profile(VerificationTable& table, const Result& result, double bottom,
                     const std::vector<ProfilePoint>& exact) {
  const double scale = exact.front().radial;
  for (const ProfilePoint& want : exact) {
    const ProfilePoint found = mean_at(result, want.radius_mm, bottom + 1e-6);
    const std::string at = fmt::format(" at radius {} mm", want.radius_mm);
    table.compare_to_scale("radial stress" + at, "MPa", want.radial, found.radial, scale, 2);
    table.compare_to_scale("hoop stress" + at, "MPa", want.hoop, found.hoop, scale, 2);
    table.compare_to_scale("axial stress" + at, "MPa", want.axial, found.axial, scale, 2);
    table.compare_to_scale("shear stress" + at, "MPa", want.shear, found.shear, scale, 2);
  }
}

/// Median error (percent) of five meshes of one even fineness each, with 2 to 2.6 times the cells: one such
/// mesh can be right by luck.
double evenly_refined_error(double thickness, double exact, int cells) {
  std::vector<double> errors;
  for (const double times :
       {2.7, 2.9, 3.0, 3.2, 3.4}) {  // these meshes get about 0.76 of the cells asked for
    const Result even =
        run_stack({.thickness_mm = thickness, .accuracy = fmt::format("cells: {:.0f}", times * cells)});
    CHECK(even.fields.mesh.n_cells() > 2.0 * cells);
    errors.push_back(100 * std::abs(peak_of(even, Zone::intaglio).tension_MPa / exact - 1));
  }
  std::sort(errors.begin(), errors.end());
  return errors[2];
}

/// Height of the ceramic's under side.
double under_side(const Result& result) {
  const int region = result.fields.mesh.region_index("crown");
  double lowest = std::numeric_limits<double>::infinity();
  for (int c = 0; c < result.fields.mesh.n_cells(); ++c)
    if (result.fields.mesh.region[c] == region)
      for (const int n : result.fields.mesh.cells[c])
        lowest = std::min(lowest, result.fields.mesh.nodes[n].z());
  return lowest;
}

}  // namespace

TEST_CASE("Stress under the ceramic against radius, with and without cement",
          "[verification][refined_flat_stack][slow]") {
  const std::string source =
      "Burmister 1945 (theory), independent solution; stack of 14 mm for the half-space";
  {
    const Result two = run_stack({.cement_um = 0, .accuracy = "cells: 120000"});
    VerificationTable table("refined_flat_stack",
                            "Two layers, 1 mm of ceramic on dentin, under uniform pressure", source);
    compare_profile(table, two, under_side(two),
                    {{0, 67.750925, 67.750925, -13.263183, 0},
                     {0.25, 60.356749, 63.594921, -12.479424, -1.899027},
                     {0.5, 42.377095, 53.050076, -10.507757, -3.127141},
                     {1, 8.955576, 29.662505, -6.224219, -3.246021},
                     {2, -6.968873, 8.623140, -2.239150, -1.722735},
                     {4, -4.795325, 0.568628, -0.276843, -0.465485}});
  }
  const Result three = run_stack({.accuracy = "cells: 120000"});
  VerificationTable table("refined_flat_stack",
                          "Three layers, 1 mm of ceramic on cement and dentin, under uniform pressure",
                          source);
  compare_profile(table, three, under_side(three),
                  {{0, 72.696761, 72.696761, -12.355916, 0},
                   {0.25, 64.765536, 68.207081, -11.692229, -1.346015},
                   {0.5, 45.487194, 56.827018, -10.006510, -2.272334},
                   {1, 9.719314, 31.690999, -6.188019, -2.580357},
                   {2, -7.380286, 9.198402, -2.297918, -1.566744},
                   {4, -5.101972, 0.594000, -0.280782, -0.462748}});
}

TEST_CASE("Three layers refined to 2 percent", "[verification][refined_flat_stack][slow]") {
  VerificationTable table("refined_flat_stack", "Three layers under uniform pressure, refined to 2 percent",
                          "Burmister 1945 (theory), independent solution; stack of 14 mm for the half-space");
  for (const auto& [thickness, exact] : {std::pair{1.0, 72.696761}, {0.5, 179.196733}}) {
    const Result result =
        run_stack({.thickness_mm = thickness, .accuracy = "stress_percent: 2, max_cells: 200000"});
    const ZonePeak& peak = peak_of(result, Zone::intaglio);
    const std::string at = fmt::format(", {} mm of ceramic", thickness);
    CHECK(peak.settling != Settling::does_not_settle);
    table.compare("tension under the ceramic" + at, "MPa", exact, peak.tension_MPa, 1);
    table.within("stated band, plus or minus" + at, "%", 0, 2, 100 * peak.relative_uncertainty);
    table.within("cells of the last mesh" + at, "", 1000, 200000, result.fields.mesh.n_cells());
    const double error = 100 * std::abs(peak.tension_MPa / exact - 1);
    table.within("error; limit: median of five evenly refined meshes with over twice the cells" + at, "%", 0,
                 evenly_refined_error(thickness, exact, result.fields.mesh.n_cells()), error);
  }
}

TEST_CASE("Bands that a run states hold the exact tension", "[verification][refined_flat_stack][slow]") {
  VerificationTable table("refined_flat_stack", "Bands stated by runs refined to 5 percent",
                          "Burmister 1945 (theory), solved independently; stack of 40 mm for the half-space, "
                          "which adds 0.1 percent");
  for (const StackCase& stack :
       {StackCase{.thickness_mm = 0.5, .radius_mm = 40, .accuracy = "stress_percent: 5"},
        StackCase{.thickness_mm = 2.0,
        .ceramic_GPa = 70,
        .ceramic_poisson = 0.25,
        .die_GPa = 8,
        .shape = PressureShape::hertz,
        .radius_mm = 40,
        .accuracy = "stress_percent: 5"}}) {
    const LayeredHalfSpace exact({{stack.thickness_mm, 1000 * stack.ceramic_GPa, stack.ceramic_poisson},
                                  {stack.cement_um / 1000.0, 8e3, 0.30},
                                  {0, 1000 * stack.die_GPa, 0.31}},
                                 stack.contact_radius_mm, 100, stack.shape);
    const ZonePeak& peak = peak_of(run_stack(stack), Zone::intaglio);
    table.compare(fmt::format("tension under {} mm of {} GPa, tolerance: the stated band and 0.1 %",
                              stack.thickness_mm, stack.ceramic_GPa),
                  "MPa", exact.under_first_layer().radial, peak.tension_MPa,
                  100 * peak.relative_uncertainty + 0.1);
    CHECK(peak.relative_uncertainty < 0.025);
  }
}

TEST_CASE("A contact that is nearly a point is no number", "[verification][refined_flat_stack][slow]") {
  const Result result = run_stack({.contact_radius_mm = 0.05,
                                   .shape = PressureShape::hertz,
                                   .radius_mm = 5,
                                   .accuracy = "stress_percent: 20, max_cells: 20000"});
  const ZonePeak& contact = peak_of(result, Zone::contact);
  INFO(settling_words(contact.settling) << " " << contact.tension_MPa << " " << contact.cell_size_mm);
  CHECK(contact.settling == Settling::does_not_settle);
  CHECK(contact.cause != UnsettledCause::none);
}
