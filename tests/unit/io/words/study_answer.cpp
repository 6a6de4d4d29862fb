// SPDX-License-Identifier: AGPL-3.0-or-later
#include <memory>

#include "io/record/run_record.hpp"
#include "io/words/study_answer.hpp"
#include "io/words/study_design.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"

#include <catch2/catch.hpp>

using namespace crownproof;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

VariantRecord variant(const std::string& material, double thickness_mm, Verdict verdict, double factor) {
  VariantRecord v;
  v.label = material + " " + std::to_string(thickness_mm);
  v.varied = {{"materials.crown", material}, {"crown.occlusal_thickness_mm", std::to_string(thickness_mm)}};
  v.asked_thickness_mm = thickness_mm;
  Model model;
  model.requirement.safety_factor = 2;
  v.model = std::make_shared<const Model>(model);
  BiteReport easy, hard;
  easy.name = "chewing";
  easy.verdict = Verdict::below;
  easy.tension.governing.safety_factor = 10 * factor;
  hard.name = "clench";
  hard.verdict = verdict;
  hard.tension.governing.safety_factor = factor;
  v.report.bites = {easy, hard};
  return v;
}

}  // namespace

TEST_CASE("The thinnest design that passes is named for each material", "[study_answer]") {
  const std::vector<VariantRecord> study{
      variant("stronger", 1.0, Verdict::below, 3.1), variant("stronger", 0.5, Verdict::above, 1.2),
      variant("stronger", 0.8, Verdict::below, 2.4), variant("weaker", 0.5, Verdict::above, 0.4),
      variant("weaker", 0.8, Verdict::above, 0.7),   variant("weaker", 1.0, Verdict::undecided, 1.9),
      variant("odd", 0.5, Verdict::below, 2.2),      variant("odd", 0.8, Verdict::above, 1.5)};
  const auto answers = study_answers(study);
  REQUIRE(answers.size() == 3);
  CHECK_THAT(answers[0], Contains("stronger") && Contains("is 0.8 mm (safety factor 2.40, bite 'clench')") &&
                             Contains("0.5 mm is above (safety factor 1.20"));
  CHECK_THAT(answers[1], Contains("weaker") && Contains("no thickness from 0.5 to 1 mm") &&
                             Contains("1 mm, is undecided (safety factor 1.90, bite 'clench')"));
  CHECK_THAT(answers[2], Contains("none thinner was tried") && Contains("instructions for use") &&
                             Contains("0.8 mm, though thicker, is above"));
}

TEST_CASE("The bite and the limit that decide are named together", "[study_answer]") {
  std::vector<VariantRecord> study{variant("one", 0.5, Verdict::below, 3),
                                   variant("one", 1, Verdict::below, 4)};
  // The gentler bite by tension is above by its probability of fracture.
  BiteReport& gentle = study[0].report.bites[0];
  gentle.verdict = Verdict::above;
  gentle.fracture_verdict = FractureVerdict{.allowed = 0.01, .probability = 0.08};
  gentle.fracture_verdict->decides = true;
  CHECK_THAT(
      study_answers(study)[0],
      Contains("is 1 mm (safety factor 4.00, bite 'clench')") &&
          Contains("0.5 mm is above (safety factor 30.00, probability of fracture 8.0 %, 1 % allowed, bite "
                   "'chewing')"));
}

TEST_CASE("A study of something else is ranked, a single case has no answer", "[study_answer]") {
  std::vector<VariantRecord> study{variant("weaker", 1, Verdict::above, 0.9),
                                   variant("stronger", 1, Verdict::below, 2.5)};
  for (VariantRecord& v : study) {
    v.varied.pop_back();
    v.label = v.varied[0].value;
  }
  const auto answers = study_answers(study);
  REQUIRE(answers.size() == 1);
  CHECK_THAT(answers[0], StartsWith("best first") && Contains("stronger 2.50, below; weaker 0.90, above"));
  study.pop_back();
  CHECK(study_answers(study).empty());
}

namespace {

/// Two designs that differ in one key.
std::vector<VariantRecord> two(const std::string& key, double first, double second) {
  std::vector<VariantRecord> study{variant("a", 1, first < 2 ? Verdict::above : Verdict::below, first),
                                   variant("b", 1, second < 2 ? Verdict::above : Verdict::below, second)};
  for (VariantRecord& v : study) {
    v.label = v.varied[0].value;
    v.varied = {{key, v.label}};
  }
  return study;
}

void give_probability(VariantRecord& v, double now) {
  for (BiteReport& bite : v.report.bites) bite.fracture.now.probability = now;
}

}  // namespace

TEST_CASE("Designs that their uncertainty does not tell apart are ties", "[study_answer]") {
  std::vector<VariantRecord> study = two("materials.crown", 2.50, 2.45);
  for (VariantRecord& v : study) v.report.bites[1].tension.governing.relative_uncertainty = 0.03;
  CHECK_THAT(study_answers(study)[0], Contains("b 2.45, below (not told apart from the one before)"));
  for (VariantRecord& v : study) v.report.bites[1].tension.governing.relative_uncertainty = 0.005;
  CHECK_THAT(study_answers(study)[0], !Contains("not told apart"));
}

TEST_CASE("Where no design is below, the ranking begins with that", "[study_answer]") {
  CHECK_THAT(study_answers(two("materials.crown", 1.2, 0.8))[0], StartsWith("none keeps every bite below"));
}

TEST_CASE("Criteria that rank differently are told", "[study_answer]") {
  std::vector<VariantRecord> study = two("materials.crown", 3.2, 2.4);
  give_probability(study[0], 0.0104);
  give_probability(study[1], 0.0059);
  CHECK_THAT(study_answers(study)[0],
             Contains("By probability of fracture today the order is another: b, a"));
  give_probability(study[1], 0.02);
  CHECK_THAT(study_answers(study)[0], !Contains("another"));
}

TEST_CASE("Strengths of unlike specimens are told, of unlike sizes too", "[study_answer]") {
  std::vector<VariantRecord> study = two("materials.crown", 2.5, 2.4);
  const auto measured_on = [](VariantRecord& v, const BenchSpecimen& specimen) {
    Model model = *v.model;
    model.materials = {{.region = "crown"}};
    model.materials[0].material.strength = MaterialStrength{};
    model.materials[0].material.strength->in_layer.specimen = std::make_shared<const BenchSpecimen>(specimen);
    v.model = std::make_shared<const Model>(model);
  };
  const BenchSpecimen bar{.width_mm = 4, .thickness_mm = 3, .span_mm = 40};
  const BenchSpecimen small{.width_mm = 2, .thickness_mm = 1.5, .span_mm = 20};
  const BenchSpecimen four{
      .test = BenchTest::bend_4_point, .width_mm = 4, .thickness_mm = 3, .span_mm = 40, .inner_span_mm = 20};
  measured_on(study[0], bar);
  measured_on(study[1], bar);
  CHECK_THAT(study_answers(study)[0], !Contains("unlike"));
  measured_on(study[1], small);
  CHECK_THAT(study_answers(study)[0], Contains("unlike specimens (3-point bending of unlike size)"));
  measured_on(study[1], four);
  CHECK_THAT(study_answers(study)[0], Contains("(3-point bending, 4-point bending)"));
}

TEST_CASE("What the patient or the test gives is not ranked", "[study_answer]") {
  const auto answers = study_answers(two("materials.die", 2.5, 3));
  REQUIRE(answers.size() == 1);
  CHECK_THAT(answers[0], Contains("given and not chosen") && !Contains("best first"));
  const auto cements = study_answers(two("materials.cement", 2.5, 3));
  REQUIRE(cements.size() == 2);
  CHECK_THAT(cements[0], !Contains("best first"));
  CHECK_THAT(cements[1], Contains("their bond is perfect"));
}

TEST_CASE("Every key is thickness, choice, given or cement", "[study_answer]") {
  CHECK(role_of("crown.occlusal_thickness_mm") == KeyRole::thickness);
  CHECK(role_of("crown.finish_line.width_mm") == KeyRole::choice);
  CHECK(role_of("build.tilt_deg") == KeyRole::choice);
  CHECK(role_of("bites[1].contacts[1].force_N") == KeyRole::given);
  CHECK(role_of("strength.years") == KeyRole::given);
  CHECK(role_of("crown.cement_thickness_um") == KeyRole::cement);
}
