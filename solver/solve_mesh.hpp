// SPDX-License-Identifier: AGPL-3.0-or-later
// One mesh from its sizes to displacements and stress: what simulate() does again for every mesh.
#pragma once

#include <memory>
#include <stdexcept>
#include <vector>

#include <Eigen/Core>

#include "solver/elasticity/held_flags.hpp"
#include "solver/elasticity/solve_report.hpp"
#include "solver/result/fields.hpp"

namespace crownproof {

class ElasticitySolver;
class SurfaceFeet;
struct Bite;
struct Model;
struct RefinePlan;
struct StressField;

/// The linear solver did not reach its tolerance; exit code 4.
struct NoConvergence : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// A mesh with its supports and one column of nodal forces for each bite; those of antagonists come when they
/// are pressed.
struct LoadedMesh {
  TetMesh mesh;
  HeldFlags held;
  Eigen::MatrixXd loads;  ///< 3 n_nodes x #bites, N
  int copies = 1;         ///< the whole body is so many times the mesh
};

/// Meshes the shape of the model, or lays out its bench specimen. Throws GeometryError, ModelError.
LoadedMesh load_mesh(const Model& model, const RefinePlan& plan);

/// All that is known of a mesh before its bites are solved; `bites` is left empty. Throws ModelError if a
/// region has no material.
Fields unsolved_fields(const Model& model, TetMesh mesh, HeldFlags held, int copies);

/// Presses the antagonists of the bites: fills their columns of `loads`. Returns the bites as they touch, and
/// first guesses of the displacements (3 n_nodes x #bites, mm; 0 for bites with given contacts). Throws
/// ModelError naming the bite.
struct TouchingBites {
  std::vector<Bite> bites;
  Eigen::MatrixXd first_guess;
};
TouchingBites press_antagonists(const Model& model, const TetMesh& mesh, const ElasticitySolver& solver,
                                Eigen::MatrixXd& loads);

/// Lets the antagonists come down on a mesh. Throws ModelError, naming the bite, if one finds no seat.
void check_seats(const Model& model, const TetMesh& mesh);

/// Displacements of all bites, solved together.
struct Displacements {
  Eigen::MatrixXd mm;                ///< 3 n_nodes x #bites
  std::vector<SolveReport> reports;  ///< #bites
};

/// Throws NoConvergence, with the solver's diagnosis, naming the bite.
Displacements solve_bites(const Model& model, const ElasticitySolver& solver, const Eigen::MatrixXd& loads,
                          Eigen::MatrixXd first_guess);

/// Where the free surface lies near the contacts of the bites; nothing on a bench specimen. Keeps a reference
/// to the mesh.
std::shared_ptr<const SurfaceFeet> surface_feet(const Model& model, const TetMesh& mesh);

/// Loads, displacements and recovered stress of each bite, that close to its contacts with their closed form;
/// `fields.feet` must be known.
std::vector<BiteFields> bite_fields(const Model& model, const Fields& fields, const Eigen::MatrixXd& loads,
                                    const Eigen::MatrixXd& displacements);

/// The stress of each bite at any point of the body under study, close to its contacts with their closed
/// form. They keep references to `model` and `fields`.
std::vector<StressField> stress_fields(const Model& model, const Fields& fields);

}  // namespace crownproof
