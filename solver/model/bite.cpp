// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/model/bite.hpp"

namespace crownproof {

double radii_from(const Contact& contact, const Vec3& point) {
  const Vec3 away = point - contact.point;
  const double along = away.dot(contact.major);
  const Vec3 across = away - along * contact.major;
  return Vec3(along / contact.stretch, contact.stretch * across.norm(), 0).norm() / contact.radius_mm;
}

Vec3 resultant_N(const Bite& bite) {
  if (bite.antagonist) return bite.antagonist->ball.force_N * bite.antagonist->ball.direction;
  Vec3 sum = Vec3::Zero();
  for (const Contact& contact : bite.contacts) sum += contact.force_N * contact.direction;
  return sum;
}

}  // namespace crownproof
