// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/result/judge_bites.hpp"

#include <cmath>

#include "solver/accuracy/fracture_history.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/requirement.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/fracture_outlook.hpp"
#include "solver/stress/bite_fields.hpp"

namespace crownproof {
namespace {

/// Sum of the forces of a bite's contacts, N.
double total_force(const Bite& bite) {
  double force = 0;
  for (const Contact& contact : bite.contacts) force += contact.force_N;
  return force;
}

/// The passes with the risk of a bite on the last of them, which only the outlook has computed.
std::vector<Pass> with_risk(std::vector<Pass> passes, std::size_t bite, double risk) {
  passes.back().risk.resize(bite + 1, 0);
  passes.back().risk[bite] = risk;
  return passes;
}

/// The outlook of a bite, with what the meshes let be known of it.
FractureOutlook outlook_with_band(const FractureOutlook& outlook, const std::vector<Pass>& passes,
                                  std::size_t bite) {
  if (outlook.withheld) return outlook;
  FractureOutlook judged = outlook;
  const RiskBand band = risk_band(with_risk(passes, bite, total_risk(outlook.now)), bite, outlook.now);
  judged.mesh_factor = band.factor;
  judged.mesh_settling = band.settling;
  return judged;
}

/// The answer of the contact zone or of all others; nothing if there is no contact zone, or nothing else.
std::optional<PlaceAnswer> answer_of(const BiteReport& bite, bool contact, double required) {
  std::vector<ZonePeak> peaks = bite.peaks;
  std::erase_if(peaks, [&](const ZonePeak& peak) { return (peak.zone == Zone::contact) != contact; });
  if (peaks.empty() || (!contact && peaks.size() == bite.peaks.size())) return std::nullopt;
  double risk = 0;
  for (const PopulationRisk& p : bite.fracture.now.populations) {
    const double at_contact = p.zone_share[static_cast<std::size_t>(Zone::contact)];
    risk += p.risk * (contact ? at_contact : 1 - at_contact);
  }
  return PlaceAnswer{judge(peaks, required), -std::expm1(-risk)};
}

}  // namespace

std::vector<BiteReport> judge_bites(const StudiedBody& body, const Requirement& requirement,
                                    const std::vector<Bite>& asked, const std::vector<BiteFields>& fields,
                                    const std::vector<Pass>& passes) {
  std::vector<BiteReport> reports;
  for (std::size_t b = 0; b < asked.size(); ++b) {
    BiteReport report;
    report.name = asked[b].name;
    report.peaks = passes.back().peaks[b];
    report.tension = judge(report.peaks, requirement.safety_factor);
    report.verdict = report.tension.verdict;
    const FractureOutlook outlook =
        fracture_outlook(body, fields[b].stress, total_force(asked[b]),
                         report.tension.governing.safety_factor, requirement.chewing);
    report.fracture = outlook_with_band(outlook, passes, b);
    report.bulk = answer_of(report, false, requirement.safety_factor);
    report.contact = answer_of(report, true, requirement.safety_factor);
    report.layer_rule = layer_rule(body, fields[b].stress, report.peaks, report.fracture, fields[b].rims);
    if (requirement.allowed_fracture_probability) {
      const BothVerdicts both =
          combine_verdicts(report.tension, judge_fracture(report.fracture, requirement));
      report.verdict = both.verdict;
      report.fracture_verdict = both.fracture;
    }
    reports.push_back(std::move(report));
  }
  return reports;
}

}  // namespace crownproof
