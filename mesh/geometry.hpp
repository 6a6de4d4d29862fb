// SPDX-License-Identifier: AGPL-3.0-or-later
// Points and directions in space. Lengths are mm everywhere inside the program.
//
// Axes of every shape: z is the path of insertion, pointing occlusally; x mesial to distal; y lingual to
// buccal.
#pragma once

#include <Eigen/Core>

namespace crownproof {

using Vec3 = Eigen::Vector3d;  ///< a point (mm) or a direction (unit length when the name says so)
using Mat3 = Eigen::Matrix3d;

}  // namespace crownproof
