// SPDX-License-Identifier: AGPL-3.0-or-later
// Everything the simulation needs, as plain data: shape, sizes, materials, supports, bites, strength.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "mesh/shape/cell_sizes.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/requirement.hpp"
#include "solver/model/support.hpp"

namespace crownproof {

struct Domain;
struct SpecimenTest;

/// A domain without surfaces whose body under study is "crown".
std::shared_ptr<const Domain> no_shape();

/// A complete case for simulate(). A bench specimen is no Domain: its mesh is laid out along the lines of its
/// fixture, only the part between its planes of symmetry is computed, and rollers and balls are no patches of
/// a crown. So `specimen`, if there is one, takes the place of the domain's surfaces, of `size` and of
/// `supports`; the domain then holds only the name of the body (outer_region) and its one bite the test load.
/// All that follows, from stress to fracture, is the same code.
struct Model {
  std::string title;
  std::shared_ptr<const Domain> domain = no_shape();  ///< shared by all models of the same shape
  std::shared_ptr<const SpecimenTest> specimen = {};
  SizeRequest size;
  std::vector<RegionMaterial> materials;
  std::vector<Support> supports;
  std::vector<Bite> bites;
  Requirement requirement;
  Accuracy accuracy;
  double solver_tolerance = 1e-8;
};

}  // namespace crownproof
