// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/charts/strength_charts.hpp"

#include <fmt/format.h>

#include "io/charts/chart.hpp"
#include "io/words/names.hpp"
#include "solver/material/fatigue.hpp"
#include "solver/model/strength.hpp"
#include "solver/strength/layer_strength.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/strength/strength_over_time.hpp"

namespace crownproof {
namespace {

/// Where the two angle models come from.
std::vector<std::string> angle_notes(const LayerPlanes& planes) {
  return {"program: the weaker of two ways, the body under its tension, a layer under opening and shear",
          fmt::format("(sqrt(opening^2 + (shear / {:.3g})^2); 1 - nu/2 by Batdorf & Heinisch 1978 for "
                      "penny-shaped flaws, "
                      "from memory).",
                      planes.shear_divisor),
          "smooth blend: Hankinson 1921 (for wood), for comparison only; the program does not use it.",
          "Only the ends, 0 and 90 degrees, are measured. What lies between is an assumption, and studies of",
          "printed bars at 45 degrees disagree."};
}

std::string angle_csv(const std::vector<AngleStrength>& rows) {
  std::string text = "angle_deg,strength_MPa,way_of_breaking,smooth_blend_MPa\r\n";
  for (const AngleStrength& r : rows)
    text += fmt::format("{:g},{:.7g},{},{:.7g}\r\n", r.angle_deg, r.mechanisms_MPa,
                        mechanism_words(r.mechanism), r.blend_MPa);
  return text;
}

std::vector<ChartTick> time_ticks() {
  return {{1, "1 s"},
          {60, "1 min"},
          {3600, "1 h"},
          {86400, "1 day"},
          {year_s / 12, "1 month"},
          {year_s, "1 y"},
          {10 * year_s, "10 y"},
          {50 * year_s, "50 y"}};
}

/// One strength of the material, with its name in file names and in words.
struct NamedStrength {
  std::string suffix, words;
  Strength strength;
};

std::vector<NamedStrength> strengths_of(const MaterialStrength& s) {
  if (!s.across_layer) return {{"", "the body", s.in_layer}};
  return {{"_in_layers", "within the layers", s.in_layer},
          {"_across_layers", "across the layers", *s.across_layer}};
}

Chart time_chart(const std::string& material, const NamedStrength& named,
                 const std::vector<StrengthTimeLine>& lines, const FatigueData& fatigue,
                 const Chewing& chewing) {
  Chart chart{.title = fmt::format("Strength, probability and time: {}, {}", material, named.words),
              .x_label = "time (logarithmic)",
              .y_label = "highest stress in the bench specimen, MPa (logarithmic)",
              .log_x = true,
              .log_y = true,
              .x_ticks = time_ticks()};
  int drawn_lines = 0;
  for (const StrengthTimeLine& line : lines) {
    ChartLine drawn{
        fmt::format("{:g} % broken, {}", 100 * line.probability, line.chewing ? "chewing" : "constant"),
        {},
        !line.chewing,
        drawn_lines++ % n_time_probabilities};
    for (std::size_t i = 0; i < line.seconds.size(); ++i)
      drawn.points.emplace_back(line.seconds[i], line.stress_MPa[i]);
    chart.lines.push_back(std::move(drawn));
  }
  std::string exponents;
  if (fatigue.n_static) exponents += fmt::format("static n = {:g}; ", *fatigue.n_static);
  if (fatigue.n_cyclic) exponents += fmt::format("cyclic n = {:g}; ", *fatigue.n_cyclic);
  chart.notes = {
      fmt::format("{}chewing: {:g} cycles a year, the larger loss of the two exponents.", exponents,
                  chewing.cycles_per_year),
      "Of the bench specimen; a crown is stressed in more or less of its volume, which its probability of",
      "fracture takes into account and this diagram does not. Slow crack growth as in the theory page."};
  return chart;
}

}  // namespace

std::vector<ChartFile> angle_charts(const std::string& material, const MaterialStrength& strength,
                                    const LayerPlanes& planes) {
  if (!strength.across_layer) return {};
  const auto rows =
      angle_table(strength.in_layer.characteristic_MPa, strength.across_layer->characteristic_MPa, planes);
  Chart chart{.title = "Strength against the angle of the layers: " + material,
              .x_label = "angle between layer normal and tension, degrees (0: across the layers)",
              .y_label = "characteristic strength in plain tension, MPa"};
  ChartLine program{"program", {}}, blend{"smooth blend", {}, true};
  for (const AngleStrength& r : rows)
    chart.x_ticks.push_back({r.angle_deg, fmt::format("{:g}", r.angle_deg)});
  for (int angle = 0; angle <= 90; angle += 3) {
    const auto at = [&](AngleModel model) {
      return strength_at_angle(model, strength.in_layer.characteristic_MPa,
                               strength.across_layer->characteristic_MPa, angle, planes);
    };
    program.points.emplace_back(angle, at(AngleModel::mechanisms));
    blend.points.emplace_back(angle, at(AngleModel::blend));
  }
  chart.lines = {program, blend};
  chart.notes = angle_notes(planes);
  return {{"strength_against_angle.csv", angle_csv(rows)}, {"strength_against_angle.svg", chart_svg(chart)}};
}

std::string angle_table_text(double in_layer_MPa, double across_layer_MPa, const LayerPlanes& planes) {
  std::string text =
      "\nStrength against the angle between layer normal and tension (characteristic, MPa)\n"
      "  angle    program   way of breaking          smooth blend\n";
  for (const AngleStrength& r : angle_table(in_layer_MPa, across_layer_MPa, planes))
    text += fmt::format("  {:>3.0f} deg  {:>7.0f}   {:<24} {:>7.0f}\n", r.angle_deg, r.mechanisms_MPa,
                        mechanism_words(r.mechanism), r.blend_MPa);
  for (const std::string& note : angle_notes(planes)) text += "  " + note + "\n";
  return text;
}

std::vector<ChartFile> time_charts(const std::string& material, const MaterialStrength& strength,
                                   const Chewing& chewing) {
  const auto& fatigue = strength.fatigue;
  if (!fatigue || (!fatigue->n_static && !fatigue->n_cyclic)) return {};
  std::vector<ChartFile> files;
  std::string csv = "strength,load,probability,time_s,stress_MPa\r\n";
  for (const NamedStrength& named : strengths_of(strength)) {
    if (!(named.strength.weibull_modulus > 0)) continue;
    const auto lines = strength_over_time(named.strength, *fatigue, chewing);
    for (const StrengthTimeLine& line : lines)
      for (std::size_t i = 0; i < line.seconds.size(); ++i)
        csv += fmt::format("{},{},{:g},{:.7g},{:.7g}\r\n", named.words, line.chewing ? "chewing" : "constant",
                           line.probability, line.seconds[i], line.stress_MPa[i]);
    files.push_back({fmt::format("strength_probability_time{}.svg", named.suffix),
                     chart_svg(time_chart(material, named, lines, *fatigue, chewing))});
  }
  if (!files.empty()) files.insert(files.begin(), {"strength_probability_time.csv", csv});
  return files;
}

}  // namespace crownproof
