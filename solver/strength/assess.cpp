// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/assess.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <iterator>
#include <map>

#include <fmt/format.h>

#include "mesh/error.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/strength/breaking.hpp"

namespace crownproof {
namespace {

/// The tension that decides in the way of breaking the peak names.
double deciding_tension(const RegionMaterial& material, const ZonePeak& peak, const Voigt& stress) {
  const Tension tension = tension_of(material, stress);
  if (peak.mechanism == "opens between layers") return tension.across_layer;
  return material.layered ? tension.in_layer : tension.principal;
}

/// Takes a node into the peak of its zone.
void include(ZonePeak& peak, int node, const Vec3& at, const RegionMaterial& material, const Voigt& stress) {
  const PrincipalStress principal = principal_stress(stress);
  const Tension tension = tension_of(material, stress);
  const bool first = peak.node < 0;
  if (first || principal.values[0] > peak.principal_MPa) {
    peak.principal_MPa = principal.values[0];
    peak.at = at;
    peak.direction = principal.directions.col(0);
  }
  peak.in_layer_MPa = first ? tension.in_layer : std::max(peak.in_layer_MPa, tension.in_layer);
  peak.across_layer_MPa =
      first ? tension.across_layer : std::max(peak.across_layer_MPa, tension.across_layer);
  const Breaking way = weakest_way(material, tension);
  if (!first && way.safety_factor() >= peak.safety_factor) return;
  peak.node = node;
  peak.safety_factor = way.safety_factor();
  peak.mechanism = way.mechanism;
  peak.tension_MPa = way.tension_MPa;
  peak.strength_MPa = way.strength_MPa;
}

Verdict verdict_of(const ZonePeak& peak, double required) {
  const double u = peak.relative_uncertainty;
  if (peak.safety_factor / (1 + u) >= required) return Verdict::below;
  return u < 1 && peak.safety_factor / (1 - u) < required ? Verdict::above : Verdict::undecided;
}

std::string place_words(Zone zone) {
  switch (zone) {
    case Zone::contact:
      return "at the contact";
    case Zone::occlusal:
      return "on the occlusal surface";
    case Zone::axial:
      return "on the axial wall";
    case Zone::finish_line:
      return "at the finish line";
    case Zone::intaglio:
      return "on the intaglio (the bonded inside)";
    case Zone::surface:
      return "at the surface";
    case Zone::interior:
      break;
  }
  return "inside the wall";
}

/// A band from one mesh alone, a rule of thumb: on flat stacks with exact answers the true error was up
/// to 2.5 times the scatter of the cells and 0.8 to 1.7 %, so three times the scatter and at least 3 % are
/// stated.
double one_mesh_band(double scatter) {
  return std::max(0.03, 3 * scatter);
}

/// Where one mesh cannot show whether the peak settles, the reader must know.
std::string caveat(const ZonePeak& peak) {
  const Zone zone = peak.zone;
  if (peak.settling != Settling::one_pass) return {};
  if (zone == Zone::contact)
    return " The edge of a contact patch is local: it depends on how the load is spread.";
  if (zone == Zone::finish_line || zone == Zone::intaglio)
    return " At a sharp bonded edge the tension grows as cells shrink.";
  return {};
}

std::string explain(const ZonePeak& peak, Verdict verdict, double required, const std::string& load) {
  if (!(peak.tension_MPa > no_tension_MPa))
    return fmt::format(
        "{}: no tension anywhere in the body under study; ceramics do not break in pure "
        "compression of this size.",
        load);
  const std::string figures = fmt::format(
      "{:.0f} MPa within {:.0f} % {}; the material {} at {:.0f} MPa. It carries {:.2f} times this load, "
      "{:.2f} asked.",
      peak.tension_MPa, shown_percent(peak.relative_uncertainty), place_words(peak.zone), peak.mechanism,
      peak.strength_MPa, peak.safety_factor, required);
  switch (verdict) {
    case Verdict::below:
      return fmt::format("{} is below the strength: {}{}", load, figures, caveat(peak));
    case Verdict::above:
      return fmt::format("{} is above what is allowed: {}{}", load, figures, caveat(peak));
    case Verdict::undecided:
      break;
  }
  return fmt::format("{} is undecided: {} Too near to tell with these cells; a finer mesh narrows it.{}",
                     load, figures, caveat(peak));
}

/// What helps where cells do not.
std::string remedy(Zone zone) {
  if (zone == Zone::contact)
    return "give the contact the size of the facet that really touches, or measure the load on a specimen.";
  if (zone == Zone::finish_line)
    return "choose a rounder finish line or a thicker margin, or break such crowns on the bench.";
  return "round the edge or thicken the wall there, or break such crowns on the bench.";
}

const ZonePeak& weakest(const std::vector<ZonePeak>& peaks) {
  return *std::min_element(peaks.begin(), peaks.end(), [](const ZonePeak& a, const ZonePeak& b) {
    return a.safety_factor < b.safety_factor;
  });
}

/// No number can be believed where a peak does not settle, so it can neither clear a bite nor condemn it. But
/// where even the finest mesh, which shows too little, comes near the limit, "below" would be a guess.
bool forbids_below(const ZonePeak& peak, double required) {
  return peak.settling == Settling::does_not_settle && verdict_of(peak, required) != Verdict::below;
}

/// What is said of a peak that no mesh can pin down. `decides`: it alone keeps the bite from below.
std::string unsettled_words(const ZonePeak& peak, double required, bool decides) {
  const std::string place = place_words(peak.zone);
  if (!decides)
    return fmt::format(
        " No number can be given for the tension {} ({}); on the finest mesh the safety factor there is "
        "{:.2f}.",
        place, peak.cause, peak.safety_factor);
  return fmt::format(
      " No number can be given for the tension {} ({}), and on the finest mesh it leaves a safety factor of "
      "only "
      "{:.2f}, {:.2f} asked. More cells will not decide this: {}",
      place, peak.cause, peak.safety_factor, required, remedy(peak.zone));
}

/// The words of a bite that unsettled peaks alone keep from being below.
std::string held_back(const ZonePeak& elsewhere, double required, const std::string& load) {
  return fmt::format(
      "{} is undecided. Where the stress settles it is below the strength: {:.0f} MPa {}; it carries "
      "{:.2f} times this load, {:.2f} asked.",
      load, elsewhere.tension_MPa, place_words(elsewhere.zone), elsewhere.safety_factor, required);
}

}  // namespace

const RegionMaterial& material_under_study(const Model& model) {
  const std::string& region = model.domain.outer_region;
  const auto found = std::find_if(model.materials.begin(), model.materials.end(),
                                  [&](const RegionMaterial& m) { return m.region == region; });
  if (found == model.materials.end()) throw ModelError(fmt::format("The {} has no material.", region));
  if (!found->material.strength)
    throw ModelError(fmt::format(
        "The material of the {} ('{}') has no strength, so no verdict can be given; add its characteristic "
        "strength in MPa.",
        region, found->material.name));
  return *found;
}

std::vector<ZonePeak> zone_peaks(const TetMesh& mesh, const std::string& region,
                                 const RegionMaterial& material, const std::vector<Zone>& zones,
                                 const RegionStress& stress) {
  const int r = mesh.region_index(region);
  assert(r >= 0);
  std::map<Zone, ZonePeak> by_zone;
  for (std::size_t i = 0; i < stress.nodes[r].size(); ++i) {
    const int node = stress.nodes[r][i];
    ZonePeak& peak = by_zone[zones[node]];
    peak.zone = zones[node];
    include(peak, node, mesh.nodes[node], material, stress.stress[r][i]);
  }
  std::vector<ZonePeak> peaks;
  for (const auto& [zone, peak] : by_zone) peaks.push_back(peak);
  std::stable_sort(peaks.begin(), peaks.end(),
                   [](const ZonePeak& a, const ZonePeak& b) { return a.principal_MPa > b.principal_MPa; });
  return peaks;
}

double peak_spread(const TetMesh& mesh, const Stiffness& stiffness, const Eigen::VectorXd& displacement,
                   const std::string& region, const RegionMaterial& material, const ZonePeak& peak) {
  if (!(peak.tension_MPa > 0)) return 0;
  const int r = mesh.region_index(region);
  double squares = 0;
  int count = 0;
  for (int cell = 0; cell < mesh.n_cells(); ++cell) {
    const auto& nodes = mesh.cells[cell];
    const auto place = std::find(nodes.begin(), nodes.end(), peak.node) - nodes.begin();
    if (mesh.region[cell] != r || place == 10) continue;
    Barycentric at{};
    if (place < 4)
      at[place] = 1;
    else
      at[tet_edges[place - 4][0]] = at[tet_edges[place - 4][1]] = 0.5;
    CellNodes u;
    for (int a = 0; a < 10; ++a) u.col(a) = displacement.segment<3>(3 * nodes[a]);
    const Mat3 gradient = u * map_cell(cell_positions(mesh, cell), at).gradients;
    const Voigt raw = stiffness * strain_of_gradient(gradient);
    squares += std::pow(deciding_tension(material, peak, raw) - peak.tension_MPa, 2);
    ++count;
  }
  return count > 0 ? std::sqrt(squares / count) / peak.tension_MPa : 0;
}

std::string load_name(const Requirement& requirement, const std::string& bite) {
  return fmt::format("{} '{}'", requirement.load_word, bite);
}

Assessment judge(std::vector<ZonePeak> peaks, const Requirement& requirement, const std::string& bite) {
  assert(!peaks.empty());
  const double required = requirement.safety_factor;
  const std::string load = load_name(requirement, bite);
  std::vector<ZonePeak> settled;
  std::copy_if(peaks.begin(), peaks.end(), std::back_inserter(settled),
               [](const ZonePeak& p) { return p.settling != Settling::does_not_settle; });
  Assessment result;
  result.governing = weakest(settled.empty() ? peaks : settled);
  // The worst verdict of any zone is the verdict of the bite: above, then undecided, then below.
  ZonePeak deciding = result.governing;
  result.verdict = settled.empty() ? Verdict::undecided : Verdict::below;
  for (const Verdict worst : {Verdict::above, Verdict::undecided}) {
    std::vector<ZonePeak> such;
    for (const ZonePeak& peak : settled)
      if (verdict_of(peak, required) == worst) such.push_back(peak);
    if (such.empty()) continue;
    result.verdict = worst;
    deciding = weakest(such);
    break;
  }
  const bool doubt = std::any_of(peaks.begin(), peaks.end(),
                                 [&](const ZonePeak& peak) { return forbids_below(peak, required); });
  if (settled.empty()) {
    result.explanation = fmt::format("{} is undecided: no peak settles as cells shrink.", load);
  } else if (doubt && result.verdict == Verdict::below) {
    result.verdict = Verdict::undecided;
    result.explanation = held_back(deciding, required, load);
  } else {
    result.explanation = explain(deciding, result.verdict, required, load);
  }
  for (const ZonePeak& peak : peaks)
    if (peak.settling == Settling::does_not_settle &&
        (forbids_below(peak, required) || peak.safety_factor < result.governing.safety_factor))
      result.explanation +=
          unsettled_words(peak, required, forbids_below(peak, required) && result.verdict != Verdict::above);
  result.peaks = std::move(peaks);
  return result;
}

Assessment assess(const Model& model, const Result& result, const BiteResult& bite) {
  const std::string& region = model.domain.outer_region;
  const RegionMaterial& material = material_under_study(model);
  const Stiffness& stiffness = result.region_stiffness[result.mesh.region_index(region)];
  std::vector<ZonePeak> peaks = zone_peaks(result.mesh, region, material, result.node_zone, bite.stress);
  for (ZonePeak& peak : peaks) {
    peak.cell_scatter = peak_spread(result.mesh, stiffness, bite.displacement, region, material, peak);
    peak.relative_uncertainty = one_mesh_band(peak.cell_scatter);
  }
  return judge(std::move(peaks), model.requirement, bite.name);
}

}  // namespace crownproof
