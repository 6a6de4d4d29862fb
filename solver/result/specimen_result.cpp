// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/result/specimen_result.hpp"

#include <cmath>

#include "mesh/tet_mesh.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/specimen_formulas.hpp"
#include "solver/model/model.hpp"
#include "solver/model/specimen_test.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/strength/effective_volume.hpp"
#include "solver/strength/specimen_size.hpp"
#include "solver/stress/bite_fields.hpp"
#include "solver/stress/principal.hpp"
#include "solver/stress/stress_field.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {
namespace {

/// Along the load, or across it where the specimen bends.
double stress_in_the_middle(const SpecimenTest& test, const StudiedBody& body, const BiteFields& solved) {
  const auto& nodes = solved.stress.nodes[body.region];
  std::size_t nearest = 0;
  for (std::size_t i = 0; i < nodes.size(); ++i)
    if (body.mesh.nodes[nodes[i]].norm() < body.mesh.nodes[nodes[nearest]].norm()) nearest = i;
  const Voigt& stress = solved.stress.stress[body.region][nearest];
  const PrincipalStress principal = principal_stress(stress);
  return test.specimen.test == BenchTest::compression ? -principal.values[2] : principal.values[0];
}

/// Effective volume or area of the computed field, related to the formula's stress.
double field_size(const StudiedBody& body, const BiteFields& solved, FlawKind flaws, double formula_MPa) {
  const double modulus = body.strength().in_layer.weibull_modulus;
  const StressField field = recovered_field(body.mesh, solved.stress, body.region);
  const EffectiveSize size = effective_size(body.mesh, field, principal_tensions(),
                                            {body.region, flaws, {modulus}, {}, 1, body.copies});
  return size.size[0] * std::pow(size.peak_MPa / formula_MPa, modulus);
}

}  // namespace

SpecimenResult specimen_result(const SpecimenTest& test, const StudiedBody& body, const BiteFields& solved) {
  SpecimenResult result{.test = test.specimen.test,
                        .load_N = test.load_N,
                        .formula_MPa = nominal_stress(test.specimen, test.load_N),
                        .field_MPa = stress_in_the_middle(test, body, solved),
                        .true_over_formula = true_over_formula(test.specimen),
                        .sizes = {}};
  const double m = body.strength().in_layer.weibull_modulus;
  if (!(m > 0) || test.specimen.test == BenchTest::compression) return result;
  const double formula = result.formula_MPa;
  result.sizes = SpecimenSizes{.modulus = m,
                               .field_volume_mm3 = field_size(body, solved, FlawKind::volume, formula),
                               .formula_volume_mm3 = effective_size(test.specimen, m, FlawKind::volume),
                               .field_area_mm2 = field_size(body, solved, FlawKind::surface, formula),
                               .formula_area_mm2 = effective_size(test.specimen, m, FlawKind::surface)};
  return result;
}

}  // namespace crownproof
