// SPDX-License-Identifier: AGPL-3.0-or-later
// What simulate() returns: fields on the mesh and the figures that decide.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mesh/quality.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/thickness.hpp"
#include "solver/accuracy/peak_uncertainty.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/model/model.hpp"
#include "solver/model/zones.hpp"
#include "solver/result/specimen_result.hpp"
#include "solver/strength/fracture_verdict.hpp"
#include "solver/strength/verdict.hpp"
#include "solver/stress/principal.hpp"
#include "solver/stress/stress_recovery.hpp"

namespace crownproof {

/// The highest tension of a zone of the region under study in one bite.
struct ZonePeak {
  Zone zone = Zone::interior;
  double principal_MPa = 0;        ///< highest first principal stress
  Vec3 at = Vec3::Zero();          ///< mm
  Vec3 direction = Vec3::UnitX();  ///< of that principal stress
  double in_layer_MPa = 0;         ///< layered material: highest tension within the layer plane
  double across_layer_MPa = 0;     ///< layered material: highest opening and shear of a layer, as one tension
  double safety_factor = 0;  ///< smallest strength / tension over the ways of breaking; infinite: no tension
  std::string mechanism;     ///< plain words: "breaks across the body" / "opens between layers"
  int node = -1;             ///< mesh node where the safety factor is smallest
  double tension_MPa = 0;    ///< the tension that decides there (in the sense of `mechanism`)
  double strength_MPa = 0;   ///< the strength it is compared with
  double cell_scatter = 0;   ///< of that tension among the cells around `node`, relative (see peak_spread)
  double relative_uncertainty = 0;         ///< tension_MPa is trusted to this part of itself, plus or minus
  Settling settling = Settling::one_pass;  ///< what tension_MPa does from mesh to mesh
  double observed_order = 0;               ///< of its convergence; 0: none could be observed
  double cell_size_mm = 0;                 ///< of the cells around `node`
  std::string cause;                       ///< does not settle: the likely reason, in plain words
};

/// Force and moment of what was applied and of what holds it, and energy balance.
struct Balance {
  Vec3 load_N = Vec3::Zero(), reaction_N = Vec3::Zero();
  Vec3 load_moment_Nmm = Vec3::Zero(), reaction_moment_Nmm = Vec3::Zero();  ///< about the origin
  double force_error = 0;                                                   ///< |load + reaction| / |load|
  double moment_error = 0;  ///< relative to |load| times the size of the body
  double energy_error = 0;  ///< |u.Ku - u.f| / |u.f|
};

/// One bite solved.
struct BiteResult {
  std::string name;
  Eigen::VectorXd loads;         ///< 3 n_nodes, N
  Eigen::VectorXd displacement;  ///< 3 n_nodes, mm
  RegionStress stress;           ///< nodal stress, one set a region
  SolveReport solve;
  Balance balance;
  std::vector<ZonePeak> peaks;  ///< one a zone present, highest principal stress first
  ZonePeak governing;           ///< the zone with the smallest safety factor
  Verdict verdict = Verdict::undecided;
  std::string explanation;                          ///< the sentence that explains the verdict
  FractureOutlook fracture;                         ///< what the flaws of the material make of it
  std::optional<FractureVerdict> fracture_verdict;  ///< if the case allows a probability; `verdict` heeds it
};

/// One mesh of the sequence that refinement made.
struct Pass {
  int cells = 0, nodes = 0;
  int predicted_cells = 0;          ///< before it was made; 0 for the first
  double made_over_asked = 1;       ///< of the first: see solver/accuracy/refine.hpp
  double predicted_memory_GiB = 0;  ///< before it was made
  double energy_error = 0;          ///< estimated error of the body under study, part of its energy norm
  std::vector<double> risk;         ///< #bites, -ln(1 - P) of fracture now; empty: no probability
  std::vector<std::vector<ZonePeak>> peaks;  ///< #bites x #zones, with the band known when this mesh was made
};

/// Everything about one case.
struct Result {
  TetMesh mesh;
  MeshQuality quality;
  ThicknessReport thickness;
  HeldFlags held;
  std::vector<Stiffness> region_stiffness;  ///< in the axes of the shape
  std::vector<SolverLevel> levels;
  std::vector<Zone> node_zone;  ///< of the nodes of the region under study
  std::vector<BiteResult> bites;
  int copies = 1;  ///< the whole body is so many times the mesh (planes of symmetry of a specimen)
  std::optional<SpecimenResult> specimen;  ///< of a bench test
  std::vector<Pass> passes;                ///< coarse to fine; the last is the mesh above
  std::string why_stopped;                 ///< why no finer mesh was made, as a sentence
  std::vector<std::string> warnings;       ///< what limits the result, as sentences
  std::vector<std::string>
      withheld;  ///< regions whose pointwise stress must not be shown (nearly incompressible)
};

}  // namespace crownproof
