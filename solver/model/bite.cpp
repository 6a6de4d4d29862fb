// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/model/bite.hpp"

namespace crownproof {

double radii_from(const Contact& contact, const Vec3& point) {
  const Vec3 away = point - contact.point;
  const double along = away.dot(contact.major);
  const Vec3 across = away - along * contact.major;
  return Vec3(along / contact.stretch, contact.stretch * across.norm(), 0).norm() / contact.radius_mm;
}

}  // namespace crownproof
