// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/pass_words.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "io/text/text_layout.hpp"
#include "io/words/names.hpp"
#include "io/words/stage_words.hpp"
#include "solver/accuracy/pass.hpp"
#include "solver/result/report.hpp"
#include "solver/strength/zone_peak.hpp"

namespace crownproof {
namespace {

constexpr std::size_t width = 80;

std::string memory_words(double GiB) {
  return GiB > 0 ? fmt::format("{:.1f} GiB", GiB) : "-";
}

/// The peak of a zone as a pass saw it, or nothing.
const ZonePeak* peak_in(const Pass& pass, std::size_t bite, Zone zone) {
  const auto& peaks = pass.peaks[bite];
  const auto found =
      std::find_if(peaks.begin(), peaks.end(), [&](const ZonePeak& p) { return p.zone == zone; });
  return found == peaks.end() ? nullptr : &*found;
}

/// The band as known when the pass was the newest; one mesh alone knows none.
std::string band_words(const ZonePeak& peak, bool first) {
  if (first) return "-";
  if (peak.settling == Settling::does_not_settle) return "grows";
  return fmt::format("+-{:.0f}%", shown_percent(peak.relative_uncertainty));
}

std::string pass_row(const Report& report, std::size_t pass, std::size_t bite, double held_GiB) {
  const Pass& p = report.passes[pass];
  const ZonePeak* const peak = peak_in(p, bite, report.bites[bite].tension.governing.zone);
  return fmt::format("  {:<5}{:>10}{:>9}{:>8}{:>12}{:>10}\n", pass + 1, grouped(p.cells),
                     peak ? fmt::format("{:.1f}", peak->tension_MPa) : "-",
                     peak ? band_words(*peak, pass == 0) : "-", memory_words(p.predicted_memory_GiB),
                     memory_words(held_GiB));
}

}  // namespace

std::string pass_table(const Report& report, const std::vector<double>& held_GiB) {
  if (report.passes.size() < 2 || report.bites.empty()) return {};
  const auto weakest = std::min_element(
      report.bites.begin(), report.bites.end(), [](const BiteReport& a, const BiteReport& b) {
        return a.tension.governing.safety_factor < b.tension.governing.safety_factor;
      });
  const auto bite = static_cast<std::size_t>(weakest - report.bites.begin());
  std::string text(1, '\n');
  text += wrapped(fmt::format("Mesh after mesh, the deciding tension of '{}' ({}):", weakest->name,
                              zone_name(weakest->tension.governing.zone)),
                  width, "", "  ");
  text += fmt::format("  {:<5}{:>10}{:>9}{:>8}{:>12}{:>10}\n", "pass", "cells", "MPa", "known", "foreseen",
                      "held");
  for (std::size_t p = 0; p < report.passes.size(); ++p)
    text += pass_row(report, p, bite, p < held_GiB.size() ? held_GiB[p] : 0);
  return text + wrapped(stop_words(report.stop), width, "Stopped    ", std::string(11, ' '));
}

std::string pass_sentence(const Report& report) {
  return fmt::format("{} meshes, the last of {} cells. {}", report.passes.size(),
                     grouped(report.passes.back().cells), stop_words(report.stop));
}

}  // namespace crownproof
