// SPDX-License-Identifier: AGPL-3.0-or-later
// When refinement stops and what the next mesh is asked to be. Expectations: the words of
// solver/accuracy/passes.hpp; that N cells of one size need sizes ~ N^(-1/3); memory as foreseen by
// predicted_memory_GiB.

#include <algorithm>
#include <cmath>
#include <memory>

#include <catch2/catch.hpp>

#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/shape/flat_stack.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "mesh/volume/fill.hpp"
#include "solver/accuracy/passes.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/strength/zone_peak.hpp"

using namespace crownproof;

namespace {

constexpr int fields = 4;  // one bite and its three influence fields

struct Sequence {
  Model model;
  TetMesh mesh;
  std::vector<Pass> passes;

  Stop stop() const { return why_stop(model, passes); }
  ZonePeak& last_peak() { return passes.back().peaks[0][0]; }
};

/// One bite that is known to `uncertainty` of its tension after `n_passes` meshes; the last is a cube of 384
/// cells (4^3 boxes, six cells each).
Sequence sequence(int n_passes, double uncertainty = 0.5) {
  Sequence s;
  s.model.accuracy = {.stress_percent = 5, .max_cells = 1000000, .max_passes = 10};
  s.model.bites.resize(1);
  s.mesh = box_mesh({grid_lines(0, 1, 4), grid_lines(0, 1, 4), grid_lines(0, 1, 4)}, {"crown"});
  ZonePeak peak;
  peak.safety_factor = 3;
  peak.tension_MPa = 200;
  peak.relative_uncertainty = uncertainty;
  peak.settling = Settling::settles;
  s.passes.resize(n_passes);
  for (Pass& pass : s.passes) {
    pass.cells = s.mesh.n_cells();
    pass.peaks = {{peak}};
  }
  return s;
}

/// The plan if every cell has the same part in the error.
RefinePlan even_plan(const Sequence& s) {
  return next_plan(s.model, s.mesh, s.passes, std::vector<double>(s.mesh.n_cells(), 1));
}

/// Of the sizes that are asked anywhere, mm.
double smallest_size(const RefinePlan& plan) {
  REQUIRE(!plan.size.seeds.empty());
  double size = plan.size.seeds[0].size_mm;
  for (const SizeSeed& seed : plan.size.seeds) size = std::min(size, seed.size_mm);
  return size;
}

}  // namespace

TEST_CASE("While a peak is badly known and nothing runs out, a finer mesh follows", "[passes]") {
  const Sequence s = sequence(2);
  CHECK(s.stop().reason == StopReason::goes_on);
}

TEST_CASE("Without a wanted accuracy a scouting mesh and the asked one are made", "[passes]") {
  Sequence s = sequence(1);
  s.model.accuracy.stress_percent = 0;
  CHECK(s.stop().reason == StopReason::goes_on);
  s = sequence(2);
  s.model.accuracy.stress_percent = 0;
  CHECK(s.stop().reason == StopReason::no_accuracy_asked);
}

TEST_CASE("The scouting mesh is coarser, the asked one finer where it found the peaks that may decide",
          "[passes]") {
  Sequence s = sequence(1);
  s.model.accuracy.stress_percent = 0;
  s.model.size.seeds = {{Vec3::Zero(), 1.3, 0.1}};
  const SizeRequest scouting = first_plan(s.model).size;
  CHECK(scouting.scale == Approx(1.71 * s.model.size.scale));
  CHECK(scouting.scale * scouting.seeds[0].size_mm <= 1.3 / 3);
  s.model.domain = std::make_shared<const Domain>(flat_stack({}));
  s.passes.back().peaks[0][0].cell_size_mm = 0.4;
  const RefinePlan plan = asked_plan(s.model, s.mesh, s.passes);
  CHECK(plan.size.scale == s.model.size.scale);
  REQUIRE(plan.size.seeds.size() > 1);
  const ZonePeak& peak = s.passes.back().peaks[0][0];
  const SizeSeed& seed = plan.size.seeds[1];
  CHECK((seed.centre - s.mesh.nodes[peak.node]).norm() == 0);
  CHECK(plan.size.scale * seed.size_mm < 0.5 * peak.cell_size_mm);
  // What is foretold is what the mesher makes, to the accuracy stated for stacks (mesh/volume/fill.hpp).
  const int made = fill(*s.model.domain, plan.size).n_cells();
  CHECK(plan.predicted_cells == Approx(made).epsilon(0.35));
}

TEST_CASE("Refinement ends when the deciding tensions are known, and says to what", "[passes]") {
  const Sequence s = sequence(3, 0.01);
  CHECK(s.stop().reason == StopReason::accurate_enough);
  CHECK(s.stop().asked_percent == 5);
}

TEST_CASE("Where no tension settles three meshes are made to see it, and the reason is said", "[passes]") {
  for (const int meshes : {1, 2, 3}) {
    Sequence s = sequence(meshes);
    s.last_peak().settling = Settling::does_not_settle;
    INFO(meshes << " meshes");
    CHECK(s.stop().reason == (meshes < 3 ? StopReason::goes_on : StopReason::nothing_settles));
  }
}

TEST_CASE("Without any tension nothing is left to know", "[passes]") {
  Sequence s = sequence(3);
  s.last_peak().tension_MPa = 0;
  CHECK(s.stop().reason == StopReason::accurate_enough);
}

TEST_CASE("Even a tiny mesh that does not fit in memory comes to an end", "[passes]") {
  Sequence s = sequence(2);
  for (Pass& pass : s.passes) pass.cells = 6;
  s.model.accuracy.available_memory_GiB = 0.01;
  CHECK(s.stop().reason == StopReason::too_little_memory);
}

TEST_CASE("No more meshes are made than allowed", "[passes]") {
  Sequence s = sequence(3);
  s.model.accuracy.max_passes = 4;
  CHECK(s.stop().reason == StopReason::goes_on);
  s.model.accuracy.max_passes = 3;
  CHECK(s.stop().reason == StopReason::passes_used_up);
  CHECK(s.stop().passes == 3);
}

TEST_CASE("A budget that leaves no room for a telling mesh ends refinement and is named", "[passes]") {
  Sequence s = sequence(2);  // 384 cells
  s.model.accuracy.max_cells = 600;
  CHECK(s.stop().reason == StopReason::goes_on);
  s.model.accuracy.max_cells = 400;
  CHECK(s.stop().reason == StopReason::cells_used_up);
  CHECK(s.stop().max_cells == 400);
}

TEST_CASE("A mesh that memory cannot hold is not started, and the sentence has the figures", "[passes]") {
  Sequence s = sequence(2);
  for (Pass& pass : s.passes) pass.cells = 400000;
  s.model.accuracy.available_memory_GiB = predicted_memory_GiB(640000, fields);
  CHECK(s.stop().reason == StopReason::goes_on);
  s.model.accuracy.available_memory_GiB = predicted_memory_GiB(440000, fields);
  const Stop stop = s.stop();
  CHECK(stop.reason == StopReason::too_little_memory);
  CHECK(stop.wished_cells == 720000);  // 1.8 times as many
  CHECK(stop.needed_GiB == Approx(predicted_memory_GiB(720000, fields)));
  CHECK(stop.free_GiB == Approx(predicted_memory_GiB(440000, fields)));
}

TEST_CASE("More bites need more memory for the same mesh", "[passes]") {
  Sequence s = sequence(2);
  for (Pass& pass : s.passes) pass.cells = 400000;
  s.model.accuracy.available_memory_GiB = predicted_memory_GiB(640000, fields);
  s.model.bites.resize(4);
  CHECK(s.stop().reason == StopReason::too_little_memory);
}

TEST_CASE("The next mesh has 1.8 times the cells, after three meshes 2.2 times", "[passes]") {
  for (const int n_passes : {1, 2, 3, 4}) {
    const Sequence s = sequence(n_passes);
    const double growth = n_passes < 3 ? 1.8 : 2.2;
    CHECK(even_plan(s).predicted_cells == Approx(growth * 384).epsilon(0.005));
  }
}

TEST_CASE("The next mesh keeps to the budget of cells", "[passes]") {
  Sequence s = sequence(3);
  s.model.accuracy.max_cells = 600;
  CHECK(even_plan(s).predicted_cells == Approx(600).epsilon(0.005));
}

TEST_CASE("The next mesh keeps to the memory that is free and uses most of it", "[passes]") {
  Sequence s = sequence(3);  // growth alone would ask for 845 cells
  s.model.accuracy.available_memory_GiB = predicted_memory_GiB(700, fields);
  const int cells = even_plan(s).predicted_cells;
  CHECK(cells <= 700 * 1.005);
  CHECK(cells >= 700 * 0.93);
}

TEST_CASE("Cells that come out fewer than asked are asked smaller the next time", "[passes]") {
  Sequence s = sequence(2);
  const double size = smallest_size(even_plan(s));
  s.passes[0].made_over_asked = 0.5;  // seen on the first mesh
  CHECK(smallest_size(even_plan(s)) == Approx(size * std::cbrt(0.5)).epsilon(0.005));
  CHECK(even_plan(s).predicted_cells == Approx(1.8 * 384).epsilon(0.005));
  s.passes[1].predicted_cells = 2 * s.passes[1].cells;  // and once more by the plan since
  CHECK(smallest_size(even_plan(s)) == Approx(size * std::cbrt(0.25)).epsilon(0.005));
}

TEST_CASE("A plan that made too many cells is put right the other way", "[passes]") {
  Sequence s = sequence(2);
  const double size = smallest_size(even_plan(s));
  s.passes[1].predicted_cells = s.passes[1].cells / 2;
  CHECK(smallest_size(even_plan(s)) == Approx(size * std::cbrt(2.0)).epsilon(0.005));
}

TEST_CASE("Where the error lies cells shrink by 1.3 or more, elsewhere less", "[passes]") {
  const Sequence s = sequence(1);
  const double now = cell_size(s.mesh, 0);
  CHECK(smallest_size(even_plan(s)) == Approx(now / std::cbrt(1.8)).epsilon(0.005));
  std::vector<double> share(s.mesh.n_cells(), 0.01);
  for (int c = 0; c < s.mesh.n_cells(); ++c)
    if (s.mesh.nodes[s.mesh.cells[c][0]].norm() < 0.3) share[c] = 1;
  CHECK(now / smallest_size(next_plan(s.model, s.mesh, s.passes, share)) > 1.3);
}

TEST_CASE("A plan knows the memory its mesh will take", "[passes]") {
  const Sequence s = sequence(2);
  RefinePlan plan;
  plan.predicted_cells = 180000;
  CHECK(memory_of_plan_GiB(s.model, plan) == Approx(predicted_memory_GiB(180000, fields)));
}

TEST_CASE("A pass notes its size, its worst bite and the cells at each peak", "[passes]") {
  Sequence s = sequence(1);
  s.model.bites.resize(2);
  s.last_peak().node = 0;
  const RegionMaterial material;
  const std::vector<Stiffness> no_stiffness;
  const std::vector<Zone> no_zones;
  const StudiedBody body{s.mesh, 0, material, no_stiffness, no_zones};
  ErrorEstimate first, second;
  first.region_error = {0.1, 0.9};  // the second region is not under study
  second.region_error = {0.3, 0.8};
  RefinePlan plan;
  plan.predicted_cells = 350;
  const Pass pass = pass_of(s.model, body, {s.passes[0].peaks[0], {}}, {first, second}, plan);
  CHECK(pass.cells == 4 * 4 * 4 * 6);
  CHECK(pass.nodes == 9 * 9 * 9);
  CHECK(pass.predicted_cells == 350);
  CHECK(pass.energy_error == Approx(0.3));
  REQUIRE(pass.peaks.size() == 2);
  // Boxes of 0.25 mm cut along their diagonal; a cell's size is 0.8 of its longest edge.
  CHECK(pass.peaks[0][0].cell_size_mm == Approx(0.8 * 0.25 * std::sqrt(3)));
}
