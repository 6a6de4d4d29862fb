// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/layer_words.hpp"

#include <cmath>

#include <fmt/format.h>

#include "io/record/run_record.hpp"
#include "io/words/names.hpp"
#include "solver/model/model.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/result/report.hpp"

namespace crownproof {
namespace {

std::string outcome_words(const RuleOutcome& outcome) {
  std::string text = std::isfinite(outcome.safety_factor)
                         ? fmt::format("it {} at a safety factor of {:.2f}",
                                       mechanism_words(outcome.mechanism), outcome.safety_factor)
                         : "there is no tension";
  if (outcome.probability)
    text += fmt::format(" (probability of fracture {:.2g} %)", 100 * *outcome.probability);
  return text;
}

}  // namespace

std::vector<std::string> layer_rule_sentences(const Model& model, const Report& report) {
  std::vector<std::string> sentences;
  for (const BiteReport& bite : report.bites) {
    if (!bite.layer_rule) continue;
    const LayerRule& rule = *bite.layer_rule;
    const bool verdict = changes_verdict(rule, model.requirement);
    if (!verdict && !changes_mechanism(rule)) continue;
    const LayerPlanes& planes = material_under_study(model).layer_planes;
    sentences.push_back(fmt::format(
        "{} '{}': the {} on what layers pressed shut do. If they hold, {}; if they slide against friction "
        "(coefficient {:g}), {}. The case lets them {}.",
        load_word(model), bite.name, verdict ? "verdict hangs" : "way of breaking hangs",
        outcome_words(rule.holding), planes.friction, outcome_words(rule.sliding),
        planes.slide ? "slide" : "hold"));
  }
  return sentences;
}

std::vector<std::string> layer_rule_of_study(std::span<const VariantRecord> variants) {
  std::vector<std::string> sentences;
  int n_bites = 0, n_ways = 0;
  for (const VariantRecord& v : variants)
    for (const BiteReport& bite : v.report.bites) {
      ++n_bites;
      if (!bite.layer_rule) continue;
      if (changes_verdict(*bite.layer_rule, v.model->requirement))
        sentences.push_back(
            fmt::format("{}, {} '{}': the verdict hangs on whether layers pressed shut hold or "
                        "slide; compare both with strength.layer_planes.slide.",
                        label_of(v), load_word(*v.model), bite.name));
      else if (changes_mechanism(*bite.layer_rule))
        ++n_ways;
    }
  if (n_ways > 0)
    sentences.push_back(
        fmt::format("In {} of {} bites the way of breaking, not the verdict, hangs on whether layers pressed "
                    "shut hold or slide (layer_rule in summary.json).",
                    n_ways, n_bites));
  return sentences;
}

}  // namespace crownproof
