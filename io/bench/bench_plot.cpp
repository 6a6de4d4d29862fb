// SPDX-License-Identifier: AGPL-3.0-or-later
// The Weibull probability plot: ln stress against ln(-ln(1 - P)), where a Weibull distribution is a straight
// line.
#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "io/bench/bench_report.hpp"
#include "io/text/version.hpp"
#include "io/text/xml_text.hpp"

namespace crownproof {
namespace {

constexpr double width = 640, height = 480, left = 80, right = 20, top = 30, bottom = 76;
// Dark to light steps of viridis.
constexpr std::array<const char*, 5> colours{"#440154", "#3b528b", "#21918c", "#5ec962", "#b8a000"};

double weibull_scale(double probability) {
  return std::log(-std::log1p(-probability));
}

/// Where a stress and a probability lie in the picture.
struct Axes {
  double low_x = 0, high_x = 1, low_y = weibull_scale(0.005), high_y = weibull_scale(0.995);
  double x(double stress) const {
    return left + (std::log(stress) - low_x) / (high_x - low_x) * (width - left - right);
  }
  double y(double probability) const {
    return height - bottom -
           (weibull_scale(probability) - low_y) / (high_y - low_y) * (height - top - bottom);
  }
};

Axes axes_of(const std::vector<BenchGroupResult>& groups) {
  double low = 1e300, high = 0;
  for (const BenchGroupResult& g : groups)
    for (const Specimen& s : g.group.specimens)
      low = std::min(low, s.stress_MPa), high = std::max(high, s.stress_MPa);
  Axes axes;
  axes.low_x = std::log(low * 0.95);
  axes.high_x = std::log(high * 1.05);
  return axes;
}

/// Round stresses on the axis, about five to ten of them.
std::vector<double> round_stresses(const Axes& axes) {
  const double low = std::exp(axes.low_x), high = std::exp(axes.high_x);
  const double raw = (high - low) / 8, power = std::pow(10.0, std::floor(std::log10(raw)));
  const double step = (raw < 2 * power ? 2 : raw < 5 * power ? 5 : 10) * power;
  std::vector<double> all;
  const int first = static_cast<int>(std::ceil(low / step)), last = static_cast<int>(std::floor(high / step));
  for (int i = first; i <= last; ++i) all.push_back(i * step);
  return all;
}

std::string grid(const Axes& axes) {
  std::string text;
  for (const double p : {0.01, 0.05, 0.1, 0.2, 0.5, 0.632, 0.9, 0.99})
    text += fmt::format(
        "<line x1='{0}' x2='{1}' y1='{2:.1f}' y2='{2:.1f}' stroke='#ddd'/>"
        "<text x='{3}' y='{4:.1f}' text-anchor='end'>{5:g} %</text>\n",
        left, width - right, axes.y(p), left - 6, axes.y(p) + 4, 100 * p);
  for (const double stress : round_stresses(axes))
    text += fmt::format(
        "<line x1='{0:.1f}' x2='{0:.1f}' y1='{1}' y2='{2}' stroke='#ddd'/>"
        "<text x='{0:.1f}' y='{3}' text-anchor='middle'>{4:g}</text>\n",
        axes.x(stress), top, height - bottom, height - bottom + 18, stress);
  return text;
}

std::string group_marks(const Axes& axes, const BenchGroupResult& g, std::size_t index) {
  const char* colour = colours[index % colours.size()];
  std::string text;
  for (const PlotPoint& p : probability_plot(g.group.specimens))
    text += fmt::format("<circle cx='{:.1f}' cy='{:.1f}' r='3' fill='{}'/>\n", axes.x(p.stress_MPa),
                        axes.y(p.probability), colour);
  if (g.fit) {
    const auto clipped = [&](double p) {
      return std::clamp(g.fit->strength_at(p), std::exp(axes.low_x), std::exp(axes.high_x));
    };
    const double a = clipped(0.005), b = clipped(0.995);
    const auto y = [&](double s) { return axes.y(std::clamp(g.fit->probability(s), 0.005, 0.995)); };
    text += fmt::format(
        "<line x1='{:.1f}' y1='{:.1f}' x2='{:.1f}' y2='{:.1f}' stroke='{}' stroke-width='1.5'/>\n", axes.x(a),
        y(a), axes.x(b), y(b), colour);
  }
  return text + fmt::format("<text x='{}' y='{}' fill='{}'>{}{}</text>\n", left + 10,
                            top + 16 + 16 * static_cast<double>(index), colour, xml_escaped(g.group.name),
                            g.fit ? fmt::format(": m = {:.2f}", g.fit->modulus) : "");
}

}  // namespace

std::string bench_plot_svg(const std::vector<BenchGroupResult>& groups) {
  const Axes axes = axes_of(groups);
  std::string text = fmt::format(
      "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 {} {}' font-family='sans-serif' "
      "font-size='12'>\n<rect width='100%' height='100%' fill='white'/>\n",
      width, height);
  text += grid(axes);
  for (std::size_t i = 0; i < groups.size(); ++i) text += group_marks(axes, groups[i], i);
  return text + fmt::format(
                    "<text x='{}' y='{}' text-anchor='middle'>strength, MPa (logarithmic)</text>\n"
                    "<text x='{}' y='18'>share broken (Weibull scale); lines: maximum likelihood</text>\n"
                    "<text x='12' y='{}' font-size='8' fill='#666'>{}</text>\n</svg>\n",
                    width / 2, height - 34, left, height - 10, xml_escaped(caution()));
}

}  // namespace crownproof
