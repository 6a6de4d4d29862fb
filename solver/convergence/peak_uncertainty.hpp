// SPDX-License-Identifier: AGPL-3.0-or-later
// How far a peak can be trusted, judged from its values on a sequence of meshes: observed order of
// convergence, Richardson extrapolation and grid convergence index, with guards for sequences that earn none
// of them. Source: Celik, Ghia, Roache, Freitas, Coleman & Raad, "Procedure for estimation and reporting of
// uncertainty due to discretization in CFD applications", J. Fluids Eng. 130 (2008) 078001; Roache 1994
// (safety factors).
#pragma once

#include <vector>

#include "solver/convergence/settling.hpp"

namespace crownproof {

/// The value of one quantity on one mesh.
struct PassValue {
  double cell_size_mm = 0;  ///< representative cell size where the quantity lives, or (volume / cells)^(1/3)
  double value = 0;         ///< any unit; bands come out in the same
};

/// Richardson's picture of three meshes, value = limit + c h^order. Only made when the three values move one
/// way.
struct Richardson {
  double order = 0;         ///< observed; negative when the increments grow as the cells shrink
  double extrapolated = 0;  ///< the limit from the two finest meshes
  double gci_fine = 0;      ///< 1.25 |(v2 - v1)/v1| / (r21^order - 1), relative
  double gci_coarse = 0;    ///< the same for the two coarser meshes
};

/// Three meshes, coarse to fine, sizes strictly falling. The order solves
/// (v3 - v2)/(v2 - v1) = (r32^p - 1) r21^p / (r21^p - 1), the equation of Celik et al. before they take
/// absolute values; it is found by bisection in [-6, 12]. Needs (v3 - v2)/(v2 - v1) > 0.
Richardson richardson(const PassValue& coarse, const PassValue& middle, const PassValue& fine);

/// Band of a peak.
struct PeakUncertainty {
  Settling settling = Settling::one_pass;
  double value = 0;          ///< of the finest mesh
  double low = 0, high = 0;  ///< the truth is expected between; equal to value when there is no band
  double order = 0;          ///< observed order (0: none could be observed)
  double extrapolated = 0;   ///< Richardson's limit, or the value of the finest mesh
  double refined_by = 1;     ///< cell size of the coarsest of the passes judged over that of the finest
  double half_width() const { return 0.5 * (high - low); }
};

/// Guards; the defaults suit stress recovered on quadratic tetrahedra.
struct SettlingRules {
  double highest_order = 3.0;  ///< theory for recovered stress; a higher observed order is luck, not used
  double lowest_order = 0.5;   ///< below: increments do not shrink
  double assumed_order = 2.0;  ///< for two passes (raw stress of quadratic cells)
  double negligible = 0.002;  ///< increments below this part of the value count as settled, unless they creep
  double mesh_noise =
      0.002;  ///< increments above this part of the value that go one way creep: they tell an order
  double smallest_ratio =
      1.1;  ///< passes whose sizes differ by less than this factor tell nothing about order
};

/// Judges a sequence ordered coarse to fine; the three last passes count.
PeakUncertainty peak_uncertainty(const std::vector<PassValue>& passes, const SettlingRules& rules = {});

}  // namespace crownproof
