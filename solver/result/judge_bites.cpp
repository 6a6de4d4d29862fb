// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/result/judge_bites.hpp"

#include <optional>
#include <utility>
#include <vector>

#include "solver/accuracy/fracture_history.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/requirement.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/compared_strength.hpp"
#include "solver/strength/fracture_outlook.hpp"
#include "solver/stress/bite_fields.hpp"
#include "solver/stress/bite_stress.hpp"

namespace crownproof {
namespace {

/// The passes with the risk of a bite on the last of them, which only the outlook has computed.
std::vector<Pass> with_risk(std::vector<Pass> passes, std::size_t bite, double risk) {
  passes.back().risk.resize(bite + 1, 0);
  passes.back().risk[bite] = risk;
  return passes;
}

/// An outlook, of the whole body or of a part, with what the meshes let be known of it.
FractureOutlook with_band(FractureOutlook outlook, const std::vector<Pass>& passes, std::size_t bite) {
  const RiskBand band = risk_band(passes, bite, outlook.now);
  outlook.mesh_factor = band.factor;
  outlook.mesh_settling = band.settling;
  return outlook;
}

/// Limits and meshes of one bite, as they hold for the whole body and for each part.
class Judge {
 public:
  Judge(const StudiedBody& body, const Requirement& requirement, const std::vector<Pass>& passes,
        std::size_t bite)
      : requirement_(requirement),
        passes_(passes),
        bite_(bite),
        years_unknown_(years_unknown(body.strength(), requirement.chewing)) {}

  /// What the tensions of some peaks say.
  TensionVerdict tension(const std::vector<ZonePeak>& peaks) const {
    const TensionVerdict today = judge(peaks, requirement_.safety_factor);
    return years_unknown_ ? without_years(today) : today;
  }

  /// Both limits for some peaks and what starts there.
  PlaceAnswer answer(const std::vector<ZonePeak>& peaks, const FractureOutlook& outlook) const {
    PlaceAnswer answer{.tension = tension(peaks)};
    answer.verdict = answer.tension.verdict;
    if (outlook.withheld) return answer;
    answer.probability = outlook.now.probability;
    if (!requirement_.allowed_fracture_probability) return answer;
    const BothVerdicts both = combine_verdicts(answer.tension, judge_fracture(outlook, requirement_));
    answer.verdict = both.verdict;
    answer.fracture = both.fracture;
    return answer;
  }

  /// The answer of the contact zone or of all others; nothing if there is no contact zone, or nothing else.
  std::optional<PlaceAnswer> part(const BiteReport& whole, bool contact) const {
    const auto counts = [&](Zone zone) { return contact_decides(zone) == contact; };
    std::vector<ZonePeak> peaks = whole.peaks;
    std::erase_if(peaks, [&](const ZonePeak& peak) { return !counts(peak.zone); });
    if (peaks.empty() || (!contact && peaks.size() == whole.peaks.size())) return std::nullopt;
    if (whole.fracture.withheld) return answer(peaks, whole.fracture);
    return answer(peaks, with_band(outlook_within(whole.fracture, counts), passes_, bite_));
  }

 private:
  const Requirement& requirement_;
  const std::vector<Pass>& passes_;
  std::size_t bite_;
  bool years_unknown_;
};

}  // namespace

std::vector<BiteReport> judge_bites(const StudiedBody& body, const Requirement& requirement,
                                    const std::vector<SolvedBite>& bites, const std::vector<Pass>& passes) {
  std::vector<BiteReport> reports;
  for (std::size_t b = 0; b < bites.size(); ++b) {
    const auto& [bite, fields, stress] = bites[b];
    const StudiedBody bitten = body.with_zones(fields.node_zone);
    BiteReport report;
    report.name = bite.name;
    report.peaks = passes.back().peaks[b];
    report.tension = Judge(bitten, requirement, passes, b).tension(report.peaks);
    report.fracture = fracture_outlook(bitten, stress, resultant_N(bite).norm(),
                                       report.tension.governing.safety_factor, requirement.chewing);
    std::vector<Pass> known = passes;
    if (!report.fracture.withheld) {
      known = with_risk(std::move(known), b, total_risk(report.fracture.now));
      report.fracture = with_band(std::move(report.fracture), known, b);
    }
    const Judge judge_of_bite(bitten, requirement, known, b);
    const PlaceAnswer whole = judge_of_bite.answer(report.peaks, report.fracture);
    report.verdict = whole.verdict;
    report.fracture_verdict = whole.fracture;
    report.bulk = judge_of_bite.part(report, false);
    report.contact = judge_of_bite.part(report, true);
    report.layer_rule =
        layer_rule(bitten, {fields.stress, stress, fields.rims}, report.peaks, report.fracture);
    reports.push_back(std::move(report));
  }
  return reports;
}

}  // namespace crownproof
