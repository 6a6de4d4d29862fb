// SPDX-License-Identifier: AGPL-3.0-or-later
// A case as it is written: plain values with their units in the names. Defaults stand here and nowhere else.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "io/materials/material_data.hpp"
#include "io/record/expected_value.hpp"
#include "io/record/field_files.hpp"
#include "io/record/picture_wishes.hpp"
#include "mesh/crown/crown_design.hpp"
#include "mesh/shape/flat_stack.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/model/requirement.hpp"

namespace crownproof {

enum class PressureShape;

/// A material by its name or written out.
using MaterialChoice = std::variant<std::string, MaterialData>;

struct MaterialsCase {
  std::optional<Placed<MaterialChoice>> crown, cement, die;
};

/// Where the layer normal of a printed crown leans to.
enum class Toward { buccal, lingual, mesial, distal };

struct BuildCase {
  double tilt_deg = 0;
  Toward toward = Toward::buccal;
  std::optional<Placed<Vec3>> scan_direction;  ///< material axis 1, taken into the layer plane
};

enum class BelowFinishLine { fixed_base };

struct SupportCase {
  BelowFinishLine below_finish_line = BelowFinishLine::fixed_base;
};

/// axial: along the path of insertion, towards the root.
enum class ForceDirection { axial, surface_normal };

struct ContactCase {
  std::optional<Placed<std::string>> at;                   ///< a landmark
  std::optional<Placed<std::pair<double, double>>> at_mm;  ///< x and y
  std::optional<double> force_N;                           ///< or a share of the bite's total_force_N
  std::optional<double> share;
  double radius_mm = 0.5;
  PressureShape pressure{};
  std::variant<ForceDirection, Vec3> direction = ForceDirection::axial;
};

/// A bench test in place of a crown and its bites.
struct SpecimenCase {
  BenchSpecimen sizes;
  double load_N = 0;
  std::optional<Placed<MaterialChoice>> material;
  int cells_through_thickness = 4;
};

/// What an antagonist's ball is made of.
enum class BallKind { enamel_cusp, steel_ball, rigid };

/// A ball that finds its own contacts.
struct AntagonistCase {
  std::optional<Placed<std::string>> at;                   ///< a landmark
  std::optional<Placed<std::pair<double, double>>> at_mm;  ///< x and y
  BallKind ball = BallKind::enamel_cusp;
  double radius_mm = 3;
  double force_N = 0;
  std::variant<ForceDirection, Vec3> direction = ForceDirection::axial;
  bool held_sideways = false;
};

struct BiteCase {
  std::string name;
  std::optional<Placed<double>> total_force_N;  ///< of the resultant, shared by the contacts
  std::vector<ContactCase> contacts;
  std::optional<Placed<AntagonistCase>> antagonist;
};

/// Probability of fracture that is allowed where a case says nothing and one can be computed.
inline constexpr double usual_allowed_probability = 0.05;

/// How layer planes give way; the shear divisor follows from the material unless given.
struct LayerPlanesCase {
  bool slide = LayerPlanes{}.slide;
  double friction_coefficient = LayerPlanes{}.friction;
  std::optional<double> shear_divisor;
};

struct StrengthCase {
  double required_safety_factor = 1.0;
  double years = 0;
  double cycles_per_year = 250000;
  double chewing_force_share = 1;
  std::optional<Placed<StrengthBasis>>
      compared_with;  ///< left out: exceeded_by_95_percent where that is known
  std::optional<Placed<double>> allowed_fracture_probability;
  LayerPlanesCase layer_planes;
};

struct AccuracyCase {
  int cells = 150000;
  double stress_percent = 0;  ///< 0: a scouting mesh and one of `cells` cells
  int max_cells = 600000;
  int max_passes = 8;
};

struct ResultsCase {
  FieldFiles fields = FieldFiles::full;
};

/// A figure that the case says will be found; exactly one of the three.
struct ExpectedCase {
  std::string variant;  ///< label; empty: of every variant, or of a plain case
  std::string bite;
  std::optional<Zone> zone;
  std::optional<double> tension_MPa, safety_factor, fracture_probability_percent;
  double within_percent = 2;
  std::string source;
};

struct CaseFile {
  int format = 1;
  std::string title;
  std::optional<Placed<CrownParameters>> crown;  ///< exactly one of the three shapes
  std::optional<Placed<FlatStackParameters>> flat_stack;
  std::optional<Placed<SpecimenCase>> specimen;  ///< has its own material and load
  MaterialsCase materials;
  std::vector<Placed<std::string>> materials_files;
  BuildCase build;
  SupportCase support;
  std::vector<BiteCase> bites;
  StrengthCase strength;
  AccuracyCase accuracy;
  ResultsCase results;
  PictureWishes pictures;
  std::vector<ExpectedCase> expected;
};

}  // namespace crownproof
