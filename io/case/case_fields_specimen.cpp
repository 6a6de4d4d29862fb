// SPDX-License-Identifier: AGPL-3.0-or-later

#include "io/case/case_fields.hpp"
#include "io/case/material_field.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"

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

/// A bar or ring test is computed on the part between its planes of symmetry, which layers aslant to them are
/// not alike on both sides of.
void check_specimen(const SpecimenCase& specimen, const YamlNode& node, const std::string&) {
  if (const auto why = why_no_specimen(specimen.sizes)) throw UserError(node.place, *why);
  if (specimen.sizes.layer_tilt_deg > 0 && specimen.sizes.test != BenchTest::piston_on_three_balls)
    throw UserError(
        node.find("layer_tilt_deg")->place,
        fmt::format("only a disc on three balls can be computed with layers at an angle: of a specimen in {} "
                    "one part stands for all, and its layers must lie alike in each. Leave 'layer_tilt_deg' "
                    "out; the bench test that a strength names may have it.",
                    bench_test_name(specimen.sizes.test)));
}

}  // namespace

Section<SpecimenCase> specimen_section() {
  using S = SpecimenCase;
  Section<S> all;
  all.fields = size_fields();
  all.fields.push_back(required(number("load_N", &S::load_N, above(0, 1000000), "Load of the test")));
  all.fields.push_back(required(material_field("material", &S::material, "What the specimen is made of")));
  all.fields.push_back(whole_number("cells_through_thickness", &S::cells_through_thickness, between(2, 16),
                                    "How fine to compute"));
  all.check = check_specimen;
  return all;
}

}  // namespace crownproof
