// SPDX-License-Identifier: AGPL-3.0-or-later
// The figures that decide, and how they were found: small enough to be kept for every variant of a study.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mesh/quality.hpp"
#include "mesh/volume/thickness_report.hpp"
#include "solver/accuracy/pass.hpp"
#include "solver/elasticity/balance_report.hpp"
#include "solver/elasticity/solve_report.hpp"
#include "solver/model/method_limits.hpp"
#include "solver/result/specimen_result.hpp"
#include "solver/strength/fracture_verdict.hpp"
#include "solver/strength/layer_rule.hpp"
#include "solver/strength/tension_verdict.hpp"

namespace crownproof {

/// One of the two answers of a bite. The bulk - intaglio, walls, finish line, occlusal surface away from
/// contacts - is what thickness and material decide; the contact, within 1.3 radii of the middle of a patch,
/// what presses on it. Each is judged by the limits of the bite.
struct PlaceAnswer {
  TensionVerdict tension;
  std::optional<double> probability;  ///< of fracture that starts there, now; nothing if withheld
  std::optional<FractureVerdict>
      fracture;                          ///< of fracture that starts there, if the case allows a probability
  Verdict verdict = Verdict::undecided;  ///< of both limits
};

/// One bite.
struct BiteReport {
  std::string name;
  SolveReport solve;
  Balance balance;
  std::vector<ZonePeak> peaks;                      ///< one a zone present, highest principal stress first
  TensionVerdict tension;                           ///< what the tensions say
  FractureOutlook fracture;                         ///< what the flaws of the material make of it
  std::optional<FractureVerdict> fracture_verdict;  ///< if the case allows a probability
  Verdict verdict = Verdict::undecided;             ///< of both limits
  std::optional<PlaceAnswer> bulk, contact;  ///< nothing where the body has no such place (bench specimens)
  std::optional<LayerRule> layer_rule;  ///< layered body: what the rule for planes pressed shut does to it
};

/// One case.
struct Report {
  MeshQuality quality;
  ThicknessReport thickness;
  std::vector<SolverLevel> levels;
  std::vector<BiteReport> bites;
  std::optional<SpecimenResult> specimen;  ///< of a bench test
  std::vector<Pass> passes;                ///< coarse to fine; the last is the mesh of the fields
  Stop stop;                               ///< why no finer mesh was made
  std::vector<MethodLimit> limits;         ///< what limits the result
};

}  // namespace crownproof
