// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/charts/chart.hpp"

#include <catch2/catch.hpp>

using namespace crownproof;
using Catch::Contains;

namespace {

Chart sample(bool logarithmic) {
  Chart chart{
      .title = "a < b & c", .x_label = "x", .y_label = "y", .log_x = logarithmic, .log_y = logarithmic};
  chart.x_ticks = {{1, "one"}, {10, "ten"}, {100, "hundred"}};
  chart.lines = {{"first", {{1, 20}, {100, 200}}}, {"second", {{1, 10}, {100, 100}}, true}};
  chart.notes = {"a note"};
  return chart;
}

}  // namespace

TEST_CASE("a chart is drawn to scale", "[chart]") {
  const std::string svg = chart_svg(sample(true));
  CHECK_THAT(svg, Catch::StartsWith("<svg") && Catch::EndsWith("</svg>\n"));
  CHECK_THAT(svg, Contains("a &lt; b &amp; c") && Contains("a note") && Contains("stroke-dasharray") &&
                      Contains("Not a medical device"));
  // The frame is 435 x 260 at (60, 42.5); y from 10 to 200. "ten" lies half-way; 20 at ln 2 / ln 20 of the
  // height.
  CHECK_THAT(svg, Contains("<text x='277.5' y='320.5' text-anchor='middle'>ten</text>"));
  CHECK_THAT(svg, Contains("points='60.0,242.3 495.0,42.5 '"));
  // Ends of the axis are round numbers beyond the values.
  CHECK_THAT(svg, Contains(">10</text>") && Contains(">200</text>") && !Contains(">500</text>"));
}

TEST_CASE("a linear axis starts at nothing", "[chart]") {
  const std::string svg = chart_svg(sample(false));
  CHECK_THAT(svg, Contains(">0</text>") && Contains(">200</text>"));
  CHECK_THAT(svg, Contains("points='60.0,276.5 495.0,42.5 '"));  // 20 of 200
}

TEST_CASE("long notes and titles are broken into lines of the page", "[chart]") {
  Chart chart = sample(false);
  chart.notes = {std::string(60, 'a') + " " + std::string(60, 'b')};
  CHECK_THAT(chart_svg(chart), Contains(std::string(60, 'a') + "</text>") || Contains("aaaa</text>"));
  CHECK_THAT(chart_svg(chart), !Contains("font-size='8'") && !Contains("font-size='9'"));
}
