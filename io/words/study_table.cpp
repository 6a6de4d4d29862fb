// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/study_table.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "io/record/run_record.hpp"
#include "io/text/text_layout.hpp"
#include "io/words/compared_words.hpp"
#include "io/words/names.hpp"
#include "io/words/pass_words.hpp"
#include "io/words/percent_words.hpp"
#include "io/words/summary_layout.hpp"
#include "solver/model/model.hpp"
#include "solver/result/report.hpp"
#include "solver/strength/zone_peak.hpp"

namespace crownproof {
namespace {

/// That which is judged: after the years, if a probability is allowed and years are asked for.
double shown_probability(const BiteReport& bite) {
  return bite.fracture_verdict ? bite.fracture_verdict->probability : bite.fracture.now.probability;
}

/// What the probabilities are held against, and what the star says.
std::string allowed_line(std::span<const VariantRecord> variants) {
  const auto allowed = [](const VariantRecord& v) {
    return v.model->requirement.allowed_fracture_probability;
  };
  const auto has_limit = [&](const VariantRecord& v) { return allowed(v).has_value(); };
  if (std::none_of(variants.begin(), variants.end(), has_limit)) return "";
  const bool all_have = std::all_of(variants.begin(), variants.end(), has_limit);
  const Requirement& first = std::find_if(variants.begin(), variants.end(), has_limit)->model->requirement;
  const bool same = std::all_of(variants.begin(), variants.end(), [&](const VariantRecord& v) {
    return (!has_limit(v) || allowed(v) == first.allowed_fracture_probability) &&
           v.model->requirement.chewing.years == first.chewing.years;
  });
  const std::string text =
      same ? "Allowed: " + allowed_words(first) : "Allowed fracture and years are varied";
  const std::string rest =
      all_have ? "" : " Where the material allows no probability, only the tension is judged.";
  return wrapped(text + ". *: this limit, not the tension, decides." + rest, summary_width, "  ", "  ");
}

std::string study_row(const BiteReport& bite, bool colour) {
  constexpr std::size_t bite_width = 22;
  const std::string risk = !bite.fracture.withheld ? percent_cell(shown_probability(bite)) : "-";
  const bool fits = display_width(bite.name) <= bite_width;
  std::string text = fits ? "" : wrapped(bite.name, summary_width, "  ", "  ");
  return text + fmt::format("  {}{:<12}{:>5.0f}{:>9.0f}{:>7}{:>11}  {}{}\n",
                            padded(fits ? bite.name : "", bite_width), zone_name(bite.tension.governing.zone),
                            bite.tension.governing.tension_MPa, bite.tension.governing.strength_MPa,
                            factor_cell(bite.tension.governing.safety_factor), risk,
                            verdict_word(bite.verdict, colour),
                            bite.fracture_verdict && bite.fracture_verdict->decides ? "*" : "");
}

}  // namespace

std::string study_table(std::span<const VariantRecord> variants, bool colour) {
  std::string text = fmt::format("\n  {:<22}{:<12}{:>5}{:>9}{:>7}{:>11}  {}\n", "bite", "where", "MPa",
                                 "strength", "safety", "fracture %", "verdict");
  for (const VariantRecord& v : variants) {
    const double measured = v.report.thickness.fossa.thickness_mm;
    text +=
        wrapped(label_of(v) + (measured > 0 ? fmt::format(" (measured {:.2f} mm)", measured) : std::string()),
                summary_width, "", "  ");
    for (const BiteReport& b : v.report.bites) text += study_row(b, colour);
    if (v.report.passes.size() > 1 && v.report.stop.reason != StopReason::no_accuracy_asked)
      text += wrapped(pass_sentence(v.report), summary_width, "  ", "  ");
  }
  return text + allowed_line(variants);
}

}  // namespace crownproof
