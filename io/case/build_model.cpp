// SPDX-License-Identifier: AGPL-3.0-or-later
// From the plain values of a case to the model the solver works on.
#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>

#include "io/case/build_bites.hpp"
#include "io/case/build_requirement.hpp"
#include "io/case/case.hpp"
#include "io/machine/memory.hpp"
#include "mesh/crown/crown_shape.hpp"
#include "mesh/geometry_error.hpp"
#include "mesh/model_error.hpp"
#include "mesh/shape/domain.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/material/material.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/size_request.hpp"
#include "solver/model/specimen_test.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/support.hpp"

namespace crownproof {
namespace {

/// Builds the shape; what the shape finds impossible is told with the place of its section.
Domain build_domain(const CaseFile& c) {
  const Place& place = c.crown ? c.crown->place : c.flat_stack->place;
  try {
    return c.crown ? crown_shape(c.crown->value) : flat_stack(c.flat_stack->value);
  } catch (const GeometryError& error) {
    throw GeometryError(place.text() + ": " + error.what());
  }
}

/// Direction to which the layer normal leans; axes as in mesh/geometry.hpp.
Vec3 toward_direction(Toward toward) {
  switch (toward) {
    case Toward::buccal:
      return Vec3::UnitY();
    case Toward::lingual:
      return -Vec3::UnitY();
    case Toward::mesial:
      return -Vec3::UnitX();
    case Toward::distal:
      return Vec3::UnitX();
  }
  return Vec3::UnitY();
}

Vec3 layer_normal(const BuildCase& build) {
  const double tilt = build.tilt_deg * std::numbers::pi / 180;
  return std::cos(tilt) * Vec3::UnitZ() + std::sin(tilt) * toward_direction(build.toward);
}

LayerPlanes layer_planes(const LayerPlanesCase& c, const ElasticConstants& constants) {
  return {.shear_divisor = c.shear_divisor.value_or(penny_shear_divisor(constants)),
          .slide = c.slide,
          .friction = c.friction_coefficient};
}

/// Material axes of a build: axis 3 is the layer normal, axis 1 the scan direction if one is given.
Mat3 build_axes(const BuildCase& build) {
  if (!build.scan_direction) return axes_of_layer_normal(layer_normal(build));
  const auto& [direction, place] = *build.scan_direction;
  try {
    return axes_of_layers(layer_normal(build), direction);
  } catch (const ModelError&) {
    throw UserError(place,
                    "'build.scan_direction' lies along the layer normal, so it gives no direction within the "
                    "layers. Write one that lies in them, such as [1, 0, 0] for layers that lie flat.");
  }
}

/// The material of the body under study, which must have a strength.
RegionMaterial studied_material(const std::string& region, const Placed<MaterialChoice>& choice,
                                const Mat3& axes, const StrengthCase& strength,
                                const MaterialsLibrary& library) {
  const MaterialData& data = material_of(choice, library);
  if (!data.strength)
    throw UserError(choice.place,
                    fmt::format("the material '{}' has no strength, so a {} of it cannot be judged. "
                                "Choose another, or give 'strength: {{characteristic_MPa: ...}}'.",
                                data.name, region));
  const Material material = to_material(data);
  return {region, material, axes, data.layered, layer_planes(strength.layer_planes, material.elastic)};
}

/// One material for each region of the shape.
std::vector<RegionMaterial> region_materials(const CaseFile& c, const Domain& domain,
                                             const MaterialsLibrary& library) {
  std::vector<RegionMaterial> all{
      studied_material("crown", c.materials.crown.value(), build_axes(c.build), c.strength, library)};
  if (!domain.layers.empty()) {
    if (!c.materials.cement)
      throw UserError(c.materials.crown->place,
                      "the shape has a cement layer, but 'materials' names no cement. Add "
                      "'cement: resin_cement', or set cement_thickness_um to 0 where the "
                      "shape allows it.");
    all.push_back({.region = domain.layers.front().region,
                   .material = to_material(material_of(*c.materials.cement, library))});
  }
  all.push_back({.region = "die", .material = to_material(material_of(c.materials.die.value(), library))});
  return all;
}

Accuracy build_accuracy(const AccuracyCase& c) {
  return {.cells = c.cells,
          .stress_percent = c.stress_percent,
          .max_cells = c.max_cells,
          .max_passes = c.max_passes,
          .available_memory_GiB = available_memory_GiB()};
}

/// The first mesh of a refined run: small, but it must see the shape.
int first_cells(const Accuracy& accuracy) {
  return std::clamp(accuracy.max_cells / 20, 12000, 40000);
}

/// Axes of a specimen as in solver/loads/specimen_problem.hpp: blocks are loaded along z, all others through
/// their thickness.
Vec3 specimen_layer_normal(const BenchSpecimen& s) {
  const Vec3 n = layer_normal_of(s, LayerNormal::thickness);
  const bool block = s.test == BenchTest::tension || s.test == BenchTest::compression;
  return block ? Vec3(n.y(), n.z(), n.x()) : n;
}

/// The one load of the test, drawn where the specimen meets it.
Bite test_load(const SpecimenCase& c) {
  const BenchSpecimen& s = c.sizes;
  const bool block = s.test == BenchTest::tension || s.test == BenchTest::compression;
  Contact contact{.at = "on the fixture"};
  contact.point = Vec3(0, 0, block ? s.length_mm / 2 : s.thickness_mm);
  if (s.test == BenchTest::tension) contact.direction = Vec3::UnitZ();
  contact.force_N = c.load_N;
  contact.radius_mm = s.thickness_mm / 4;
  contact.pressure = PressureShape::uniform;
  return {bench_test_name(s.test), {contact}};
}

Model build_specimen(const CaseFile& case_file, const MaterialsLibrary& library) {
  const SpecimenCase& c = case_file.specimen->value;
  Model model;
  model.title = case_file.title;
  Domain body;
  body.outer_region = "specimen";
  model.domain = std::make_shared<const Domain>(std::move(body));
  model.specimen = std::make_shared<const SpecimenTest>(c.sizes, c.load_N, c.cells_through_thickness);
  model.materials = {studied_material("specimen", c.material.value(),
                                      axes_of_layer_normal(specimen_layer_normal(c.sizes)),
                                      case_file.strength, library)};
  model.bites = {test_load(c)};
  set_requirement(model, case_file.strength);
  return model;
}

}  // namespace

Model build_model(const CaseFile& case_file, const MaterialsLibrary& library) {
  if (case_file.specimen) return build_specimen(case_file, library);
  Model model;
  model.title = case_file.title;
  model.domain = std::make_shared<const Domain>(build_domain(case_file));
  model.materials = region_materials(case_file, *model.domain, library);
  model.supports = {Support{}};
  model.bites = build_bites(case_file, *model.domain);
  model.accuracy = build_accuracy(case_file.accuracy);
  const bool refines = model.accuracy.stress_percent > 0;
  model.size =
      size_for(*model.domain, model.bites, refines ? first_cells(model.accuracy) : case_file.accuracy.cells);
  add_seat_cells(model);
  set_requirement(model, case_file.strength);
  return model;
}

}  // namespace crownproof
