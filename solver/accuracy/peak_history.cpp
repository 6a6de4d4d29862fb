// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/accuracy/peak_history.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "mesh/tet_mesh.hpp"
#include "solver/convergence/peak_uncertainty.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/region_surface.hpp"
#include "solver/model/requirement.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/zone_peak.hpp"
#include "solver/stress/principal.hpp"

namespace crownproof {
namespace {

/// Cells that a contact radius must hold, or the tension at its rim is made by the mesh.
constexpr double cells_in_contact_radius = 2;
/// Peaks whose safety factor is within this factor of the smallest one count as deciding.
constexpr double deciding_reach = 1.25;
/// A band is never less than this part of the scatter among the cells around the peak. Where cells do not
/// resolve the stress, as at the rim of a contact, meshes can agree by luck: on the demonstration crown bands
/// of 2 to 4 % met changes of 5 to 8 % on ten times the cells, with a scatter of 14 to 23 %.
constexpr double scatter_part = 0.4;
/// No band is narrower: the highest of many nodes lies a little above the truth even where meshes agree (0.15
/// to 0.6 % on ten flat stacks with exact answers, whose sequences alone would have claimed down to 0.05 %).
constexpr double least_band = 0.005;
/// Two meshes know less: the second has moved by 0.6 % of its value after four times the cells where they
/// agreed within 0.5 % (five crowns, 20 bites).
constexpr double least_band_of_two = 0.01;
/// Cells at a suspected edge must have shrunk by this to clear it: those that hardly shrink give values that
/// hardly change.
constexpr double least_shrink = 1.5;
/// Nor do cells larger than this, mm, clear it: half of the 0.5 mm within which a wall counts as margin. At a
/// knife edge cells of 0.39 mm agreed from mesh to mesh, because none of them saw the edge.
constexpr double largest_clearing_cell_mm = 0.25;

/// Why a peak may not settle.
struct Suspicion {
  UnsettledCause cause = UnsettledCause::none;
  bool certain = false;          ///< even values that seem to settle are not to be believed
  double contact_radius_mm = 0;  ///< of a point contact
};

/// Where theory expects stress without bound.
class SingularPlaces {
 public:
  explicit SingularPlaces(const StudiedBody& body) : mesh_(body.mesh), outside_(body.mesh.n_nodes(), 0) {
    const TetMesh& mesh = body.mesh;
    const RegionSurface surface = region_surface(mesh, mesh.region_names[body.region]);
    std::vector<char> bonded(mesh.n_nodes(), 0);
    for (const int f : surface.outside)
      for (const int n : mesh.faces[f].nodes) outside_[n] = 1;
    for (const int f : surface.interfaces)
      for (const int n : mesh.faces[f].nodes) bonded[n] = 1;
    for (int n = 0; n < mesh.n_nodes(); ++n)
      if (outside_[n] && bonded[n]) edge_.push_back(mesh.nodes[n]);
  }

  /// The likely reason why a peak cannot settle, or nothing. Cells that do not resolve the contact may agree
  /// with each other and all be wrong; an edge may turn out to be harmless.
  Suspicion why(const ZonePeak& peak, const Bite& bite) const {
    if (peak.node < 0) return {};
    const Vec3& at = mesh_.nodes[peak.node];
    if (peak.zone == Zone::contact)
      for (const Contact& contact : bite.contacts)
        if ((at - contact.point).norm() < 2 * (contact.radius_mm + peak.cell_size_mm) &&
            contact.radius_mm < cells_in_contact_radius * peak.cell_size_mm)
          return {UnsettledCause::point_contact, true, contact.radius_mm};
    double nearest = std::numeric_limits<double>::infinity();
    for (const Vec3& e : edge_) nearest = std::min(nearest, (e - at).norm());
    if (nearest >= peak.cell_size_mm) return {};
    return {.cause = peak.zone == Zone::finish_line ? UnsettledCause::sharp_finish_line
                                                    : UnsettledCause::edge_of_bond};
  }

 private:
  const TetMesh& mesh_;
  std::vector<char> outside_;
  std::vector<Vec3> edge_;  ///< where the body under study, another body and the outside meet
};

/// The history of one zone in one bite, as far back as it broke in the same way.
std::vector<PassValue> values_of(const std::vector<Pass>& passes, std::size_t bite, const ZonePeak& peak) {
  std::vector<PassValue> values;
  for (const Pass& pass : passes)
    for (const ZonePeak& seen : pass.peaks[bite]) {
      if (seen.zone != peak.zone) continue;
      if (seen.mechanism != peak.mechanism)
        values.clear();
      else
        values.push_back({seen.cell_size_mm, seen.tension_MPa});
    }
  return values;
}

/// A peak with its band from the sequence, unless it is suspected and the sequence does not clear it.
ZonePeak with_band(ZonePeak peak, const PeakUncertainty& band, const Suspicion& suspicion) {
  peak.settling = band.settling;
  peak.observed_order = band.order;
  if (!(peak.tension_MPa > no_tension_MPa)) {  // a part of nothing means nothing
    peak.settling = peak.settling == Settling::does_not_settle ? Settling::settles : peak.settling;
    peak.relative_uncertainty = 0;
    return peak;
  }
  const double least = band.settling == Settling::two_passes ? least_band_of_two : least_band;
  if (band.settling != Settling::one_pass)
    peak.relative_uncertainty = std::max(
        {band.half_width() / peak.tension_MPa, scatter_part * peak.cell_scatter, least, peak.open_part});
  const bool suspected = suspicion.cause != UnsettledCause::none;
  const bool shown_to_settle = band.settling == Settling::settles && band.order > 0 &&
                               band.refined_by >= least_shrink &&
                               peak.cell_size_mm <= largest_clearing_cell_mm && !suspicion.certain;
  if (suspected && !shown_to_settle) peak.settling = Settling::does_not_settle;
  if (peak.settling != Settling::does_not_settle) return peak;
  peak.cause = suspected ? suspicion.cause : UnsettledCause::keeps_growing;
  peak.contact_radius_mm = suspicion.contact_radius_mm;
  return peak;
}

/// Whether the deciding peaks of a bite are known to so many percent. Tensions that all do not settle:
/// `if_none`.
bool known_within(std::vector<ZonePeak> peaks, double percent, bool if_none) {
  std::erase_if(peaks, [](const ZonePeak& peak) { return !(peak.tension_MPa > 0); });
  if (peaks.empty()) return true;
  std::erase_if(peaks, [](const ZonePeak& peak) { return !tension_settles(peak); });
  if (peaks.empty()) return if_none;
  double smallest = std::numeric_limits<double>::infinity();
  for (const ZonePeak& peak : peaks) smallest = std::min(smallest, peak.safety_factor);
  return std::all_of(peaks.begin(), peaks.end(), [&](const ZonePeak& peak) {
    const bool known = peak.settling == Settling::settles || peak.settling == Settling::oscillates;
    const bool decides = peak.safety_factor <= deciding_reach * smallest;
    // What the method leaves open no mesh can narrow.
    const double reachable = std::max(percent, 100 * peak.open_part);
    return !decides || (known && 100 * peak.relative_uncertainty <= reachable);
  });
}

}  // namespace

bool tension_settles(const ZonePeak& peak) {
  return peak.tension_MPa > 0 && peak.settling != Settling::does_not_settle;
}

double wanted_percent(const Accuracy& asked) {
  constexpr double band_part = 0.5;
  return band_part * asked.stress_percent;
}

std::vector<std::vector<ZonePeak>> with_bands(const StudiedBody& body, const std::vector<Bite>& bites,
                                              const Accuracy& asked, const std::vector<Pass>& passes) {
  const SingularPlaces places(body);
  SettlingRules rules;
  if (asked.stress_percent > 0) rules.negligible = 0.0025 * asked.stress_percent;
  std::vector<std::vector<ZonePeak>> all;
  for (std::size_t b = 0; b < passes.back().peaks.size(); ++b) {
    std::vector<ZonePeak> peaks;
    for (const ZonePeak& peak : passes.back().peaks[b])
      peaks.push_back(
          with_band(peak, peak_uncertainty(values_of(passes, b, peak), rules), places.why(peak, bites[b])));
    all.push_back(std::move(peaks));
  }
  return all;
}

bool accurate_enough(const Accuracy& asked, const std::vector<Pass>& passes) {
  const bool judged = passes.size() >= meshes_to_judge;
  const auto& bites = passes.back().peaks;
  return std::all_of(bites.begin(), bites.end(), [&](const std::vector<ZonePeak>& peaks) {
    return known_within(peaks, wanted_percent(asked), judged);
  });
}

}  // namespace crownproof
