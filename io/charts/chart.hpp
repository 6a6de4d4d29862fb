// SPDX-License-Identifier: AGPL-3.0-or-later
// A plain line chart as SVG: text that any browser draws and any editor changes.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace crownproof {

/// A line through points (x, y).
struct ChartLine {
  std::string name;  ///< for the legend
  std::vector<std::pair<double, double>> points;
  bool dashed = false;
  int shade = -1;  ///< lines with the same number have the same colour; -1: the line's own place in the list
};

/// A named place on the x axis.
struct ChartTick {
  double at = 0;
  std::string text;
};

struct Chart {
  std::string title, x_label, y_label;
  bool log_x = false, log_y = false;  ///< logarithmic: all such coordinates must be above zero
  std::vector<ChartTick> x_ticks;     ///< the first and last are the ends of the axis
  std::vector<ChartLine> lines;       ///< coloured from dark to light viridis by shade
  std::vector<std::string> notes;     ///< lines of text below; the caution follows
};

/// `lines` must not be empty and hold at least one point, `x_ticks` at least two ticks.
std::string chart_svg(const Chart& chart);

}  // namespace crownproof
