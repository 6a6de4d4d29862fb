// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/model/size_request.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "solver/model/bite.hpp"

namespace crownproof {
namespace {

// A patch with cells of a quarter of its radius carries its force and centre within 1 % (measured on 27
// patches of a crown); the pressure edge lies inside the fine ball of 1.3 radii.
constexpr ContactCells given_contact{.per_radius = 4, .within_radii = 1.3};

/// Field whose zero set is the intaglio, moved by the cement; nothing if the crown has none.
struct Intaglio {
  const Patch* patch = nullptr;
  double offset_mm = 0;
};

Intaglio intaglio_of(const Domain& domain) {
  for (const Body& body : domain.bodies) {
    if (body.region != domain.outer_region) continue;
    for (const PatchUse& use : body.boundary) {
      const Patch& patch = domain.patches[use.patch];
      const bool is_cap = patch.last_ring < 0;
      if (use.patch == domain.outer_patch || !is_cap) continue;
      const bool grows = use.offset_copy && !domain.layers.empty();
      return {&patch, grows ? domain.layers.front().thickness_mm : 0.0};
    }
  }
  return {};
}

/// The nearest intaglio point below a contact, found by following the field down its gradient.
Vec3 below(const Intaglio& intaglio, const Vec3& contact) {
  const Vec3 foot = project(intaglio.patch->field, contact);
  return foot + intaglio.offset_mm * unit_normal(intaglio.patch->field, foot);
}

std::vector<SizeSeed> seeds_of(const Intaglio& intaglio, const Contact& contact, const ContactCells& cells) {
  const double radius = contact.radius_mm;
  std::vector<SizeSeed> seeds{{contact.point, cells.within_radii * radius, radius / cells.per_radius}};
  if (!intaglio.patch) return seeds;
  const Vec3 foot = below(intaglio, contact.point);
  const double thickness = (contact.point - foot).norm();
  // The tension under a contact is as wide as the patch and the wall together (layered half-space theory), so
  // thinner walls need finer cells.
  const double reach = contact.radius_mm + thickness;
  seeds.push_back({foot, 0.5 * reach, std::clamp(0.14 * reach, 0.08, 0.3)});
  return seeds;
}

/// Cells made at scale 1 for a molar crown with five contacts, and how the count grows as the scale shrinks:
/// fitted to meshes of this program of 27k and 132k cells. The exponent is less than 3 because sizes grow
/// outward from surfaces and seeds at a fixed rate.
constexpr double cells_at_scale_one = 56000;
constexpr double cells_exponent = 2.24;

/// Mean radius of the rim of the outer surface, mm: how wide the body is.
double rim_radius(const Domain& domain) {
  const Ring& rim = domain.rings[domain.patches[domain.outer_patch].first_ring];
  const int n = 64;
  Vec3 middle = Vec3::Zero();
  for (int i = 0; i < n; ++i) middle += rim.point(double(i) / n) / n;
  double radius = 0;
  for (int i = 0; i < n; ++i) radius += (rim.point(double(i) / n) - middle).norm() / n;
  return radius;
}

/// Bodies wider than a molar get larger cells far from contacts, where nothing happens; the cube root keeps
/// the count of cells near the asked one (measured on flat stacks of 6 and 14 mm radius).
void widen(SizeRequest& request, const Domain& domain) {
  const double molar_radius = 5.0;
  const double factor = std::cbrt(std::clamp(rim_radius(domain) / molar_radius, 1.0, 20.0));
  request.surface_size_mm *= factor;
  request.largest_mm *= factor;
}

}  // namespace

std::vector<SizeSeed> contact_seeds(const Domain& domain, const Contact& contact, const ContactCells& cells) {
  return seeds_of(intaglio_of(domain), contact, cells);
}

SizeRequest size_for(const Domain& domain, const std::vector<Bite>& bites, int cells) {
  SizeRequest request;
  widen(request, domain);
  const Intaglio intaglio = intaglio_of(domain);
  for (const Bite& bite : bites)
    for (const Contact& contact : bite.contacts)
      for (const SizeSeed& seed : seeds_of(intaglio, contact, given_contact)) request.seeds.push_back(seed);
  for (const auto& [point, size] : domain.margins) request.seeds.push_back({point, size, size});
  request.scale = std::pow(cells_at_scale_one / cells, 1 / cells_exponent);
  return request;
}

}  // namespace crownproof
