// SPDX-License-Identifier: AGPL-3.0-or-later
// Peaks followed over invented sequences of meshes with known limits: tension = limit (1 + c h^p)
// (Richardson), bands after Celik et al. 2008 and Roache 1994, or h^(-s), which has no limit (edges of
// bonds).

#include <cmath>
#include <functional>

#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/accuracy/peak_history.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/requirement.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/strength/zone_peak.hpp"
#include "tests/support/mapped_mesh.hpp"

using namespace crownproof;

namespace {

const Vec3 on_top(3, 3, 2), on_bond_edge(0, 3, 1), on_bond(3, 3, 1), inside(3, 3, 1.5);
const std::vector<double> sizes{0.4, 0.28, 0.2};  ///< of the cells at the peak, pass by pass

struct Sequence {
  TetMesh mesh;
  std::vector<Bite> bites{1};
  std::vector<Pass> passes;
};

/// A crown 1 mm thick on a die, 6 x 6 mm; one bite without contacts, no mesh seen yet.
Sequence start() {
  Sequence s;
  s.mesh = box_mesh({grid_lines(0, 6, 6), grid_lines(0, 6, 6), grid_lines(0, 2, 4)}, {"die", "crown"},
                    [](const Vec3& p) { return p.z() > 1 ? 1 : 0; });
  return s;
}

ZonePeak peak_at(const TetMesh& mesh, Zone zone, const Vec3& at, double size, double tension) {
  ZonePeak peak;
  peak.zone = zone;
  peak.at = at;
  peak.node = nearest_node(mesh, at);
  peak.cell_size_mm = size;
  peak.tension_MPa = tension;
  peak.safety_factor = 600 / tension;
  peak.mechanism = Mechanism::breaks_across_body;
  return peak;
}

/// Adds a zone to the bite: one value of its tension for each cell size, coarse to fine.
void add_zone(Sequence& s, Zone zone, const Vec3& at, const std::function<double(double)>& tension,
              const std::vector<double>& seen = sizes) {
  s.passes.resize(seen.size());
  for (std::size_t i = 0; i < seen.size(); ++i) {
    s.passes[i].peaks.resize(1);
    s.passes[i].peaks[0].push_back(peak_at(s.mesh, zone, at, seen[i], tension(seen[i])));
  }
}

/// The peaks of the newest mesh, judged.
std::vector<ZonePeak> judged(const Sequence& s) {
  const RegionMaterial material;
  const std::vector<Stiffness> no_stiffness;
  const std::vector<Zone> no_zones;
  const StudiedBody crown{s.mesh, s.mesh.region_index("crown"), material, no_stiffness, no_zones};
  return with_bands(crown, s.bites, Accuracy{.stress_percent = 1}, s.passes)[0];
}

ZonePeak judged_alone(Zone zone, const Vec3& at, const std::function<double(double)>& tension,
                      const std::vector<double>& seen = sizes) {
  Sequence s = start();
  add_zone(s, zone, at, tension, seen);
  return judged(s).at(0);
}

/// Towards 100 MPa, second order.
double converging(double h) {
  return 100 * (1 - 1.5 * h * h);
}
/// Without limit, as at a corner.
double growing(double h) {
  return 50 * std::pow(h, -0.4);
}

/// The converging sequence under a contact of a radius (mm) at the middle of the top.
ZonePeak under_contact(double radius, const Vec3& peak_place = on_top) {
  Sequence s = start();
  s.bites[0].contacts = {Contact{.point = on_top, .radius_mm = radius}};
  add_zone(s, Zone::contact, peak_place, converging);
  return judged(s).at(0);
}

/// Bites as lists of peaks: safety factor, band in percent, and what the tension does.
struct Known {
  double safety_factor, band_percent;
  Settling settling = Settling::settles;
};

/// Whether 5 percent are reached.
bool reached(const std::vector<std::vector<Known>>& bites) {
  Pass pass;
  for (const auto& bite : bites) {
    pass.peaks.emplace_back();
    for (const Known& known : bite) {
      ZonePeak peak;
      peak.safety_factor = known.safety_factor;
      peak.tension_MPa = 600 / known.safety_factor;
      peak.relative_uncertainty = known.band_percent / 100;
      peak.settling = known.settling;
      pass.peaks.back().push_back(peak);
    }
  }
  return accurate_enough(Accuracy{.stress_percent = 5}, {pass});
}

}  // namespace

TEST_CASE("A peak that converges settles, and its band holds the limit", "[peak_history]") {
  const double order = GENERATE(1.0, 2.0, 2.9);
  const ZonePeak peak =
      judged_alone(Zone::occlusal, on_top, [&](double h) { return 100 * (1 - 0.9 * std::pow(h, order)); });
  CHECK(peak.settling == Settling::settles);
  CHECK(peak.observed_order == Approx(order).epsilon(1e-3));
  CHECK(peak.cause == UnsettledCause::none);
  const double band = peak.relative_uncertainty * peak.tension_MPa, off = 100 - peak.tension_MPa;
  CHECK(band >= off);
  // Not only by being wide: but what the last step still changed is never claimed to be known better than
  // that step.
  const double last_step = 90 * (std::pow(0.28, order) - std::pow(0.2, order));
  CHECK(band <= std::max(1.5 * off, 1.001 * last_step));
}

TEST_CASE("A peak that grows with every mesh does not settle and says so", "[peak_history]") {
  const ZonePeak peak = judged_alone(Zone::occlusal, on_top, growing);
  CHECK(peak.settling == Settling::does_not_settle);
  CHECK(peak.cause == UnsettledCause::keeps_growing);
}

TEST_CASE("One mesh gives no band, two a threefold one", "[peak_history]") {
  const ZonePeak one = judged_alone(Zone::occlusal, on_top, converging, {0.4});
  CHECK(one.settling == Settling::one_pass);
  CHECK(one.relative_uncertainty == 0);
  const ZonePeak two = judged_alone(Zone::occlusal, on_top, converging, {0.4, 0.2});
  CHECK(two.settling == Settling::two_passes);
  // Of second order the true error is a third of the step, and Roache's factor is 3.
  CHECK(two.relative_uncertainty * two.tension_MPa == Approx(converging(0.2) - converging(0.4)));
}

TEST_CASE("A contact that holds fewer than two cells is never credited", "[peak_history]") {
  const ZonePeak peak = under_contact(0.39);  // cells of 0.2 mm
  CHECK(peak.settling == Settling::does_not_settle);
  CHECK(peak.cause == UnsettledCause::point_contact);
  CHECK(peak.contact_radius_mm == 0.39);
}

TEST_CASE("A contact that the cells resolve is credited", "[peak_history]") {
  CHECK(under_contact(0.41).settling == Settling::settles);
}

TEST_CASE("A contact too small for the cells does not discredit a peak far from it", "[peak_history]") {
  CHECK(under_contact(0.1, {0, 0, 2}).settling == Settling::settles);
}

TEST_CASE("A peak on the edge of a bond is suspected until three meshes show that it settles",
          "[peak_history]") {
  const ZonePeak once = judged_alone(Zone::intaglio, on_bond_edge, converging, {0.4});
  CHECK(once.settling == Settling::does_not_settle);
  CHECK(once.cause == UnsettledCause::edge_of_bond);
  CHECK(judged_alone(Zone::intaglio, on_bond_edge, converging, {0.4, 0.2}).settling ==
        Settling::does_not_settle);
  const ZonePeak shown = judged_alone(Zone::intaglio, on_bond_edge, converging);
  CHECK(shown.settling == Settling::settles);
  CHECK(shown.cause == UnsettledCause::none);
}

TEST_CASE("A swinging peak on the edge of a bond is not credited, elsewhere it is", "[peak_history]") {
  const auto swinging = [](double h) { return h > 0.3 ? 90.0 : h > 0.25 ? 104.0 : 99.0; };
  CHECK(judged_alone(Zone::intaglio, on_bond_edge, swinging).settling == Settling::does_not_settle);
  CHECK(judged_alone(Zone::intaglio, on_bond, swinging).settling == Settling::oscillates);
}

TEST_CASE("Steps too small to show an order do not clear a peak on the edge of a bond", "[peak_history]") {
  const auto creeping = [](double h) { return 100 * std::pow(h, -0.005); };  // by 0.2 % a mesh, without end
  CHECK(judged_alone(Zone::intaglio, on_bond, creeping).settling == Settling::settles);
  CHECK(judged_alone(Zone::intaglio, on_bond_edge, creeping).settling == Settling::does_not_settle);
}

TEST_CASE("At the finish line the cause is the sharp bonded edge", "[peak_history]") {
  const ZonePeak peak = judged_alone(Zone::finish_line, on_bond_edge, growing);
  CHECK(peak.settling == Settling::does_not_settle);
  CHECK(peak.cause == UnsettledCause::sharp_finish_line);
}

TEST_CASE("The middle of a bond and the outer edge of the crown are not suspected", "[peak_history]") {
  CHECK(judged_alone(Zone::intaglio, on_bond, converging, {0.4}).settling == Settling::one_pass);
  CHECK(judged_alone(Zone::occlusal, {0, 3, 2}, converging, {0.4}).settling == Settling::one_pass);
}

TEST_CASE("The history starts anew when the zone breaks in another way", "[peak_history]") {
  Sequence s = start();
  add_zone(s, Zone::occlusal, on_top, converging, {0.56, 0.4, 0.28, 0.2});
  for (const int later : {2, 3}) {
    ZonePeak& peak = s.passes[later].peaks[0][0];
    peak.mechanism = Mechanism::opens_between_layers;
    peak.tension_MPa *= 0.5;
  }
  const ZonePeak peak = judged(s).at(0);
  CHECK(peak.settling == Settling::two_passes);
  const double step = 0.5 * (converging(0.2) - converging(0.28));
  CHECK(peak.relative_uncertainty * peak.tension_MPa ==
        Approx(3 * step / (std::pow(0.28 / 0.2, 2) - 1)));  // Roache, two meshes, second order
}

TEST_CASE("A peak inside that is higher, or far from the surface's, is judged by itself", "[peak_history]") {
  const auto lower = [](double h) { return 0.5 * growing(h); };
  Sequence higher_inside = start();
  add_zone(higher_inside, Zone::occlusal, on_top, lower);
  add_zone(higher_inside, Zone::interior, inside, converging);
  CHECK(judged(higher_inside).at(1).settling == Settling::settles);
  Sequence far = start();
  add_zone(far, Zone::occlusal, {5, 5, 2}, growing);
  add_zone(far, Zone::interior, inside, converging);
  CHECK(judged(far).at(1).settling == Settling::settles);
}

TEST_CASE("Accurate enough is half of what was asked, in every deciding peak", "[peak_history]") {
  CHECK(reached({{{2, 2.4}}}));
  CHECK(!reached({{{2, 2.6}}}));
  CHECK(reached({{{2, 2.4}, {2.4, 2.4}}}));
  CHECK(!reached({{{2, 2.4}, {2.4, 2.6}}}));
  CHECK(!reached({{{2, 2.4}}, {{9, 2.6}}}));  // each bite has its own deciding peaks
}

TEST_CASE("Peaks far from deciding need not be known", "[peak_history]") {
  CHECK(reached({{{2, 2.4}, {2.6, 40}}}));
}

TEST_CASE("A swinging peak may be known, one seen on one or two meshes never is", "[peak_history]") {
  CHECK(reached({{{2, 2.4, Settling::oscillates}}}));
  CHECK(!reached({{{2, 0.1, Settling::two_passes}}}));
  CHECK(!reached({{{2, 0, Settling::one_pass}}}));
}

TEST_CASE("Peaks that do not settle neither hold refinement up nor set what decides", "[peak_history]") {
  CHECK(reached({{{1, 80, Settling::does_not_settle}, {2, 2.4}}}));
  CHECK(!reached({{{1, 80, Settling::does_not_settle}, {2, 2.6}}}));
}

TEST_CASE("A bite with tensions of which none settles is not known, one without tension is",
          "[peak_history]") {
  CHECK_FALSE(reached({{{2.0, 1, Settling::does_not_settle}}}));
  CHECK_FALSE(reached({{{2.0, 1}}, {{2.0, 1, Settling::does_not_settle}}}));
  CHECK(reached({{}}));
}

TEST_CASE("The contact of another bite does not discredit a peak", "[peak_history]") {
  Sequence s = start();
  s.bites[0].contacts = {Contact{.point = on_top, .radius_mm = 1.0}};
  s.bites.push_back(Bite{.contacts = {Contact{.point = on_top, .radius_mm = 0.1}}});
  add_zone(s, Zone::contact, on_top, converging);
  CHECK(judged(s).at(0).settling == Settling::settles);
}

TEST_CASE("A zone that broke in another way between starts anew", "[peak_history]") {
  Sequence s = start();
  add_zone(s, Zone::occlusal, on_top, converging, {0.6, 0.4, 0.28, 0.2});
  s.passes[2].peaks[0][0].mechanism = Mechanism::opens_between_layers;
  CHECK(judged(s).at(0).settling == Settling::one_pass);
}

TEST_CASE("Cells that hardly shrink do not clear a peak on the edge of a bond", "[peak_history]") {
  const std::vector<double> hardly{0.60, 0.48, 0.42};
  CHECK(judged_alone(Zone::intaglio, on_bond_edge, converging, hardly).settling == Settling::does_not_settle);
  CHECK(judged_alone(Zone::intaglio, on_bond, converging, hardly).settling == Settling::settles);
}

TEST_CASE("Cells too large to see an edge do not clear a peak on it", "[peak_history]") {
  const std::vector<double> large{0.8, 0.56, 0.4}, small{0.48, 0.34, 0.24};
  CHECK(judged_alone(Zone::intaglio, on_bond_edge, converging, large).settling == Settling::does_not_settle);
  CHECK(judged_alone(Zone::intaglio, on_bond_edge, converging, small).settling == Settling::settles);
  CHECK(judged_alone(Zone::intaglio, on_bond, converging, large).settling == Settling::settles);
}
