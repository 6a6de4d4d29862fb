// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include "solver/convergence/settling.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/mechanism.hpp"

namespace crownproof {

/// Why the tension at a place has no limit that finer meshes could find.
enum class UnsettledCause {
  none,               ///< it settles, or nothing is known against it
  point_contact,      ///< the contact is smaller than the cells can resolve
  sharp_finish_line,  ///< a sharp edge bonded to a softer material
  edge_of_bond,       ///< some other edge of a bond
  keeps_growing,      ///< seen on the meshes, for no reason that is known
};

/// The highest tension of a zone of the body under study in one bite.
struct ZonePeak {
  Zone zone = Zone::interior;
  double principal_MPa = 0;        ///< highest first principal stress
  Vec3 at = Vec3::Zero();          ///< mm
  Vec3 direction = Vec3::UnitX();  ///< of that principal stress
  double in_layer_MPa = 0;         ///< layered material: highest tension within the layer plane
  double across_layer_MPa = 0;     ///< layered material: highest opening and shear of a layer, as one tension
  double safety_factor = 0;  ///< smallest strength / tension over the ways of breaking; infinite: no tension
  Mechanism mechanism = Mechanism::breaks_across_body;  ///< the way with that smallest safety factor
  int node = -1;                                        ///< mesh node where the safety factor is smallest
  Vec3 tension_at =
      Vec3::Zero();         ///< mm, of the tension that decides; layers may give way elsewhere than `at`
  double tension_MPa = 0;   ///< the tension that decides there (in the sense of `mechanism`)
  double strength_MPa = 0;  ///< the strength it is compared with
  double cell_scatter = 0;  ///< of that tension among the cells around `node`, relative (see peak_spread)
  double open_part = 0;     ///< of that tension, what its method leaves open however fine the cells
  double relative_uncertainty = 0;         ///< tension_MPa is trusted to this part of itself, plus or minus
  Settling settling = Settling::one_pass;  ///< what tension_MPa does from mesh to mesh
  double observed_order = 0;               ///< of its convergence; 0: none could be observed
  double cell_size_mm = 0;                 ///< of the cells around `node`
  UnsettledCause cause = UnsettledCause::none;  ///< if it does not settle
  double contact_radius_mm = 0;                 ///< of the contact that is nearly a point
};

}  // namespace crownproof
