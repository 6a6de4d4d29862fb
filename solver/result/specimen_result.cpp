// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/result/specimen_result.hpp"

#include <cassert>
#include <cmath>

#include "solver/result/result.hpp"
#include "solver/strength/assess.hpp"
#include "solver/strength/effective_volume.hpp"
#include "solver/stress/principal.hpp"
#include "solver/stress/stress_field.hpp"

namespace crownproof {
namespace {

/// Along the load, or across it where the specimen bends.
double stress_in_the_middle(const SpecimenTest& test, const Result& result) {
  const int region = 0;
  const auto& nodes = result.bites.front().stress.nodes[region];
  std::size_t nearest = 0;
  for (std::size_t i = 0; i < nodes.size(); ++i)
    if (result.mesh.nodes[nodes[i]].norm() < result.mesh.nodes[nodes[nearest]].norm()) nearest = i;
  const Voigt& stress = result.bites.front().stress.stress[region][nearest];
  const PrincipalStress principal = principal_stress(stress);
  return test.specimen.test == BenchTest::compression ? -principal.values[2] : principal.values[0];
}

double field_size(const Result& result, FlawKind flaws, double modulus, double formula_MPa) {
  const StressField field = recovered_field(result.mesh, result.bites.front().stress, 0);
  const EffectiveSize size =
      effective_size(result.mesh, field, principal_tensions(), {0, flaws, {modulus}, {}, 1, result.copies});
  return size.size[0] * std::pow(size.peak_MPa / formula_MPa, modulus);
}

}  // namespace

SpecimenResult specimen_result(const Model& model, const Result& result) {
  assert(model.specimen && !result.bites.empty());
  const SpecimenTest& test = *model.specimen;
  SpecimenResult told{.test = test.specimen.test,
                      .load_N = test.load_N,
                      .formula_MPa = nominal_stress(test.specimen, test.load_N),
                      .field_MPa = stress_in_the_middle(test, result),
                      .bias = formula_bias(test.specimen),
                      .sizes = {}};
  const double m = material_under_study(model).material.strength->in_layer.weibull_modulus;
  if (!(m > 0) || test.specimen.test == BenchTest::compression) return told;
  told.sizes = SpecimenSizes{.modulus = m,
                             .field_volume_mm3 = field_size(result, FlawKind::volume, m, told.formula_MPa),
                             .formula_volume_mm3 = effective_size(test.specimen, m, FlawKind::volume),
                             .field_area_mm2 = field_size(result, FlawKind::surface, m, told.formula_MPa),
                             .formula_area_mm2 = effective_size(test.specimen, m, FlawKind::surface)};
  return told;
}

}  // namespace crownproof
