// SPDX-License-Identifier: AGPL-3.0-or-later

#include <string>

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "mesh/crown/crown_limits.hpp"
#include "mesh/crown/crown_shape.hpp"
#include "mesh/geometry_error.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/shape/nearest.hpp"
#include "tests/support/random_crowns.hpp"

using namespace crownproof;

namespace {

/// Points all over a patch, on its surface.
std::vector<Vec3> points_on(const Patch& patch, int n_turn, int n_rise) {
  std::vector<Vec3> points;
  for (int i = 0; i < n_turn; ++i) {
    for (int j = 0; j <= n_rise; ++j) {
      points.push_back(project(patch.field, patch.start(i / double(n_turn), j / double(n_rise))));
    }
  }
  return points;
}

/// Largest relative error of the gradient against central differences.
double gradient_error(const ImplicitField& field, const Vec3& x) {
  const double h = 1e-6;
  Vec3 differences;
  for (int k = 0; k < 3; ++k) {
    const Vec3 step = h * Vec3::Unit(k);
    differences[k] = (field(x + step).value - field(x - step).value) / (2 * h);
  }
  const Vec3 gradient = field(x).gradient;
  return (gradient - differences).norm() / gradient.norm();
}

/// Thickness of the crown at a point of its outer surface by brute force over a cloud, then polished: found
/// in another way than the design finds it. Negative if the surfaces cross.
double thickness(const CrownDesign& d, const std::vector<Vec3>& cloud, const Vec3& from) {
  const ImplicitField prep = std::cref(d.preparation);
  Vec3 nearest = cloud[0];
  for (const Vec3& p : cloud) {
    if ((p - from).squaredNorm() < (nearest - from).squaredNorm()) nearest = p;
  }
  const double sign = prep(from).value > 0 ? 1 : -1;
  return sign * nearest_on_surface(prep, from, nearest).distance_mm - d.cement_thickness_mm;
}

/// What design_crown says of sizes it refuses; empty: nothing.
std::string message(const CrownParameters& p) {
  try {
    design_crown(p);
  } catch (const GeometryError& e) {
    return e.what();
  }
  return "";
}

}  // namespace

TEST_CASE("the rings of a crown lie on the surfaces they cut", "[shapes]") {
  for (const FinishLineForm form :
       {FinishLineForm::chamfer, FinishLineForm::shoulder, FinishLineForm::knife_edge}) {
    CrownParameters p;
    p.finish_line.form = form;
    const Domain d = crown_shape(p);
    const Layer& layer = d.layers.at(0);
    for (int i = 0; i < 40; ++i) {
      const double t = i / 40.0;
      const Vec3 base = d.rings[0].point(t), die = d.rings[1].point(t), crown = d.rings[2].point(t);
      CHECK(std::abs(d.patches[0].field(base).value) < 1e-12);
      CHECK(std::abs(d.patches[1].field(base).value) < 1e-9);
      CHECK(std::abs(d.patches[1].field(die).value) < 1e-9);
      CHECK(std::abs(d.patches[2].field(die).value) < 1e-9);
      // No kink where the crown begins: its outer surface passes through the cement's outer rim (a micron for
      // the leaning rim of a knife edge, nothing for the others).
      CHECK(std::abs(d.patches[3].field(crown).value) < (form == FinishLineForm::knife_edge ? 1.5e-3 : 1e-9));
      const Vec3 normal = unit_normal(d.patches[layer.base_patch].field, die);
      CHECK((crown - die - layer.thickness_mm * normal).norm() < 1e-12);
    }
  }
}

TEST_CASE("every surface of a crown has the gradient that finite differences give", "[shapes]") {
  for (const ToothClass& tooth : tooth_classes()) {
    CrownParameters p;
    p.tooth = tooth.name;
    p.finish_line.form = FinishLineForm::knife_edge;
    const Domain d = crown_shape(p);
    for (const Patch& patch : d.patches) {
      for (const Vec3& x : points_on(patch, 12, 9)) {
        // Off the surface too, and off the poles where rounded edges begin.
        CHECK(gradient_error(patch.field, x + Vec3(0.013, -0.021, 0.017)) < 1e-5);
      }
    }
  }
}

TEST_CASE("a crown has the sizes asked for", "[shapes]") {
  CrownParameters p;
  p.mesiodistal_mm = 10.4;
  p.buccolingual_mm = 9.8;
  p.height_mm = 7.1;
  p.cusp_height_mm = 1.7;
  p.fissure_depth_mm = 0;
  const CrownDesign d = design_crown(p);
  const Domain shape = crown_shape(d, tooth_class(p.tooth));
  const ImplicitField outer = shape.patches[3].field;
  const auto width = [&](const Vec3& direction, double z) {
    return (leave_body(outer, {0, 0, z}, direction, 20) - leave_body(outer, {0, 0, z}, -direction, 20))
        .norm();
  };
  CHECK(width(Vec3::UnitX(), d.anatomy.mesiodistal.contour_z) == Approx(10.4).epsilon(1e-6));
  CHECK(width(Vec3::UnitY(), d.anatomy.buccolingual.contour_z) == Approx(9.8).epsilon(1e-6));
  double highest = 0;
  for (const Landmark& mark : shape.landmarks) highest = std::max(highest, mark.point.z());
  CHECK(highest == Approx(7.1).margin(2e-3));
  CHECK(highest - shape.fossa->z() == Approx(1.7).margin(2e-3));
  CHECK(d.preparation.neck_mesiodistal - d.preparation.mesiodistal.foot == Approx(p.finish_line.width_mm));
}

TEST_CASE("asked thicknesses are met, for random crowns, and no surfaces cross", "[shapes]") {
  const RandomCrowns crowns = random_crowns(16);
  CHECK(crowns.n_refused < 8);  // the ranges are the ones that can be built
  for (const CrownParameters& p : crowns.parameters) {
    const CrownDesign d = design_crown(p);
    const Domain shape = crown_shape(d, tooth_class(p.tooth));
    CHECK(d.abutment_height_mm == Approx(*p.abutment_height_mm).margin(2e-4));
    CHECK(axial_thickness_at(d, d.axial_height_mm) == Approx(p.axial_thickness_mm).margin(1e-4));
    const std::vector<Vec3> cloud = points_on(shape.patches[2], 60, 30);
    // The fossa is part of the table; the grid of the stump's top misses it by less than 0.5 um.
    CHECK(thickness(d, cloud, d.fossa) == Approx(p.occlusal_thickness_mm + never_below_mm).margin(5e-4));

    double smallest = 1e9, smallest_at_all = 1e9;
    for (const Vec3& x : points_on(shape.patches[3], 32, 18)) {
      CHECK(std::abs(shape.patches[3].field(x).value) < 1e-8);  // every ray meets the surface
      const double here = thickness(d, cloud, x);
      smallest_at_all = std::min(smallest_at_all, here);
      // Below, the wall tapers to the finish line.
      if (x.z() > d.cement_thickness_mm + 1.5 * p.axial_thickness_mm) smallest = std::min(smallest, here);
    }
    CHECK(smallest_at_all > -1e-6);
    CHECK(smallest > 0.7 * std::min(p.occlusal_thickness_mm, p.axial_thickness_mm));
  }
}

TEST_CASE("an everyday crown is nowhere much thinner than asked", "[shapes]") {
  for (const double occlusal : {0.6, 1.0, 1.5}) {
    CrownParameters p;
    p.occlusal_thickness_mm = occlusal;
    const CrownDesign d = design_crown(p);
    const Domain shape = crown_shape(d, tooth_class(p.tooth));
    const std::vector<Vec3> cloud = points_on(shape.patches[2], 60, 40);
    double smallest = 1e9;
    for (const Vec3& x : points_on(shape.patches[3], 48, 36)) {
      if (x.z() < d.cement_thickness_mm + 1.5 * p.axial_thickness_mm) continue;
      smallest = std::min(smallest, thickness(d, cloud, x));
    }
    CHECK(smallest > 0.8 * std::min(p.occlusal_thickness_mm, p.axial_thickness_mm));
  }
}

TEST_CASE("each tooth class makes a crown of its natural size with its fossa in the middle", "[shapes]") {
  for (const ToothClass& tooth : tooth_classes()) {
    INFO(tooth.name);
    CrownParameters p;
    p.tooth = tooth.name;
    p.fissure_depth_mm = 0;
    const CrownDesign d = design_crown(p);
    const Domain shape = crown_shape(d, tooth);
    const std::vector<Vec3> outer = points_on(shape.patches[3], 120, 60);
    Vec3 size = Vec3::Zero();
    for (const Vec3& x : outer) size = size.cwiseMax(x.cwiseAbs());
    CHECK(2 * size.x() == Approx(tooth.mesiodistal_mm).epsilon(0.02));
    CHECK(2 * size.y() == Approx(tooth.buccolingual_mm).epsilon(0.02));
    CHECK(size.z() == Approx(tooth.height_mm).epsilon(0.005));
    CHECK(size.z() - d.fossa.z() == Approx(tooth.cusp_height_mm).epsilon(0.01));
    CHECK(d.fossa.head<2>().norm() < 0.1 * tooth.mesiodistal_mm);
    CHECK(unit_normal(shape.patches[3].field, d.fossa).z() > 0.995);  // the bottom of a pit
    CHECK(distance_to_intaglio(d, d.fossa) == Approx(p.occlusal_thickness_mm + never_below_mm).margin(5e-4));

    const std::vector<Vec3> cloud = points_on(shape.patches[2], 60, 40);
    double smallest = 1e9;
    for (const Vec3& x : points_on(shape.patches[3], 32, 24)) {
      if (x.z() < d.cement_thickness_mm + 1.5 * p.axial_thickness_mm) continue;
      smallest = std::min(smallest, thickness(d, cloud, x));
    }
    CHECK(smallest > 0.8 * std::min(p.occlusal_thickness_mm, p.axial_thickness_mm));
  }
}

TEST_CASE("landmarks lie on the chewing surface where their names say", "[shapes]") {
  const Domain d = crown_shape(CrownParameters{});
  const auto mark = [&](const std::string& name) {
    const int i = landmark_index(d, name);
    REQUIRE(i >= 0);
    return d.landmarks[i];
  };
  for (const Landmark& l : d.landmarks) {
    CHECK(std::abs(d.patches[d.outer_patch].field(l.point).value) < 1e-8);
    CHECK(l.normal.norm() == Approx(1));
    CHECK(l.normal.z() > 0.5);
    const auto dropped = drop_on_outer_surface(d, l.point.x(), l.point.y());
    REQUIRE(dropped);
    CHECK((dropped->point - l.point).norm() < 1e-6);
  }
  // x mesial to distal, y lingual to buccal.
  CHECK(mark("mesiobuccal_cusp_tip").point.x() < 0);
  CHECK(mark("mesiobuccal_cusp_tip").point.y() > 0);
  CHECK(mark("distolingual_cusp_tip").point.x() > 0);
  CHECK(mark("distolingual_cusp_tip").point.y() < 0);
  CHECK(mark("mesial_marginal_ridge").point.x() < mark("mesial_fossa").point.x());
  CHECK(mark("mesial_fossa").point.x() < mark("central_fossa").point.x());
  CHECK(mark("distal_fossa").point.x() > mark("central_fossa").point.x());
  for (const std::string cusp : {"mesiobuccal", "distobuccal", "distal", "mesiolingual", "distolingual"}) {
    const Vec3 tip = mark(cusp + "_cusp_tip").point;
    const Landmark slope = mark(cusp + "_cusp_inner_slope");
    CHECK(tip.z() > slope.point.z());
    CHECK(slope.point.z() > mark("central_fossa").point.z());
    // The slope faces away from its cusp, towards the middle of the tooth.
    CHECK(slope.normal.head<2>().dot(tip.head<2>()) < 0);
  }
  CHECK_FALSE(drop_on_outer_surface(d, 9, 9));
}

TEST_CASE("faces of the outer surface follow from the place", "[shapes]") {
  const Domain d = crown_shape(CrownParameters{});
  const Patch& outer = d.patches[d.outer_patch];
  CHECK(outer.face_name(*d.fossa) == "occlusal");
  CHECK(outer.face_name(d.rings[2].point(0.1)) == "finish_line");
  CHECK(outer.face_name({5.5, 0, 3}) == "axial");
  for (const auto& [point, size] : d.margins) {
    CHECK(outer.face_name(point) == "finish_line");
    CHECK(size == Approx(0.22));
  }
}

TEST_CASE("without cement crown and die share the preparation", "[shapes]") {
  CrownParameters p;
  p.cement_thickness_mm = 0;
  const Domain d = crown_shape(p);
  CHECK(d.layers.empty());
  CHECK(d.rings.size() == 2);
  CHECK(d.patches[2].face_name(Vec3::Zero()) == "intaglio");
  CHECK(d.patches[3].first_ring == d.patches[2].first_ring);
}

TEST_CASE("impossible crowns are refused with the value that is possible", "[shapes]") {
  CrownParameters p;
  p.occlusal_thickness_mm = -1;
  CHECK_THAT(message(p), Catch::Contains("occlusal thickness") && Catch::Contains("between"));
  p.occlusal_thickness_mm = std::nan("");
  CHECK_THAT(message(p), Catch::Contains("occlusal thickness"));
  p = {};
  p.tooth = "tusk";
  CHECK_THAT(message(p), Catch::Contains("tusk") && Catch::Contains("lower_first_molar"));
  p = {};
  p.total_occlusal_convergence_deg = 90;
  CHECK_THAT(message(p), Catch::Contains("convergence"));
  p = {};
  p.finish_line.form = FinishLineForm::shoulder;
  p.finish_line.inner_radius_mm = 0.1;
  p.cement_thickness_mm = 0.15;
  CHECK_THAT(message(p), Catch::Contains("cement"));
  p = {};
  p.abutment_height_mm = 4;
  p.height_mm = 7;
  CHECK_THAT(message(p), Catch::Contains("Leave one of them out"));
}

TEST_CASE("heights above the finish line are those asked for", "[shapes]") {
  CrownParameters p;
  p.abutment_height_mm = 4;
  CHECK(crown_shape(p).heights->abutment_mm == Approx(4).margin(1e-3));
  p = {};
  p.height_mm = 7.2;
  // The tip is rounded off and lies below the asked height by less than that.
  CHECK(crown_shape(p).heights->crown_mm == Approx(7.2).margin(0.25));
}

TEST_CASE("where no value is possible none is advised, and the cement's is given in um", "[shapes]") {
  CrownParameters p;
  p.mesiodistal_mm = 4;
  p.buccolingual_mm = 4;
  p.cusp_height_mm = 0.5;
  p.total_occlusal_convergence_deg = 40;
  CHECK_THAT(message(p),
             !Catch::Contains("largest possible here is -") && Catch::Contains("is possible here: make"));
  p = {};
  p.finish_line.form = FinishLineForm::shoulder;
  p.finish_line.inner_radius_mm = 0.1;
  p.cement_thickness_mm = 0.15;
  CHECK_THAT(message(p), Catch::Contains("of 150 um") && Catch::Contains("at most 80 um"));
  p.cement_thickness_mm = 0.08;
  CHECK_NOTHROW(design_crown(p));
}

TEST_CASE("the largest possible value that an error names can be built", "[shapes]") {
  const auto largest_named = [](const CrownParameters& p) {
    try {
      design_crown(p);
    } catch (const GeometryError& e) {
      const std::string text = e.what(), key = "largest possible here is ";
      const size_t at = text.find(key);
      REQUIRE(at != std::string::npos);
      return std::stod(text.substr(at + key.size()));
    }
    FAIL("was not refused");
    return 0.0;
  };
  CrownParameters p;
  p.occlusal_thickness_mm = 5.5;
  p.occlusal_thickness_mm = largest_named(p);
  CHECK(p.occlusal_thickness_mm > 2);
  p.axial_thickness_mm = 0.8;
  CHECK_NOTHROW(design_crown(p));
  p = {};
  p.finish_line.width_mm = 1.6;
  p.finish_line.width_mm = largest_named(p);
  CHECK_NOTHROW(design_crown(p));
  p = {};
  p.axial_thickness_mm = 3.9;
  p.axial_thickness_mm = largest_named(p);
  CHECK_NOTHROW(design_crown(p));
  p = {};
  p.cusp_height_mm = 4;
  p.cusp_height_mm = largest_named(p);
  CHECK_NOTHROW(design_crown(p));
}
