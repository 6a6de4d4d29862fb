// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/summary.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <unistd.h>

#include "io/record/run_record.hpp"
#include "io/text/text_layout.hpp"
#include "io/text/version.hpp"
#include "io/words/answer_words.hpp"
#include "io/words/antagonist_words.hpp"
#include "io/words/compared_words.hpp"
#include "io/words/expected_words.hpp"
#include "io/words/fracture_words.hpp"
#include "io/words/friction_note.hpp"
#include "io/words/layer_words.hpp"
#include "io/words/limit_words.hpp"
#include "io/words/names.hpp"
#include "io/words/pass_words.hpp"
#include "io/words/percent_words.hpp"
#include "io/words/specimen_words.hpp"
#include "io/words/study_answer.hpp"
#include "io/words/study_table.hpp"
#include "io/words/summary_layout.hpp"
#include "io/words/thickness_words.hpp"
#include "io/words/verdict_words.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/requirement.hpp"
#include "solver/model/strength.hpp"
#include "solver/result/report.hpp"
#include "solver/strength/zone_peak.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {
namespace {

std::string shape_line(const VariantRecord& v) {
  const std::string text = thickness_words(v.report.thickness, v.asked_thickness_mm);
  return text.empty() ? "" : entry("Shape", text);
}

std::string note_words(const RegionMaterial& m) {
  return m.material.note.empty() ? "" : " (" + m.material.note + ")";
}

/// A material that the study changes is named in its rows instead.
std::string material_lines(std::span<const VariantRecord> variants) {
  std::string text;
  const std::vector<RegionMaterial>& first = variants.front().model->materials;
  for (std::size_t i = 0; i < first.size(); ++i) {
    const bool same = std::all_of(variants.begin(), variants.end(), [&](const VariantRecord& v) {
      return i < v.model->materials.size() && v.model->materials[i].material.name == first[i].material.name &&
             v.model->materials[i].material.note == first[i].material.note;
    });
    text += fmt::format("{}{}: {}", text.empty() ? "" : "; ", first[i].region,
                        same ? first[i].material.name + note_words(first[i]) : "varied");
  }
  return entry("Materials", text);
}

/// How the years of a study are counted, where any are asked for; empty where they are counted differently.
std::string years_of(std::span<const VariantRecord> variants) {
  std::string words;
  for (const VariantRecord& v : variants) {
    const Chewing& chewing = v.model->requirement.chewing;
    if (!(chewing.years > 0)) continue;
    const std::string here = " Years are of " + chewing_words(chewing) + ".";
    if (!words.empty() && words != here) return "";
    words = here;
  }
  return words;
}

/// What tensions and probabilities are held against; a study that changes the strengths has them in its rows.
std::string limits_lines(std::span<const VariantRecord> variants) {
  const Model& first = *variants.front().model;
  const std::vector<std::string> sentences = compared_sentences(first);
  const bool same = std::all_of(variants.begin(), variants.end(), [&](const VariantRecord& v) {
    return compared_sentences(*v.model) == sentences;
  });
  const std::string text = entry(
      "Strength", same ? fmt::format("{}", fmt::join(sentences, " "))
                       : "Varied: the tables hold what each tension is compared with." + years_of(variants));
  const std::string allowed = allowed_words(first.requirement);
  return variants.size() > 1 || allowed.empty() ? text : text + entry("Allowed", allowed + ".");
}

std::string mesh_line(const VariantRecord& v) {
  int cells = 0, iterations = 0;
  double residual = 0;
  for (const RegionQuality& r : v.report.quality.regions) cells += r.cells;
  for (const BiteReport& b : v.report.bites) {
    iterations = std::max(iterations, b.solve.iterations);
    residual = std::max(residual, b.solve.relative_residual);
  }
  return entry("Mesh", fmt::format("{} cells, {} nodes; solved in {} iterations to {:.0e}", grouped(cells),
                                   grouped(v.report.quality.nodes), iterations, residual));
}

/// One contact with its place; of more, their number, their resultant and the sum of their forces.
std::string loads_of(const Model& model, std::size_t bite) {
  if (bite < model.bites.size() && model.bites[bite].antagonist)
    return antagonist_words(*model.bites[bite].antagonist);
  if (bite >= model.bites.size() || model.bites[bite].contacts.empty()) return "";
  const std::vector<Contact>& contacts = model.bites[bite].contacts;
  if (contacts.size() == 1) return fmt::format("{:g} N, {}", contacts[0].force_N, contacts[0].at);
  double sum = 0;
  for (const Contact& c : contacts) sum += c.force_N;
  const double resultant = resultant_N(model.bites[bite]).norm();
  if (resultant > 0.995 * sum) return fmt::format("{} contacts, {:.4g} N", contacts.size(), resultant);
  return fmt::format("{} contacts, resultant {:.4g} N ({:.4g} N as a sum of magnitudes)", contacts.size(),
                     resultant, sum);
}

/// How far the meshes know a tension; a band wider than the value itself says only that it is not known.
std::string band_cell(const ZonePeak& peak) {
  if (peak.settling == Settling::does_not_settle) return "grows";
  if (peak.relative_uncertainty > 1) return ">100%";
  return fmt::format("+-{:.0f}%", shown_percent(peak.relative_uncertainty));
}

/// The zone's highest first principal stress, then the tension that decides there; a dash: there is none.
std::string zone_row(const ZonePeak& peak, bool governs) {
  if (!(peak.tension_MPa > no_tension_MPa))
    return fmt::format("  {:<13}{:>8.0f}{:>8}\n", zone_name(peak.zone), peak.principal_MPa, "-");
  return fmt::format("{} {:<13}{:>8.0f}{:>8.0f} {:<6}{:>8.0f}{:>8}  {}\n", governs ? '>' : ' ',
                     zone_name(peak.zone), peak.principal_MPa, peak.tension_MPa, band_cell(peak),
                     peak.strength_MPa, factor_cell(peak.safety_factor), mechanism_words(peak.mechanism));
}

/// Begins with the verdict; the bite's name stands above it.
std::string verdict_lines(const BiteReport& bite, bool colour) {
  std::string text = entry("Verdict", verdict_words(bite));
  const std::string word = verdict_name(bite.verdict);
  const std::size_t place = text.find(word);
  if (!colour || place == std::string::npos) return text;
  return text.replace(place, word.size(), verdict_word(bite.verdict, true));
}

std::string bite_block(const Model& model, const BiteReport& bite, std::size_t index, bool colour) {
  std::string text(1, '\n');
  text += entry(load_word(model), fmt::format("{}: {}", bite.name, loads_of(model, index)));
  if (index < model.bites.size() && model.bites[index].antagonist)
    for (const std::string& sentence : touch_sentences(*model.bites[index].antagonist))
      text += entry("Touches", sentence);
  text += fmt::format("  {:<13}{:>8}{:>8} {:<6}{:>8}{:>8}  {}\n", "zone, MPa", "highest", "decides", "",
                      "strength", "safety", "way of breaking");
  for (const ZonePeak& peak : bite.peaks) text += zone_row(peak, peak.zone == bite.tension.governing.zone);
  text += verdict_lines(bite, colour);
  if (bite.bulk) text += entry("Bulk", answer_words(*bite.bulk, false));
  if (bite.contact) text += entry("Contact", answer_words(*bite.contact, true));
  return text + entry("Fracture", fracture_words(bite.fracture));
}

/// Entries for the sentences that `of` says of the variants, each sentence once.
template <class Sentences>
std::string each_once(const std::string& label, std::span<const VariantRecord> variants,
                      const Sentences& of) {
  std::vector<std::string> told;
  std::string text;
  for (const VariantRecord& v : variants)
    for (const std::string& sentence : of(v)) {
      if (std::find(told.begin(), told.end(), sentence) != told.end()) continue;
      told.push_back(sentence);
      text += entry(label, sentence);
    }
  return text;
}

/// What is assumed of layers that lie aslant to the tension.
std::string layers_line(std::span<const VariantRecord> variants) {
  for (const VariantRecord& v : variants)
    for (const RegionMaterial& m : v.model->materials)
      if (m.layered && m.material.strength && m.material.strength->across_layer)
        return entry("Layers", angle_caveat());
  return "";
}

/// Where the verdict or the way of breaking hangs on what layers pressed shut do.
std::string layer_rule_lines(std::span<const VariantRecord> variants) {
  if (variants.empty()) return "";
  const VariantRecord& first = variants.front();
  const std::vector<std::string> sentences =
      variants.size() > 1 ? layer_rule_of_study(variants) : layer_rule_sentences(*first.model, first.report);
  std::string text;
  for (const std::string& sentence : sentences) text += entry("Layers", sentence);
  return text;
}

std::string ending(std::span<const VariantRecord> variants, const WrittenResults& written) {
  std::string text(1, '\n');
  text +=
      each_once("Limit", variants, [](const VariantRecord& v) { return limit_sentences(v.report.limits); }) +
      layers_line(variants);
  text += layer_rule_lines(variants);
  if (!written.folder.empty()) {
    const auto pictures = std::count_if(written.files.begin(), written.files.end(), [](const std::string& f) {
      return f.ends_with(".png") || f.ends_with(".svg") || f.ends_with(".pdf");
    });
    text += entry("Results", fmt::format("{} ({} files, {} of them pictures)", written.folder.string(),
                                         written.files.size(), pictures));
  }
  for (const std::string& warning : written.warnings) text += entry("Note", warning);
  return text + wrapped(caution(), summary_width, "", "");
}

}  // namespace

bool colour_wanted() {
  const char* const refused = std::getenv("NO_COLOR");
  return ::isatty(STDOUT_FILENO) == 1 && (refused == nullptr || *refused == '\0');
}

std::string terminal_summary(const std::string& title, std::span<const VariantRecord> variants,
                             const WrittenResults& written, bool colour) {
  std::string text = wrapped(title, summary_width, colour ? "\033[1m" : "", "") + (colour ? "\033[0m" : "");
  if (variants.size() == 1) {
    const VariantRecord& v = variants.front();
    text += shape_line(v) + material_lines(variants) + limits_lines(variants) + mesh_line(v);
    for (std::size_t b = 0; b < v.report.bites.size(); ++b)
      text += bite_block(*v.model, v.report.bites[b], b, colour);
    text += pass_table(v.report, v.pass_memory_GiB);
    if (v.report.specimen) text += entry("Formula", specimen_words(*v.report.specimen));
  } else if (!variants.empty()) {
    text += material_lines(variants) + limits_lines(variants) + study_table(variants, colour) + '\n';
    for (const std::string& answer : study_answers(variants)) text += entry("Answer", answer);
    std::vector<const Model*> models;
    for (const VariantRecord& v : variants) models.push_back(v.model.get());
    for (const std::string& sentence : worst_pressure(models)) text += entry("Touches", sentence);
  }
  text += expected_table(variants);
  text += each_once("Note", variants, [](const VariantRecord& v) { return friction_notes(*v.model); });
  text += each_once("Note", variants, [](const VariantRecord& v) { return unworn_notes(*v.model); });
  return text + ending(variants, written);
}

}  // namespace crownproof
