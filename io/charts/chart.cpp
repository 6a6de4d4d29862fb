// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/charts/chart.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include <fmt/format.h>

#include "io/charts/viridis.hpp"
#include "io/text/version.hpp"
#include "io/text/xml_text.hpp"

namespace crownproof {
namespace {

constexpr double width = 820, left = 75, right = 210, top = 44, plot_height = 360, line_height = 16;

/// Dark to light, but not the lightest fifth: yellow on white cannot be read.
std::string colour(std::size_t index, std::size_t count) {
  const Vec3 rgb =
      255 * viridis(count < 2 ? 0.2 : 0.8 * static_cast<double>(index) / static_cast<double>(count - 1));
  return fmt::format("rgb({:.0f},{:.0f},{:.0f})", rgb.x(), rgb.y(), rgb.z());
}

/// One axis: from a value to a place between 0 and 1.
struct Axis {
  double low = 0, high = 1;
  bool logarithmic = false;
  double place(double value) const {
    const auto f = [&](double v) { return logarithmic ? std::log(v) : v; };
    return (f(value) - f(low)) / (f(high) - f(low));
  }
};

/// 1, 2 or 5 times a power of ten, at or below `value`.
double round_below(double value) {
  const double power = std::pow(10, std::floor(std::log10(value)));
  return (value >= 5 * power ? 5 : value >= 2 * power ? 2 : 1) * power;
}

/// The next larger of 1, 2, 5, 10, ...
double next_round(double value) {
  const double power = std::pow(10, std::floor(std::log10(value * (1 + 1e-9))));
  const double digit = std::round(value / power);
  return (digit < 2 ? 2 : digit < 5 ? 5 : 10) * power;
}

/// Ends and marks of the y axis: round numbers around the values.
std::vector<double> y_marks(const Chart& chart) {
  double low = 1e300, high = -1e300;
  for (const ChartLine& line : chart.lines)
    for (const auto& [x, y] : line.points) low = std::min(low, y), high = std::max(high, y);
  std::vector<double> marks;
  if (chart.log_y) {
    for (double v = round_below(low); marks.empty() || marks.back() < high; v = next_round(v))
      marks.push_back(v);
    if (marks.size() < 2) marks.push_back(next_round(marks.back()));
    return marks;
  }
  const double step = round_below(std::max(high, 1e-9) / 4);
  for (double v = 0; marks.empty() || marks.back() < high; v += step) marks.push_back(v);
  return marks;
}

std::string grid(const Chart& chart, const Axis& x, const Axis& y, const std::vector<double>& marks) {
  const double plot_width = width - left - right;
  std::string text;
  for (const double mark : marks) {
    const double at = top + plot_height * (1 - y.place(mark));
    text += fmt::format(
        "<line x1='{0}' x2='{1}' y1='{2:.1f}' y2='{2:.1f}' stroke='#ddd'/>"
        "<text x='{3}' y='{4:.1f}' text-anchor='end'>{5:g}</text>\n",
        left, left + plot_width, at, left - 8, at + 4, mark);
  }
  for (const ChartTick& tick : chart.x_ticks) {
    const double at = left + plot_width * x.place(tick.at);
    text += fmt::format(
        "<line x1='{0:.1f}' x2='{0:.1f}' y1='{1}' y2='{2}' stroke='#ddd'/>"
        "<text x='{0:.1f}' y='{3}' text-anchor='middle'>{4}</text>\n",
        at, top, top + plot_height, top + plot_height + 18, xml_escaped(tick.text));
  }
  return text;
}

/// Number of shades in use.
std::size_t shades_of(const Chart& chart) {
  std::size_t most = 0;
  for (std::size_t i = 0; i < chart.lines.size(); ++i)
    most = std::max(most, chart.lines[i].shade >= 0 ? static_cast<std::size_t>(chart.lines[i].shade) : i);
  return most + 1;
}

std::string curve(const ChartLine& line, const Axis& x, const Axis& y, std::size_t index,
                  std::size_t shades) {
  std::string points;
  for (const auto& [px, py] : line.points)
    points += fmt::format("{:.1f},{:.1f} ", left + (width - left - right) * x.place(px),
                          top + plot_height * (1 - y.place(py)));
  const std::string dash = line.dashed ? " stroke-dasharray='7 4'" : "",
                    ink = colour(line.shade >= 0 ? static_cast<std::size_t>(line.shade) : index, shades);
  const double legend_x = width - right + 14,
               legend_y = top + 12 + 1.4 * line_height * static_cast<double>(index);
  return fmt::format(
      "<polyline points='{0}' fill='none' stroke='{1}' stroke-width='2'{2}/>\n"
      "<line x1='{3}' x2='{4}' y1='{5:.1f}' y2='{5:.1f}' stroke='{1}' stroke-width='2'{2}/>"
      "<text x='{6}' y='{7:.1f}'>{8}</text>\n",
      points, ink, dash, legend_x, legend_x + 24, legend_y, legend_x + 30, legend_y + 4,
      xml_escaped(line.name));
}

}  // namespace

std::string chart_svg(const Chart& chart) {
  assert(!chart.lines.empty() && chart.x_ticks.size() >= 2);
  const std::vector<double> marks = y_marks(chart);
  const Axis x{chart.x_ticks.front().at, chart.x_ticks.back().at, chart.log_x},
      y{marks.front(), marks.back(), chart.log_y};
  const double bottom = top + plot_height,
               caution_y = bottom + 62 + line_height * static_cast<double>(chart.notes.size()),
               height = caution_y + 14;
  std::string text = fmt::format(
      "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 {0} {1}' width='{0}' height='{1}' "
      "font-family='sans-serif' font-size='12'>\n<rect width='100%' height='100%' fill='white'/>\n"
      "<text x='{2}' y='18' font-size='14' font-weight='bold'>{3}</text>\n<text x='{2}' y='36'>{4}</text>\n",
      width, height, left, xml_escaped(chart.title), xml_escaped(chart.y_label));
  text += grid(chart, x, y, marks);
  for (std::size_t i = 0; i < chart.lines.size(); ++i)
    text += curve(chart.lines[i], x, y, i, shades_of(chart));
  text += fmt::format("<text x='{}' y='{}' text-anchor='middle'>{}</text>\n",
                      left + (width - left - right) / 2, bottom + 38, xml_escaped(chart.x_label));
  for (std::size_t i = 0; i < chart.notes.size(); ++i)
    text += fmt::format("<text x='{}' y='{}' fill='#444'>{}</text>\n", left,
                        bottom + 58 + line_height * static_cast<double>(i), xml_escaped(chart.notes[i]));
  text += fmt::format("<text x='12' y='{}' font-size='9' fill='#666'>{}</text>\n", caution_y,
                      xml_escaped(caution()));
  return text + "</svg>\n";
}

}  // namespace crownproof
