// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/canvas.hpp"

#include <array>

#include <catch2/catch.hpp>

using namespace crownproof;

namespace {

/// Big-endian number of a PNG file (ISO/IEC 15948).
int number_at(const std::string& png, std::size_t at) {
  int value = 0;
  for (std::size_t i = at; i < at + 4; ++i) value = 256 * value + static_cast<unsigned char>(png[i]);
  return value;
}

std::string drawn(PictureFormat format, int dpi) {
  Canvas canvas(144, 72, {.format = format, .dpi = dpi});
  canvas.text({"826 MPa", {20, 20}, {}});
  canvas.line(std::array<PagePoint, 2>{{{10, 40}, {100, 40}}}, 0, 1);
  canvas.image({10, 45, 30, 65}, {2, 1, {255, 0, 0, 0, 0, 255}});
  return canvas.finish();
}

}  // namespace

TEST_CASE("A PNG has the asked pixels and says how large it is to be printed", "[canvas]") {
  const std::string png = drawn(PictureFormat::png, 300);
  CHECK(png.substr(1, 3) == "PNG");
  CHECK(number_at(png, 16) == 600);  // two inches
  CHECK(number_at(png, 20) == 300);
  const std::size_t chunk = png.find("pHYs");
  REQUIRE(chunk == 37);                       // right behind the header
  CHECK(number_at(png, chunk + 4) == 11811);  // 300 / 0.0254
  CHECK(png[chunk + 12] == 1);                // a metre
  CHECK(drawn(PictureFormat::png, 300) == png);
  CHECK(number_at(drawn(PictureFormat::png, 72), 16) == 144);
}

TEST_CASE("SVG and PDF keep lines as lines", "[canvas]") {
  const std::string svg = drawn(PictureFormat::svg, 300);
  CHECK_THAT(svg, Catch::Contains("<svg") && Catch::Contains("width=\"144pt\"") &&
                      Catch::Contains("M 10 40 L 100 40"));
  CHECK_THAT(drawn(PictureFormat::pdf, 300), Catch::StartsWith("%PDF-"));
}

TEST_CASE("Words grow with their letters and their size", "[canvas]") {
  const TextWidth ruler = text_ruler();
  CHECK(ruler("", {}) == 0);
  CHECK(ruler("MMMM", {}) == Approx(4 * ruler("M", {})));
  CHECK(ruler("M", {.size_pt = 16}) == Approx(2 * ruler("M", {.size_pt = 8})));
}
