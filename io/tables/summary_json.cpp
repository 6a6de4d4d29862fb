// SPDX-License-Identifier: AGPL-3.0-or-later
#include <cmath>

#include <nlohmann/json.hpp>

#include "io/record/run_record.hpp"
#include "io/tables/antagonist_json.hpp"
#include "io/tables/expected_json.hpp"
#include "io/tables/fracture_json.hpp"
#include "io/tables/layer_rule_json.hpp"
#include "io/tables/tables.hpp"
#include "io/text/version.hpp"
#include "io/words/bench_words.hpp"
#include "io/words/compared_words.hpp"
#include "io/words/limit_words.hpp"
#include "io/words/names.hpp"
#include "io/words/stage_words.hpp"
#include "io/words/study_answer.hpp"
#include "io/words/verdict_words.hpp"
#include "solver/accuracy/pass.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/elasticity/solve_report.hpp"
#include "solver/loads/contact_traction.hpp"
#include "solver/material/material.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/strength.hpp"
#include "solver/model/support.hpp"
#include "solver/result/report.hpp"
#include "solver/strength/zone_peak.hpp"

namespace crownproof {
namespace {

using Json = nlohmann::ordered_json;

/// JSON knows no infinity: null where there is no finite number.
Json number(double value) {
  return std::isfinite(value) ? Json(value) : Json(nullptr);
}

/// Null where nothing was measured.
Json positive(double value) {
  return value > 0 ? Json(value) : Json(nullptr);
}

Json vector(const Vec3& v) {
  return Json::array({v.x(), v.y(), v.z()});
}

Json shape(const VariantRecord& variant) {
  const ThicknessReport& measured = variant.report.thickness;
  Json landmarks = Json::array();
  for (const ThicknessAt& at : measured.landmarks)
    landmarks.push_back({{"name", at.name}, {"thickness_mm", at.thickness_mm}, {"at_mm", vector(at.point)}});
  return {
      {"asked_thickness_mm", variant.asked_thickness_mm ? Json(*variant.asked_thickness_mm) : Json(nullptr)},
      {"fossa_thickness_mm", positive(measured.fossa.thickness_mm)},
      {"table_thinnest_mm", positive(measured.table_thinnest.thickness_mm)},
      {"table_thickest_mm", positive(measured.table_thickest.thickness_mm)},
      {"smallest_thickness_mm", positive(measured.smallest.thickness_mm)},
      {"smallest_thickness_at_mm", vector(measured.smallest.point)},
      {"landmarks", landmarks}};
}

Json strength(const Strength& s) {
  return {{"characteristic_MPa", s.characteristic_MPa},
          {"weibull_modulus", positive(s.weibull_modulus)},
          {"compared_MPa", s.judged_MPa()}};
}

Json material(const RegionMaterial& m) {
  const ElasticConstants& e = m.material.elastic;
  Json json = {{"region", m.region},
               {"name", m.material.name},
               {"youngs_1_MPa", e.youngs_1},
               {"youngs_2_MPa", e.youngs_2},
               {"youngs_3_MPa", e.youngs_3},
               {"poisson_12", e.poisson_12},
               {"poisson_13", e.poisson_13},
               {"poisson_23", e.poisson_23},
               {"shear_12_MPa", e.shear_12},
               {"shear_13_MPa", e.shear_13},
               {"shear_23_MPa", e.shear_23},
               {"layered", m.layered},
               {"layer_normal", m.layered ? vector(m.axes.col(2)) : Json(nullptr)}};
  if (!m.material.note.empty()) json["note"] = m.material.note;
  if (!m.material.strength) return json;
  json["in_layer_strength"] = strength(m.material.strength->in_layer);
  if (m.material.strength->across_layer)
    json["across_layer_strength"] = strength(*m.material.strength->across_layer);
  if (m.layered && m.material.strength->across_layer) {
    json["strength_at_angles"] = angle_caveat();
    json["layer_planes"] = {{"shear_divisor", m.layer_planes.shear_divisor},
                            {"slide", m.layer_planes.slide},
                            {"friction_coefficient", m.layer_planes.friction}};
  }
  return json;
}

Json mesh(const MeshQuality& quality) {
  Json regions = Json::array();
  int cells = 0;
  for (const RegionQuality& r : quality.regions) {
    cells += r.cells;
    regions.push_back({{"region", r.region},
                       {"cells", r.cells},
                       {"volume_mm3", r.volume_mm3},
                       {"smallest_dihedral_deg", r.smallest_dihedral_deg},
                       {"largest_dihedral_deg", r.largest_dihedral_deg},
                       {"inverted_straight", r.inverted_straight},
                       {"inverted_curved", r.inverted_curved}});
  }
  return {{"nodes", quality.nodes},
          {"cells", cells},
          {"curved_cells", quality.curved_cells},
          {"regions", regions}};
}

Json solver(const VariantRecord& variant) {
  Json levels = Json::array();
  for (const SolverLevel& level : variant.report.levels)
    levels.push_back({{"name", level.name}, {"unknowns", level.unknowns}, {"nonzeros", level.nonzeros}});
  return {{"tolerance", variant.model->solver_tolerance}, {"levels", levels}};
}

Json contacts(const Bite& bite) {
  Json list = Json::array();
  for (const Contact& c : bite.contacts)
    list.push_back({{"at", c.at},
                    {"point_mm", vector(c.point)},
                    {"direction", vector(c.direction)},
                    {"force_N", c.force_N},
                    {"friction_needed", friction_needed(c.direction, c.surface_normal)},
                    {"radius_mm", c.radius_mm},
                    {"pressure", c.pressure == PressureShape::hertz ? "hertz" : "uniform"}});
  return list;
}

Json zone(const ZonePeak& peak) {
  return {{"zone", zone_name(peak.zone)},
          {"principal_MPa", peak.principal_MPa},
          {"principal_at_mm", vector(peak.at)},
          {"principal_direction", vector(peak.direction)},
          {"in_layer_MPa", peak.in_layer_MPa},
          {"across_layer_MPa", peak.across_layer_MPa},
          {"mechanism", mechanism_words(peak.mechanism)},
          {"tension_MPa", peak.tension_MPa},
          {"tension_at_mm", vector(peak.tension_at)},
          {"strength_MPa", peak.strength_MPa},
          {"safety_factor", number(peak.safety_factor)},
          {"relative_uncertainty", peak.relative_uncertainty},
          {"settling", settling_words(peak.settling)},
          {"cause", cause_words(peak)}};
}

/// The meshes that refinement made, coarse to fine. The memory held is no property of the case; the manifest
/// has it.
Json passes(const std::vector<Pass>& all) {
  Json list = Json::array();
  for (const Pass& pass : all) {
    Json tensions = Json::array(), sizes = Json::array();
    for (const std::vector<ZonePeak>& peaks : pass.peaks) {
      Json tension = Json::object(), size = Json::object();
      for (const ZonePeak& peak : peaks) {
        tension[zone_name(peak.zone)] = peak.tension_MPa;
        size[zone_name(peak.zone)] = peak.cell_size_mm;
      }
      tensions.push_back(tension);
      sizes.push_back(size);
    }
    Json probabilities = Json::array();
    for (const double risk : pass.risk) probabilities.push_back(-std::expm1(-risk));
    list.push_back({{"cells", pass.cells},
                    {"fracture_probability_by_bite", probabilities},
                    {"predicted_cells", pass.predicted_cells},
                    {"predicted_memory_GiB", pass.predicted_memory_GiB},
                    {"relative_energy_error", pass.energy_error},
                    {"tension_MPa_by_bite_and_zone", tensions},
                    {"cell_size_mm_by_bite_and_zone", sizes}});
  }
  return list;
}

Json balance(const Balance& b) {
  return {{"load_N", vector(b.load_N)},
          {"reaction_N", vector(b.reaction_N)},
          {"load_moment_Nmm", vector(b.load_moment_Nmm)},
          {"reaction_moment_Nmm", vector(b.reaction_moment_Nmm)},
          {"force_error", b.force_error},
          {"moment_error", b.moment_error},
          {"energy_error", b.energy_error}};
}

/// Null for a place that the body has not.
Json place(const std::optional<PlaceAnswer>& answer) {
  if (!answer) return nullptr;
  return {{"verdict", verdict_name(answer->verdict)},
          {"deciding", zone(answer->tension.deciding)},
          {"safety_factor", number(answer->tension.governing.safety_factor)},
          {"fracture_probability", answer->probability ? Json(*answer->probability) : Json(nullptr)},
          {"fracture_limit", fracture_verdict_json(answer->fracture)}};
}

Json bite(const Model& model, const BiteReport& result, std::size_t index) {
  Json zones = Json::array();
  for (const ZonePeak& peak : result.peaks) zones.push_back(zone(peak));
  return {
      {"name", result.name},
      {"contacts", index < model.bites.size() ? contacts(model.bites[index]) : Json::array()},
      {"resultant_N", index < model.bites.size() ? vector(resultant_N(model.bites[index])) : Json(nullptr)},
      {"antagonist", index < model.bites.size() ? antagonist_json(model.bites[index]) : Json(nullptr)},
      {"verdict", verdict_name(result.verdict)},
      {"explanation", explanation(result, load_word(model))},
      {"governing", zone(result.tension.governing)},
      {"bulk", place(result.bulk)},
      {"contact", place(result.contact)},
      {"zones", zones},
      {"fracture", fracture_json(result.fracture)},
      {"fracture_limit", fracture_verdict_json(result.fracture_verdict)},
      {"layer_rule", layer_rule_json(result.layer_rule, model.requirement)},
      {"solve",
       {{"converged", result.solve.converged},
        {"iterations", result.solve.iterations},
        {"relative_residual", result.solve.relative_residual}}},
      {"balance", balance(result.balance)}};
}

/// Null for a crown or a flat stack.
Json specimen(const std::optional<SpecimenResult>& s) {
  if (!s) return nullptr;
  Json json = {
      {"test", bench_test_name(s->test)},
      {"load_N", s->load_N},
      {"formula_MPa", s->formula_MPa},
      {"field_MPa", s->field_MPa},
      {"known_true_over_formula", s->true_over_formula ? Json(*s->true_over_formula) : Json(nullptr)},
      {"bias", formula_bias_words(s->test, s->true_over_formula)}};
  if (s->sizes)
    json["effective_sizes"] = {{"weibull_modulus", s->sizes->modulus},
                               {"field_volume_mm3", s->sizes->field_volume_mm3},
                               {"formula_volume_mm3", s->sizes->formula_volume_mm3},
                               {"field_area_mm2", s->sizes->field_area_mm2},
                               {"formula_area_mm2", s->sizes->formula_area_mm2}};
  return json;
}

Json variant(const VariantRecord& record) {
  Json varied = Json::object(), materials = Json::array(), supports = Json::array(), bites = Json::array();
  for (const VariedValue& v : record.varied) varied[v.key] = v.value;
  for (const RegionMaterial& m : record.model->materials) materials.push_back(material(m));
  for (const Support& s : record.model->supports)
    supports.push_back({{"face", s.face}, {"hold_x", s.hold_x}, {"hold_y", s.hold_y}, {"hold_z", s.hold_z}});
  for (std::size_t b = 0; b < record.report.bites.size(); ++b)
    bites.push_back(bite(*record.model, record.report.bites[b], b));
  return {{"label", label_of(record)},
          {"varied", varied},
          {"shape", shape(record)},
          {"specimen", specimen(record.report.specimen)},
          {"materials", materials},
          {"supports", supports},
          {"required_safety_factor", record.model->requirement.safety_factor},
          {"compared_with", compared_sentences(*record.model)},
          {"mesh", mesh(record.report.quality)},
          {"solver", solver(record)},
          {"passes", passes(record.report.passes)},
          {"why_stopped", stop_words(record.report.stop)},
          {"limits", limit_sentences(record.report.limits)},
          {"expected", expected_json(record)},
          {"bites", bites}};
}

}  // namespace

std::string summary_json(const std::string& title, std::span<const VariantRecord> variants) {
  Json list = Json::array();
  for (const VariantRecord& record : variants) list.push_back(variant(record));
  const Json all = {{"schema", "crownproof summary"},
                    {"schema_version", summary_schema_version},
                    {"caution", caution()},
                    {"title", title},
                    {"answers", study_answers(variants)},
                    {"variants", list}};
  return all.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace crownproof
