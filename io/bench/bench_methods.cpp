// SPDX-License-Identifier: AGPL-3.0-or-later
#include <algorithm>

#include <fmt/format.h>

#include "io/bench/bench_tables.hpp"
#include "io/text/version.hpp"
#include "io/words/bench_words.hpp"

namespace crownproof {
namespace {

bool any(const BenchFindings& all, bool (*is)(const BenchGroupResult&)) {
  return std::any_of(all.groups.begin(), all.groups.end(), is);
}

std::string fitting_words(const BenchFindings& all) {
  const bool complete = any(all, [](const auto& g) { return g.fit && g.fit->complete(); });
  const bool suspended = any(all, [](const auto& g) { return g.fit && !g.fit->complete(); });
  std::string text =
      "Strengths were described by two-parameter Weibull distributions fitted by maximum likelihood";
  if (suspended)
    text += "; specimens that did not break, or not from the flaws under study, were counted as suspended";
  text += ". The modulus was corrected for the bias of small samples";
  if (suspended) text += " (suspended samples: by parametric bootstrap)";
  text += ". 90 % confidence bounds of characteristic strength and modulus are ";
  if (complete) text += "exact, from pivotal quantities (Thoman, Bain & Antle 1969)";
  if (complete && suspended) text += "; of samples with suspended specimens ";
  if (suspended)
    text +=
        "those of the signed root of the likelihood ratio calibrated by parametric bootstrap at the bound "
        "(DiCiccio, Martin & Stern 2001)";
  return text + "; those of the 1 % and 5 % strengths were found by the calibrated likelihood ratio. ";
}

std::string goodness_words(const BenchFindings& all) {
  const bool complete = any(all, [](const auto& g) { return g.goodness && g.fit->complete(); });
  const bool suspended = any(all, [](const auto& g) { return g.goodness && !g.fit->complete(); });
  if (!complete && !suspended) return "";
  std::string text = "Goodness of fit was tested by the Anderson-Darling statistic with fitted parameters";
  if (complete) text += " (Stephens 1977)";
  if (suspended)
    text += fmt::format("{} against the product-limit estimate, its p by parametric bootstrap",
                        complete ? "; with suspended specimens" : "");
  return text + ". ";
}

std::string comparing_words(const BenchFindings& all) {
  if (!all.comparison) return "";
  std::string text =
      "Groups were compared by likelihood-ratio tests whose p values come from parametric bootstrap";
  if (all.groups.size() > 2)
    text +=
        ", first all together, then in pairs with Holm's correction; a pair counts as different if both p "
        "values lie below 0.05";
  text += ".";
  if (all.comparison->scaled)
    text +=
        " Because the specimens differ in size, groups were compared as materials: strengths scaled by "
        "effective volume or area to the power of 1/m.";
  return text;
}

std::string range(double value, const std::optional<Interval>& bounds, int decimals) {
  const std::string text = fmt::format("{:.{}f}", value, decimals);
  if (!bounds) return text;
  return fmt::format("{} ({:.{}f} to {:.{}f})", text, bounds->low, decimals, bounds->high, decimals);
}

std::string row(const BenchGroupResult& g) {
  if (!g.fit)
    return fmt::format("| {} | {} | | | | | {} |\n", g.group.name, g.group.specimens.size(), g.why_not);
  std::optional<Interval> strength, modulus, five, one;
  double m = g.fit->modulus;
  if (g.bounds) {
    strength = g.bounds->characteristic_MPa;
    modulus = g.bounds->modulus;
    m = g.bounds->unbiased_modulus.value_or(m);
  }
  if (g.low) five = g.low->five_percent_MPa, one = g.low->one_percent_MPa;
  return fmt::format("| {} | {} ({}) | {} | {} | {} | {} | {} |\n", g.group.name, g.fit->n(), g.fit->n_broken,
                     range(g.fit->characteristic_MPa, strength, 0), range(m, modulus, 1),
                     range(g.fit->strength_at(0.05), five, 0), range(g.fit->strength_at(0.01), one, 0),
                     g.goodness ? p_text(g.goodness->significance) : "");
}

}  // namespace

std::string bench_methods_page(const BenchFindings& all) {
  std::string text = fmt::format(
      "# Methods and table, to be edited\n\n{}{}{} Statistics were computed with crownproof {}.\n\n"
      "| group | n (broken) | characteristic strength, MPa (90 % bounds) | Weibull modulus, corrected (90 % "
      "bounds) | "
      "5 % strength, MPa | 1 % strength, MPa | goodness of fit |\n|---|---|---|---|---|---|---|\n",
      fitting_words(all), goodness_words(all), comparing_words(all), version());
  for (const BenchGroupResult& g : all.groups) text += row(g);
  return text + "\n" + caution() + "\n";
}

}  // namespace crownproof
