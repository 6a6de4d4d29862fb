// SPDX-License-Identifier: AGPL-3.0-or-later
// The Weibull probability plot: ln stress against ln(-ln(1 - P)), where a Weibull distribution is a straight
// line.
#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "io/bench/bench_report.hpp"
#include "io/charts/svg_text.hpp"
#include "io/charts/viridis.hpp"
#include "io/text/text_layout.hpp"
#include "io/text/version.hpp"
#include "io/text/xml_text.hpp"
#include "solver/bench/simulated_bounds.hpp"

namespace crownproof {
namespace {

constexpr double width = diagram_width, left = 60, right = 15, top = 34, plot_height = 380, row_height = 15;
constexpr std::size_t most_bands = 8;  // more of them hide each other

double weibull_scale(double probability) {
  return std::log(-std::log1p(-probability));
}

/// Where a stress and a probability lie in the picture.
struct Axes {
  double low_stress = 1, high_stress = 2, low_share = 0.005, high_share = 0.995;
  double x(double stress) const {
    return left + std::log(stress / low_stress) / std::log(high_stress / low_stress) * (width - left - right);
  }
  double y(double share) const {
    const double low = weibull_scale(low_share), high = weibull_scale(high_share);
    return top + plot_height * (1 - (weibull_scale(share) - low) / (high - low));
  }
};

/// Room for every specimen, and for the lines down to 5 %.
Axes axes_of(const std::vector<BenchGroupResult>& groups) {
  Axes axes{1e300, 0, 0.005, 0.995};
  for (const BenchGroupResult& g : groups) {
    double low = 1e300;
    for (const Specimen& s : g.group.specimens)
      low = std::min(low, s.stress_MPa), axes.high_stress = std::max(axes.high_stress, s.stress_MPa);
    if (g.fit) low = std::min(low, std::max(g.fit->strength_at(0.05), 0.6 * low));
    axes.low_stress = std::min(axes.low_stress, low);
    const double half_rank = 0.4 / static_cast<double>(g.group.specimens.size());
    axes.low_share = std::min(axes.low_share, half_rank);
    axes.high_share = std::max(axes.high_share, 1 - half_rank);
  }
  axes.low_stress *= 0.96;
  axes.high_stress *= 1.04;
  return axes;
}

/// Round stresses on the axis, about five to ten of them.
std::vector<double> round_stresses(const Axes& axes) {
  const double raw = (axes.high_stress - axes.low_stress) / 8,
               power = std::pow(10.0, std::floor(std::log10(raw)));
  const double step = (raw < 2 * power ? 2 : raw < 5 * power ? 5 : 10) * power;
  std::vector<double> all;
  const int first = static_cast<int>(std::ceil(axes.low_stress / step)),
            last = static_cast<int>(std::floor(axes.high_stress / step));
  for (int i = first; i <= last; ++i) all.push_back(i * step);
  return all;
}

std::string grid(const Axes& axes, double bottom) {
  std::string text;
  for (const double p : {0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.4, 0.632, 0.9, 0.99, 0.999})
    if (p >= axes.low_share && p <= axes.high_share)
      text += fmt::format(
          "<line x1='{0}' x2='{1}' y1='{2:.1f}' y2='{2:.1f}' stroke='#ddd'/>"
          "<text x='{3}' y='{4:.1f}' text-anchor='end'>{5:g} %</text>\n",
          left, width - right, axes.y(p), left - 6, axes.y(p) + 4, 100 * p);
  for (const double stress : round_stresses(axes))
    text += fmt::format(
        "<line x1='{0:.1f}' x2='{0:.1f}' y1='{1}' y2='{2}' stroke='#ddd'/>"
        "<text x='{0:.1f}' y='{3}' text-anchor='middle'>{4:g}</text>\n",
        axes.x(stress), top, bottom, bottom + 16, stress);
  return text;
}

/// How a group is drawn: neighbours differ in shape as well as in colour, for print and for the colour-blind.
struct Style {
  std::string colour;
  std::size_t shape = 0;
  double radius = 3;
};

Style style_of(const std::vector<BenchGroupResult>& groups, std::size_t index) {
  // Dark to light, but not the lightest fifth: yellow on white cannot be read.
  const double place =
      groups.size() < 2 ? 0.2 : 0.8 * static_cast<double>(index) / static_cast<double>(groups.size() - 1);
  const Vec3 rgb = 255 * viridis(place);
  return {fmt::format("rgb({:.0f},{:.0f},{:.0f})", rgb.x(), rgb.y(), rgb.z()), index % 4,
          groups[index].group.specimens.size() > 100 ? 1.8 : 3};
}

/// A broken specimen: circle, square, triangle or diamond.
std::string mark(double x, double y, const Style& s) {
  if (s.shape == 0)
    return fmt::format("<circle cx='{:.1f}' cy='{:.1f}' r='{}' fill='{}'/>\n", x, y, s.radius, s.colour);
  constexpr std::array<const char*, 4> paths{"", "m-1,-1h2v2h-2z", "m0,-1.3l1.2,2.2h-2.4z",
                                             "m0,-1.4l1.2,1.4l-1.2,1.4l-1.2,-1.4z"};
  return fmt::format("<path transform='translate({:.1f},{:.1f}) scale({})' d='M0,0{}' fill='{}'/>\n", x, y,
                     s.radius, paths[s.shape], s.colour);
}

std::string band(const Axes& axes, const BenchGroupResult& g, const Style& style, double opacity) {
  constexpr int n = 9;
  std::vector<double> shares(n);
  const double low = weibull_scale(axes.low_share), high = weibull_scale(axes.high_share);
  for (int i = 0; i < n; ++i) shares[i] = -std::expm1(-std::exp(low + (high - low) * i / (n - 1)));
  shares.front() = axes.low_share;
  shares.back() = axes.high_share;
  std::string there, back;
  const auto x = [&](double stress) {  // far outside the picture is as good as at infinity
    return axes.x(std::clamp(stress, 0.2 * axes.low_stress, 5 * axes.high_stress));
  };
  for (const BandPoint& p : confidence_band(g.group.specimens, shares)) {
    there += fmt::format("{:.1f},{:.1f} ", x(p.stress_MPa.low), axes.y(p.probability));
    back.insert(0, fmt::format("{:.1f},{:.1f} ", x(p.stress_MPa.high), axes.y(p.probability)));
  }
  return fmt::format("<polygon points='{}{}' fill='{}' fill-opacity='{}' clip-path='url(#plot)'/>\n", there,
                     back, style.colour, opacity);
}

std::string fitted_line(const Axes& axes, const WeibullFit& fit, const Style& style) {
  const double low = axes.low_share, high = axes.high_share;
  return fmt::format(
      "<line x1='{:.1f}' y1='{:.1f}' x2='{:.1f}' y2='{:.1f}' stroke='{}' stroke-width='1.5' "
      "clip-path='url(#plot)'/>\n",
      axes.x(fit.strength_at(low)), axes.y(low), axes.x(fit.strength_at(high)), axes.y(high), style.colour);
}

/// Suspended specimens of a group in a row of their own: arrows from the stress each bore, with their number
/// where several bore the same.
std::string suspended_row(const Axes& axes, const BenchGroupResult& g, const Style& style, double y) {
  std::map<double, int> at;
  for (const Specimen& s : g.group.specimens)
    if (!s.broken) ++at[s.stress_MPa];
  std::string text;
  for (const auto& [stress, count] : at) {
    text += fmt::format("<path d='M{:.1f},{:.1f}v6m0,-3h7m-3,-2.5l3,2.5l-3,2.5' fill='none' stroke='{}'/>\n",
                        axes.x(stress), y - 3, style.colour);
    if (count > 1)
      text += fmt::format("<text x='{:.1f}' y='{:.1f}' text-anchor='end' fill='{}'>{}</text>\n",
                          axes.x(stress) - 3, y + 3.5, style.colour, count);
  }
  return text;
}

/// "name", and below it "n = 30 (2 suspended), s0 = 940 MPa, m = 9.1".
std::string legend(const BenchGroupResult& g, const Style& style, double y) {
  const double x = left + 6;
  std::string facts = fmt::format("n = {}", g.group.specimens.size());
  if (g.fit) {
    if (g.fit->n_suspended > 0) facts += fmt::format(" ({} suspended)", g.fit->n_suspended);
    facts += fmt::format(", s0 = {:.0f} MPa, m = {:.2f}", g.fit->characteristic_MPa, g.fit->modulus);
  } else {
    facts += ", no fit";
  }
  return mark(x, y - 4, {style.colour, style.shape, 4}) +
         fmt::format(
             "<text x='{0}' y='{1:.1f}' font-weight='bold'>{2}</text>\n"
             "<text x='{0}' y='{3:.1f}'>{4}</text>\n",
             x + 12, y,
             xml_escaped(display_width(g.group.name) > 36 ? padded(g.group.name, 36) : g.group.name), y + 14,
             facts);
}

std::string group_marks(const Axes& axes, const BenchGroupResult& g, const Style& style) {
  std::string text = g.fit ? fitted_line(axes, *g.fit, style) : "";
  for (const PlotPoint& p : probability_plot(g.group.specimens))
    text += mark(axes.x(p.stress_MPa), axes.y(p.probability), style);
  return text;
}

std::string axis_words(double bottom) {
  return fmt::format(
      "<text x='{0}' y='20'>share broken (Weibull scale)</text>\n"
      "<text x='{1}' y='{2}' text-anchor='middle'>strength, MPa (logarithmic)</text>\n",
      left, left + (width - left - right) / 2, bottom + 34);
}

/// What marks, lines and bands are, and the caution, below everything.
SvgParagraph words(double from, bool with_bands, bool any_suspended) {
  std::string key = "marks: broken specimens (mean order ranks); lines: maximum likelihood";
  if (with_bands) key += "; bands: 90 % bounds";
  if (any_suspended) key += "; arrows: suspended, strength above";
  const SvgParagraph keys = svg_paragraph(key, 12, from, "fill='#444'");
  const SvgParagraph care = svg_paragraph(caution(), 12, keys.bottom + 4, "fill='#666'");
  return {keys.svg + care.svg, care.bottom};
}

}  // namespace

std::string bench_plot_svg(const std::vector<BenchGroupResult>& groups) {
  const Axes axes = axes_of(groups);
  const bool with_bands = groups.size() <= most_bands;
  const double opacity = groups.size() <= 3 ? 0.15 : 0.07;  // bands that overlap add up
  std::string bands, marks, rows;
  double row = top + plot_height + 10;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const Style style = style_of(groups, i);
    if (groups[i].fit && with_bands) bands += band(axes, groups[i], style, opacity);
    marks += group_marks(axes, groups[i], style);
    const std::string suspended = suspended_row(axes, groups[i], style, row);
    rows += suspended;
    if (!suspended.empty()) row += row_height;
  }
  const double bottom = rows.empty() ? top + plot_height : row;
  constexpr double legend_row = 34;
  double legend_y = bottom + 60;
  std::string legends;
  for (std::size_t i = 0; i < groups.size(); ++i, legend_y += legend_row)
    legends += legend(groups[i], style_of(groups, i), legend_y);
  const SvgParagraph below = words(legend_y - 4, with_bands, !rows.empty());
  return svg_begin(below.bottom + 8) +
         fmt::format("<clipPath id='plot'><rect x='{}' y='{}' width='{}' height='{}'/></clipPath>\n", left,
                     top, width - left - right, plot_height) +
         grid(axes, bottom) + bands + marks + rows + axis_words(bottom) + legends + below.svg + "</svg>\n";
}

}  // namespace crownproof
