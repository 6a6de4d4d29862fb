// SPDX-License-Identifier: AGPL-3.0-or-later
// Effective volume and area of any stressed body, bench specimen or crown: the integral of (s / s_max)^m over
// the tensions a flaw population feels (principle of independent action; Barnett et al. 1967; Davies 1973).
#pragma once

#include <vector>

#include "solver/bench/bench_test.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {

struct StressField;
struct TetMesh;

/// Effective sizes of one region of a mesh, for several Weibull moduli at once (the costly part, principal
/// stresses, is shared).
struct EffectiveSize {
  double peak_MPa = 0;                        ///< highest tension at a node; 0: no tension anywhere
  std::vector<double> size;                   ///< one a modulus, related to peak_MPa: mm^3 or mm^2
  std::vector<std::vector<double>> by_label;  ///< #moduli x #labels: its parts
};

/// At most this many moduli in one call.
inline constexpr int most_moduli = 6;

/// What to integrate. `cell_label` (#cells) and `face_label` (#faces) sort the parts; empty: one label.
struct EffectiveSizeRequest {
  int region = 0;
  FlawKind flaws = FlawKind::volume;
  std::vector<double> moduli;
  std::vector<int> labels;  ///< of cells (volume flaws) or faces (surface flaws), 0 .. n_labels - 1
  int n_labels = 1;
  int copies = 1;  ///< the whole body is so many times the mesh (planes of symmetry)
};

/// Volume flaws: over the cells of the region; surface flaws: over its faces, with the stress resolved in the
/// surface. Cells are halved where needed until the integral of the highest modulus settles to 0.1 % (moduli
/// to 30 and above). The same numbers for any number of threads.
EffectiveSize effective_size(const TetMesh& mesh, const StressField& field, const StressMeasure& measure,
                             const EffectiveSizeRequest& request);

}  // namespace crownproof
