// SPDX-License-Identifier: AGPL-3.0-or-later
// From stress to verdict: the highest tension of each zone against the strength, and the sentence that says
// so.
#pragma once

#include <string>
#include <vector>

#include "solver/result/result.hpp"

namespace crownproof {

/// What is said about one bite.
struct Assessment {
  std::vector<ZonePeak> peaks;  ///< one a zone present, highest principal stress first
  ZonePeak governing;           ///< the zone with the smallest safety factor
  Verdict verdict = Verdict::undecided;
  std::string explanation;
};

/// The material of the body under study. Throws ModelError if it has none, or no strength.
const RegionMaterial& material_under_study(const Model& model);

/// Highest tensions of each zone of the body under study, highest principal stress first.
/// relative_uncertainty is left at 0. `zones`: of each mesh node.
std::vector<ZonePeak> zone_peaks(const TetMesh& mesh, const std::string& region,
                                 const RegionMaterial& material, const std::vector<Zone>& zones,
                                 const RegionStress& stress);

/// How far the stresses of the single cells around the peak's node scatter about the recovered one: root mean
/// square of the difference in the deciding tension, relative to it. A first indicator of the numerical error
/// where no sequence of meshes is at hand; it is large where the mesh does not resolve the stress.
double peak_spread(const TetMesh& mesh, const Stiffness& stiffness, const Eigen::VectorXd& displacement,
                   const std::string& region, const RegionMaterial& material, const ZonePeak& peak);

/// What a load is called in sentences: "Bite 'clench'".
std::string load_name(const Requirement& requirement, const std::string& bite);

/// Verdict of peaks that carry their uncertainty u. Below: in every zone strength / (tension (1 + u)) reaches
/// the required safety factor. Above: in some zone even strength / (tension (1 - u)) does not. Otherwise
/// undecided. Peaks that do not settle can neither clear nor condemn a bite: if one is too near the limit on
/// the finest mesh, a bite that would be below is undecided; the explanation names those that matter.
/// `peaks` must not be empty.
Assessment judge(std::vector<ZonePeak> peaks, const Requirement& requirement, const std::string& bite);

/// All of the above for a solved bite whose stress is recovered (uses result.mesh, node_zone,
/// region_stiffness).
Assessment assess(const Model& model, const Result& result, const BiteResult& bite);

}  // namespace crownproof
