// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/describe_case.hpp"

#include <fmt/ranges.h>

#include "io/materials/describe_material.hpp"
#include "io/text/text_layout.hpp"
#include "io/words/antagonist_words.hpp"
#include "io/words/bench_words.hpp"
#include "io/words/compared_words.hpp"
#include "io/words/friction_note.hpp"
#include "mesh/shape/domain.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/specimen_formulas.hpp"
#include "solver/loads/contact_traction.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/model.hpp"
#include "solver/model/requirement.hpp"

namespace crownproof {
namespace {

/// A coordinate for reading: two decimals and never "-0.00".
double shown(double value) {
  return std::abs(value) < 0.005 ? 0.0 : value;
}

std::string point_text(const Vec3& p) {
  return fmt::format("({:.2f}, {:.2f}, {:.2f})", shown(p.x()), shown(p.y()), shown(p.z()));
}

std::string material_lines(const std::string& region, const Placed<MaterialChoice>& choice,
                           const MaterialsLibrary& library) {
  const MaterialData& material = material_of(choice, library);
  std::string text = fmt::format("  {:<8} {}: {}\n", region, material.name, elastic_words(material));
  const std::string strength = strength_words(material);
  if (!strength.empty()) text += fmt::format("  {:<8} strength {}\n", "", strength);
  if (material.porosity) text += fmt::format("  {:<8} {}\n", "", porosity_words(*material.porosity));
  return text;
}

std::string parts_text(const CaseFile& c, const Domain& domain, const MaterialsLibrary& library) {
  std::string text = "Parts\n" + material_lines("crown", *c.materials.crown, library);
  if (!domain.layers.empty()) text += material_lines("cement", *c.materials.cement, library);
  text += material_lines("die", *c.materials.die, library);
  const MaterialData& crown = material_of(*c.materials.crown, library);
  if (crown.layered || !crown.youngs_modulus_GPa)
    text += fmt::format("  layers   normal tilted {} degrees from the path of insertion\n", c.build.tilt_deg);
  else if (c.build.tilt_deg != 0)
    text += "  layers   the crown's material is not layered: 'build' changes nothing\n";
  return text;
}

std::string bite_text(const Bite& bite) {
  if (bite.antagonist)
    return fmt::format("  {}: {}, along {}, at {} mm\n", bite.name, antagonist_words(*bite.antagonist),
                       point_text(bite.antagonist->ball.direction), point_text(bite.antagonist->aim));
  double magnitudes = 0;
  std::string lines;
  for (const Contact& contact : bite.contacts) {
    magnitudes += contact.force_N;
    lines += fmt::format(
        "    {:<32} {:>7.1f} N  along {}  at {} mm  radius {} mm, {}, "
        "friction {:.2f}\n",
        contact.at, contact.force_N, point_text(contact.direction), point_text(contact.point),
        contact.radius_mm, contact.pressure == PressureShape::hertz ? "hertz" : "uniform",
        friction_needed(contact.direction, contact.surface_normal));
  }
  const Vec3 resultant = resultant_N(bite);
  return fmt::format("  {}: resultant {:.1f} N {}, sum of magnitudes {:.1f} N\n", bite.name, resultant.norm(),
                     point_text(resultant), magnitudes) +
         lines;
}

/// What the verdict will ask, and of which strengths.
std::string verdict_text(const Model& model) {
  const Requirement& requirement = model.requirement;
  std::string text =
      fmt::format("Verdict\n  strength / highest tension must be at least {}\n", requirement.safety_factor);
  for (const std::string& sentence : compared_sentences(model)) text += wrapped(sentence, 100, "  ", "  ");
  if (requirement.allowed_fracture_probability)
    text += fmt::format("  probability of fracture{} must be at most {:g} %\n",
                        requirement.chewing.years > 0
                            ? fmt::format(" within {:g} years of chewing", requirement.chewing.years)
                            : "",
                        100 * *requirement.allowed_fracture_probability);
  return text;
}

std::string describe_specimen(const Model& model, const SpecimenCase& c, const MaterialsLibrary& library) {
  const BenchSpecimen& s = c.sizes;
  return "Parts\n" + material_lines("specimen", *c.material, library) +
         fmt::format("Test\n  {} with {:g} N; the standard's formula gives {:.1f} MPa\n  {}\n",
                     bench_test_name(s.test), c.load_N, nominal_stress(s, c.load_N),
                     formula_bias_words(s.test, true_over_formula(s))) +
         fmt::format("Mesh\n  {} cells through the thickness\n", c.cells_through_thickness) +
         verdict_text(model);
}

}  // namespace

std::string describe_model(const Model& model, const CaseFile& case_file, const MaterialsLibrary& library) {
  if (case_file.specimen) return describe_specimen(model, case_file.specimen->value, library);
  std::string text = parts_text(case_file, *model.domain, library);
  if (const auto& heights = model.domain->heights)
    text +=
        fmt::format("Heights above the finish line\n  crown {:.2f} mm, abutment {:.2f} mm below the fossa\n",
                    heights->crown_mm, heights->abutment_mm);
  text +=
      "Support\n  the base of the die is held still\nBites (x mesial to distal, y lingual to buccal, z "
      "upward)\n";
  for (const Bite& bite : model.bites) text += bite_text(bite);
  for (const std::string& note : friction_notes(model)) text += wrapped(note, 100, "  ", "  ");
  std::vector<std::string> names;
  for (const Landmark& landmark : model.domain->landmarks) names.push_back(landmark.name);
  text += fmt::format("Landmarks\n  {}\n", fmt::join(names, ", "));
  text += model.accuracy.stress_percent > 0
              ? fmt::format(
                    "Mesh\n  refined until the deciding tensions are known within {:g} %, at most {} cells\n",
                    model.accuracy.stress_percent, model.accuracy.max_cells)
              : fmt::format("Mesh\n  about {} cells\n", case_file.accuracy.cells);
  return text + verdict_text(model);
}

std::string describe_variants(const Case& whole) {
  std::string text = fmt::format("Study: {} variants; shown above is the first\n", whole.variants.size());
  for (const CaseVariant& variant : whole.variants) text += fmt::format("  {}\n", variant.label);
  return text;
}

}  // namespace crownproof
