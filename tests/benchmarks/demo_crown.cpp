// SPDX-License-Identifier: AGPL-3.0-or-later
#include "tests/benchmarks/demo_crown.hpp"

#include <stdexcept>

#include "io/case/case.hpp"
#include "mesh/volume/fill.hpp"
#include "solver/loads/contact_load.hpp"
#include "solver/loads/supports.hpp"
#include "solver/model/studied_body.hpp"

namespace crownproof {

Model demo_crown(int cells) {
  const Case whole = read_case(std::string(SOURCE_DIR) + "/cases/lower_first_molar_printed_thickness.yaml");
  for (const CaseVariant& variant : whole.variants) {
    CaseFile file = variant.case_file;
    if (file.crown->value.occlusal_thickness_mm != 0.8) continue;
    file.accuracy.cells = cells;
    file.accuracy.stress_percent = 0;
    return build_model(file, whole.library);
  }
  throw std::runtime_error("The demonstration case has no variant with 0.8 mm.");
}

DemoProblem demo_problem(int cells) {
  const Model model = demo_crown(cells);
  DemoProblem problem{.mesh = fill(*model.domain, model.size), .stiffness = {}, .held = {}, .load = {}};
  for (const std::string& region : problem.mesh.region_names) {
    for (const RegionMaterial& m : model.materials) {
      if (m.region == region) problem.stiffness.push_back(stiffness(m.material.elastic, m.axes));
    }
  }
  problem.held = held_flags(problem.mesh, model.supports);
  problem.load = bite_load(problem.mesh, region_under_study(model), model.bites.front());
  return problem;
}

}  // namespace crownproof
