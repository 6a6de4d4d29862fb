// SPDX-License-Identifier: AGPL-3.0-or-later
// Everything the simulation needs, as plain data: shape, sizes, materials, supports, bites, strength.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mesh/shape/domain.hpp"
#include "mesh/shape/size_field.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/interval.hpp"
#include "solver/material/material.hpp"
#include "solver/material/strength_loss.hpp"

namespace crownproof {

/// How well a bench test knows a strength: 90 % bounds.
struct StrengthBounds {
  Interval characteristic_MPa;
  Interval modulus;
  double correlation =
      0.313;  ///< of the two estimates (of their logarithms); this value for complete samples
};

/// Strength against one way of breaking.
struct Strength {
  double characteristic_MPa = 0;  ///< stress at 63.2 % fracture probability of the reference specimen
  double weibull_modulus = 0;     ///< 0: not known
  FlawKind flaws = FlawKind::volume;
  std::optional<BenchSpecimen> specimen =
      {};  ///< what it was measured on; without it no fracture probability
  std::optional<StrengthBounds> bounds = {};
};

/// Strength of a material. A body without layers uses `in_layer` only.
struct MaterialStrength {
  Strength in_layer;                     ///< breaks across the body: against the in-layer principal stress
  std::optional<Strength> across_layer;  ///< opens between layers: against the tension on the layer plane
  std::optional<FatigueData> fatigue = {};
};

/// A material as the solver sees it.
struct Material {
  std::string name;
  ElasticConstants elastic;
  std::optional<MaterialStrength> strength;  ///< needed for the region under study only
  std::string note = {};  ///< what a reader of the results must know of these values; may be empty
};

/// A region of the mesh and what it is made of.
struct RegionMaterial {
  std::string region;
  Material material;
  Mat3 axes = Mat3::Identity();  ///< material axes as columns; axis 3 is the layer normal
  bool layered = false;          ///< the layer normal matters (printed ceramic)
};

enum class PressureShape { uniform, hertz };

/// A force spread over a round patch of the outer surface.
struct Contact {
  std::string at;                       ///< landmark name, or the words the user gave for the place
  Vec3 point = Vec3::Zero();            ///< on the outer surface, mm
  Vec3 direction = -Vec3::UnitZ();      ///< unit direction of the force on the crown
  Vec3 surface_normal = Vec3::UnitZ();  ///< unit, outward, of the surface at the point
  double force_N = 0;
  double radius_mm = 0.5;
  PressureShape pressure = PressureShape::hertz;
};

/// Contacts that act together.
struct Bite {
  std::string name;
  std::vector<Contact> contacts;
};

/// Faces held still.
struct Support {
  std::string face = "base";
  bool hold_x = true, hold_y = true, hold_z = true;
};

/// What the verdict asks for.
struct Requirement {
  double safety_factor = 1.0;      ///< strength / highest tension must be at least this
  std::string load_word = "Bite";  ///< what a load is called in sentences; of a bench test: Test
  Chewing chewing = {};            ///< years to look ahead (0: none) and how often they load the crown
  std::optional<double> allowed_fracture_probability = {};  ///< in (0, 1): a second limit, after these years
};

/// How well the deciding stresses are to be known. With stress_percent 0 one mesh is made and no refinement.
struct Accuracy {
  double stress_percent = 0;        ///< half-width of the band of each deciding peak, percent of its value
  int max_cells = 600000;           ///< no mesh larger than this is started
  int max_passes = 5;               ///< meshes at most
  double available_memory_GiB = 0;  ///< no pass that needs more is started; 0: not known
};

/// A bench test to be computed.
struct SpecimenTest {
  BenchSpecimen specimen;
  double load_N = 0;
  int layers = 4;  ///< cells through the thickness
};

/// A complete case for simulate(). A bench specimen is no Domain: its mesh is laid out along the lines of its
/// fixture, only the part between its planes of symmetry is computed, and rollers and balls are no patches of
/// a crown. So `specimen`, if there is one, takes the place of the domain's surfaces, of `size` and of
/// `supports`; the domain then holds only the name of the body (outer_region) and its one bite the test load.
/// All that follows, from stress to fracture, is the same code.
struct Model {
  std::string title;
  Domain domain;
  std::optional<SpecimenTest> specimen = {};
  SizeRequest size;
  std::vector<RegionMaterial> materials;
  std::vector<Support> supports;
  std::vector<Bite> bites;
  Requirement requirement;
  Accuracy accuracy;
  double solver_tolerance = 1e-8;
};

}  // namespace crownproof
