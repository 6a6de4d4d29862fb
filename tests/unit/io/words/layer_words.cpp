// SPDX-License-Identifier: AGPL-3.0-or-later
#include <memory>

#include "io/record/run_record.hpp"
#include "io/words/layer_words.hpp"
#include "solver/model/model.hpp"
#include "solver/strength/mechanism.hpp"

#include <catch2/catch.hpp>

using namespace crownproof;
using Catch::Contains;

namespace {

/// A layered crown whose bite breaks at these safety factors if layers pressed shut hold or slide.
VariantRecord variant(const std::string& label, double holding, double sliding) {
  VariantRecord v;
  v.label = label;
  Model model;
  model.requirement.safety_factor = 2;
  v.model = std::make_shared<const Model>(model);
  BiteReport bite;
  bite.name = "clench";
  bite.layer_rule = LayerRule{};
  bite.layer_rule->holding.safety_factor = holding;
  bite.layer_rule->sliding.safety_factor = sliding;
  bite.layer_rule->sliding.mechanism = Mechanism::slides_between_layers;
  v.report.bites = {bite};
  return v;
}

}  // namespace

TEST_CASE("A study names the variant whose verdict hangs on the layer rule and counts the rest",
          "[layer_words]") {
  const std::vector<VariantRecord> study{variant("0.6 mm", 2.5, 1.5), variant("1.0 mm", 5, 4)};
  const auto sentences = layer_rule_of_study(study);
  REQUIRE(sentences.size() == 2);
  CHECK_THAT(sentences[0], Contains("0.6 mm, Bite 'clench': the verdict hangs"));
  CHECK_THAT(sentences[1], Contains("In 1 of 2 bites the way of breaking, not the verdict"));
}

TEST_CASE("Where the rule does not matter nothing is said", "[layer_words]") {
  VariantRecord v = variant("1.0 mm", 5, 5);
  v.report.bites[0].layer_rule->sliding.mechanism = v.report.bites[0].layer_rule->holding.mechanism;
  CHECK(layer_rule_of_study({{v, v}}).empty());
}
