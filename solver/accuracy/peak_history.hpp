// SPDX-License-Identifier: AGPL-3.0-or-later
// The peaks of each zone followed from mesh to mesh: their bands, and which of them do not settle and why.
#pragma once

#include <vector>

#include "solver/accuracy/pass.hpp"

namespace crownproof {

struct Accuracy;
struct Bite;
struct StudiedBody;

/// Whether a peak settles takes so many meshes to see.
constexpr std::size_t meshes_to_judge = 3;

/// There is tension and, as far as is known, it has a limit: worth refining for.
bool tension_settles(const ZonePeak& peak);

/// The peaks of the newest mesh, one list a bite, with their bands from the sequence (`passes`, coarse to
/// fine, ends with this mesh). A peak that stands on a bonded edge, on a knife edge or under a contact too
/// small for the cells is taken not to settle unless the sequence shows that it does, with cells there that
/// shrank by 1.5 to at most 0.25 mm. No band is narrower than 0.5 %, nor than 0.4 of the scatter among the
/// cells around the peak.
std::vector<std::vector<ZonePeak>> with_bands(const StudiedBody& body, const std::vector<Bite>& bites,
                                              const Accuracy& asked, const std::vector<Pass>& passes);

/// The band refinement aims at, percent: half of what was asked, because a band from three meshes is itself
/// known to a factor of about two only.
double wanted_percent(const Accuracy& asked);

/// True if every deciding peak of every bite in the newest pass (settling, and within 1.25 of the smallest
/// safety factor of those that settle) is known within the wanted percent. A bite whose tensions all do not
/// settle holds this up until meshes_to_judge have shown it.
bool accurate_enough(const Accuracy& asked, const std::vector<Pass>& passes);

}  // namespace crownproof
