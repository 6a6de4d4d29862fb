// SPDX-License-Identifier: AGPL-3.0-or-later

#include "io/case/case_fields.hpp"
#include "io/case/material_field.hpp"
#include "solver/bench/bench_specimen.hpp"

namespace crownproof {
namespace {

/// The keys of a bench test are those that a strength names its reference specimen with.
std::vector<Field<SpecimenCase>> size_fields() {
  std::vector<Field<SpecimenCase>> fields;
  for (const Field<BenchSpecimen>& field : bench_test_section().fields)
    fields.push_back(
        {field.info, [field](SpecimenCase& target, const YamlNode& node, const std::string& path) {
           field.assign(target.sizes, node, path);
         }});
  return fields;
}

void check_specimen(const SpecimenCase& specimen, const YamlNode& node, const std::string&) {
  if (const auto why = why_no_specimen(specimen.sizes)) throw UserError(node.place, *why);
}

}  // namespace

Section<SpecimenCase> specimen_section() {
  using S = SpecimenCase;
  Section<S> all;
  all.fields = size_fields();
  all.fields.push_back(required(number("load_N", &S::load_N, above(0, 1000000), "Load of the test")));
  all.fields.push_back(required(material_field("material", &S::material, "What the specimen is made of")));
  all.fields.push_back(choice(
      "layer_normal", &S::layer_normal,
      {{"thickness", LayerNormal::thickness}, {"width", LayerNormal::width}, {"length", LayerNormal::length}},
      "Direction normal to the layers of a printed material; of a disc, width and "
      "length lie in its plane"));
  all.fields.push_back(whole_number("cells_through_thickness", &S::cells_through_thickness, between(2, 16),
                                    "How fine to compute"));
  all.check = check_specimen;
  return all;
}

}  // namespace crownproof
