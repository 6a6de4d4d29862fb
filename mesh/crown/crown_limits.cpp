// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/crown/crown_limits.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include "mesh/crown/scallop.hpp"
#include "mesh/geometry_error.hpp"

namespace crownproof {
namespace {

/// Also refuses NaN.
void require(const char* what, double value, double smallest, double largest, const char* unit) {
  if (value >= smallest && value <= largest) return;
  throw GeometryError(fmt::format("The {} is {:g} {}; it must lie between {:g} and {:g} {}.", what, value,
                                  unit, smallest, largest, unit));
}

/// Largest values are rounded down to what a person would type, so that the advice can be followed.
double advised(double largest_mm) {
  return std::floor(20 * (largest_mm - 0.005)) / 20;
}

/// A size by its name, with the smallest value that is allowed anywhere.
struct Size {
  const char* name;
  double smallest_mm;
};
constexpr Size occlusal{"occlusal thickness", 0.2}, axial{"axial thickness", 0.3},
    finish_line{"finish line width", 0.25}, cusp{"cusp height", 0.3};

[[noreturn]] void refuse(const Size& size, double asked, double largest, const std::string& why) {
  const double advice = advised(largest);
  throw GeometryError(fmt::format(
      "The {} of {:g} mm cannot be had: {}. {}", size.name, asked, why,
      advice >= size.smallest_mm
          ? fmt::format("The largest possible here is {:.2f} mm.", advice)
          : fmt::format("None from {:g} mm up is possible here: make the crown wider or higher, or its other "
                        "sizes smaller.",
                        size.smallest_mm)));
}

void check_tooth(const ToothClass& tooth) {
  require("mesiodistal size", tooth.mesiodistal_mm, 4, 15, "mm");
  require("buccolingual size", tooth.buccolingual_mm, 4, 15, "mm");
  require("crown height", tooth.height_mm, 3, 16, "mm");
  require(cusp.name, tooth.cusp_height_mm, cusp.smallest_mm, 5, "mm");
  require("fissure depth", tooth.fissure_depth_mm, 0, 1, "mm");
  // Steeper cusps than 45 degrees have grooves no mesh resolves.
  double run = 1e9;
  for (const Peak& peak : tooth.peaks) {
    if (peak.is_ridge) continue;
    run = std::min(run, 0.5 * std::hypot(peak.x * tooth.mesiodistal_mm, peak.y * tooth.buccolingual_mm));
  }
  if (tooth.cusp_height_mm > 0.95 * run) {
    refuse(cusp, tooth.cusp_height_mm, 0.95 * run, "the cusps of a tooth this narrow would be too steep");
  }
}

void check_functional_cusps(const CrownParameters& p) {
  require("thickness of the functional cusps", *p.functional_cusp_thickness_mm, occlusal.smallest_mm, 6,
          "mm");
  if (*p.functional_cusp_thickness_mm >= p.occlusal_thickness_mm) return;
  throw GeometryError(
      fmt::format("The functional cusps cannot be thinner ({:g} mm) than the occlusal table ({:g} mm). Ask "
                  "for at least the "
                  "occlusal thickness, or leave theirs out.",
                  *p.functional_cusp_thickness_mm, p.occlusal_thickness_mm));
}

void check_thickness(const CrownParameters& p) {
  require(occlusal.name, p.occlusal_thickness_mm, occlusal.smallest_mm, 6, "mm");
  require(axial.name, p.axial_thickness_mm, axial.smallest_mm, 4, "mm");
  if (p.functional_cusp_thickness_mm) check_functional_cusps(p);
  require(finish_line.name, p.finish_line.width_mm, finish_line.smallest_mm, 2, "mm");
  require("inner radius of the finish line", p.finish_line.inner_radius_mm, 0.05, 1.5, "mm");
  require("scallop of the finish line", p.finish_line.scallop_mm, 0, 3, "mm");
  require("total occlusal convergence", p.total_occlusal_convergence_deg, 2, 40, "degrees");
  require("line angle radius", p.line_angle_radius_mm, 0.1, 2, "mm");
  require("root height", p.root_height_mm, 1, 20, "mm");
  if (p.cement_thickness_mm != 0)
    require("cement thickness (0 for none)", p.cement_thickness_mm, 0.01, 0.3, "mm");
}

}  // namespace

double foot_radius(const CrownParameters& p) {
  const double widest = 0.85 * p.finish_line.width_mm;
  switch (p.finish_line.form) {
    case FinishLineForm::chamfer:
      return widest;
    case FinishLineForm::shoulder:
      return std::min(p.finish_line.inner_radius_mm, widest);
    case FinishLineForm::knife_edge:
      break;
  }
  return std::min(p.line_angle_radius_mm, widest);
}

void check_ranges(const CrownParameters& p, const ToothClass& tooth) {
  check_tooth(tooth);
  check_thickness(p);
  if (p.abutment_height_mm) {
    require("abutment height", *p.abutment_height_mm, lowest_abutment_mm, 9, "mm");
    if (p.height_mm) {
      throw GeometryError(
          "Both the crown height and the abutment height are given; with the occlusal thickness one follows "
          "from the "
          "other. Leave one of them out.");
    }
  }
  // Offset from the preparation, the fillet's radius shrinks by the cement.
  if (p.cement_thickness_mm > foot_radius(p) / 1.2) {
    throw GeometryError(fmt::format(
        "The cement thickness of {:g} um cannot be had: the inner angle of the finish line is rounded with "
        "{:g} mm only, and the crown would fold there. Take a cement of at most {:.0f} um, a rounder inner "
        "angle or a wider finish line.",
        1000 * p.cement_thickness_mm, foot_radius(p), std::floor(100 * foot_radius(p) / 1.2) * 10));
  }
}

void check_design(const CrownDesign& d, const CrownParameters& p) {
  const Preparation& prep = d.preparation;
  const double reached = axial_thickness_at(d, d.axial_height_mm);
  if (reached < p.axial_thickness_mm - 1e-3) {
    refuse(axial, p.axial_thickness_mm, reached, "the abutment is too low for walls this thick");
  }
  const double thinnest_stump = 1.0;  // half width, mm
  const double stump = std::min(prep.mesiodistal.half_width(d.abutment_height_mm).v,
                                prep.buccolingual.half_width(d.abutment_height_mm).v);
  if (stump < thinnest_stump) {
    refuse(
        axial, p.axial_thickness_mm, p.axial_thickness_mm - (thinnest_stump - stump),
        fmt::format(
            "with this convergence the abutment's top would be {:.1f} mm wide; at least {:g} mm must be left",
            std::max(0.0, 2 * stump), 2 * thinnest_stump));
  }
  // The neck may be a little wider than the height of contour; more would be no tooth.
  const double flare = 1.08;
  const double excess = std::max(prep.neck_mesiodistal - flare * d.anatomy.mesiodistal.contour,
                                 prep.neck_buccolingual - flare * d.anatomy.buccolingual.contour);
  if (excess > 0) {
    refuse(
        finish_line, p.finish_line.width_mm, p.finish_line.width_mm - excess,
        fmt::format(
            "with an axial thickness of {:g} mm the neck of the tooth would be wider than its crown. Take a "
            "narrower finish line or a thicker wall",
            p.axial_thickness_mm));
  }
  const double steepest = 1.75;  // 60 degrees from the path of insertion
  for (const AxialProfile& side : {d.anatomy.mesiodistal, d.anatomy.buccolingual}) {
    const double height = side.contour_z - side.neck_z, bulge = side.contour - side.neck;
    if (2 * bulge <= steepest * height) continue;
    refuse(axial, p.axial_thickness_mm, p.axial_thickness_mm - (bulge - 0.5 * steepest * height),
           "the crown would overhang its finish line too much. Take a wider finish line or a thinner wall");
  }
}

void check_scallop(const CrownDesign& d, const CrownParameters& p) {
  const double largest = Scallop(d, p.finish_line.scallop_mm).largest_rise_mm();
  if (p.finish_line.scallop_mm <= largest) return;
  throw GeometryError(fmt::format(
      "The scallop of the finish line of {:g} mm cannot be had: the walls above it would be squeezed to less "
      "than {:.0f} % of their height. The largest possible here is {:.2f} mm.",
      p.finish_line.scallop_mm, 100 * Scallop::least_squeeze, advised(largest)));
}

void check_abutment(const CrownDesign& d, const CrownParameters& p) {
  // The fossa moves the stump's top as much as the thickness changes.
  const double missing = lowest_abutment_mm - d.abutment_height_mm;
  if (missing <= 1e-3) return;
  refuse(
      occlusal, p.occlusal_thickness_mm, p.occlusal_thickness_mm - missing,
      fmt::format("less than {:g} mm of abutment would be left under the central fossa", lowest_abutment_mm));
}

}  // namespace crownproof
