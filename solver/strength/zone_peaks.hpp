// SPDX-License-Identifier: AGPL-3.0-or-later
// From stress to tensions that decide: the highest of each zone, and how well one mesh knows it.
#pragma once

#include <vector>

#include <Eigen/Core>

#include "solver/strength/zone_peak.hpp"
#include "solver/stress/rim_point.hpp"

namespace crownproof {

struct BiteFields;
struct RegionStress;
struct StudiedBody;

/// Highest tensions of each zone of the body under study, highest principal stress first.
/// relative_uncertainty is left at 0. Where there are `rims`, they and not the nodes speak for the contact
/// zone.
std::vector<ZonePeak> zone_peaks(const StudiedBody& body, const RegionStress& stress,
                                 const std::vector<RimPoint>& rims = {});

/// How far the stresses of the single cells around the peak's node scatter about the recovered one: root mean
/// square of the difference in the deciding tension, relative to it. A first indicator of the numerical error
/// where no sequence of meshes is at hand; it is large where the mesh does not resolve the stress.
/// `displacement`: 3 n_nodes, mm.
double peak_spread(const StudiedBody& body, const Eigen::VectorXd& displacement, const ZonePeak& peak);

/// The peaks of a bite's own zones as one mesh alone shows them, with the band of a rule of thumb.
std::vector<ZonePeak> peaks_of_one_mesh(const StudiedBody& body, const BiteFields& bite);

}  // namespace crownproof
