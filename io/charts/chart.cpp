// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/charts/chart.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/charts/svg_text.hpp"
#include "io/charts/viridis.hpp"
#include "io/text/version.hpp"
#include "io/text/xml_text.hpp"

namespace crownproof {
namespace {

constexpr double width = diagram_width, left = 60, right = 15, plot_height = 260, legend_row = 18;
constexpr std::size_t legend_columns = 2;

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

std::string grid(const Chart& chart, const Axis& x, const Axis& y, double top) {
  const double plot_width = width - left - right;
  std::string text;
  for (const double mark : y_marks(chart)) {
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

/// How a line is drawn, in the plot and in the legend.
std::string ink_of(const Chart& chart, std::size_t index) {
  const ChartLine& line = chart.lines[index];
  const std::size_t shade = line.shade >= 0 ? static_cast<std::size_t>(line.shade) : index;
  return fmt::format("stroke='{}' stroke-width='2'{}", colour(shade, shades_of(chart)),
                     line.dashed ? " stroke-dasharray='7 4'" : "");
}

std::string curve(const Chart& chart, std::size_t index, const Axis& x, const Axis& y, double top) {
  std::string points;
  for (const auto& [px, py] : chart.lines[index].points)
    points += fmt::format("{:.1f},{:.1f} ", left + (width - left - right) * x.place(px),
                          top + plot_height * (1 - y.place(py)));
  return fmt::format("<polyline points='{}' fill='none' {}/>\n", points, ink_of(chart, index));
}

/// In columns below the plot.
std::string legend(const Chart& chart, double top) {
  std::string text;
  for (std::size_t i = 0; i < chart.lines.size(); ++i) {
    const double x = left + (width - left) / legend_columns * static_cast<double>(i % legend_columns);
    const std::size_t row = i / legend_columns;
    const double y = top + legend_row * (static_cast<double>(row) + 0.5);
    text += fmt::format(
        "<line x1='{0}' x2='{1}' y1='{2:.1f}' y2='{2:.1f}' {3}/><text x='{4}' y='{5:.1f}'>{6}</text>\n", x,
        x + 24, y, ink_of(chart, i), x + 30, y + 4, xml_escaped(chart.lines[i].name));
  }
  return text;
}

}  // namespace

std::string chart_svg(const Chart& chart) {
  assert(!chart.lines.empty() && chart.x_ticks.size() >= 2);
  const std::vector<double> marks = y_marks(chart);
  const Axis x{chart.x_ticks.front().at, chart.x_ticks.back().at, chart.log_x},
      y{marks.front(), marks.back(), chart.log_y};
  const SvgParagraph title = svg_title(chart.title, left, 4),
                     label = svg_paragraph(chart.y_label, left, title.bottom);
  const double top = label.bottom + 6, bottom = top + plot_height, legend_top = bottom + 44;
  std::string text = title.svg + label.svg + grid(chart, x, y, top);
  for (std::size_t i = 0; i < chart.lines.size(); ++i) text += curve(chart, i, x, y, top);
  text += fmt::format("<text x='{}' y='{:.1f}' text-anchor='middle'>{}</text>\n",
                      left + (width - left - right) / 2, bottom + 36, xml_escaped(chart.x_label));
  text += legend(chart, legend_top);
  const std::size_t rows = (chart.lines.size() + legend_columns - 1) / legend_columns;
  double end = legend_top + legend_row * static_cast<double>(rows) + 6;
  for (const auto& [words, grey] :
       {std::pair(fmt::format("{}", fmt::join(chart.notes, " ")), "#444"), std::pair(caution(), "#666")}) {
    const SvgParagraph paragraph = svg_paragraph(words, 12, end, fmt::format("fill='{}'", grey));
    text += paragraph.svg;
    end = paragraph.bottom + 4;
  }
  return svg_begin(end + 6) + text + "</svg>\n";
}

}  // namespace crownproof
