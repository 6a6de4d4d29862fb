// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/scene_file.hpp"

#include <fstream>

#include <catch2/catch.hpp>

#include "io/drawing/cannot_draw.hpp"
#include "io/machine/output_file.hpp"
#include "tests/support/scratch_folder.hpp"

using namespace crownproof;

namespace {

/// Every member differs from its default.
Picture picture(const std::string& file) {
  const ValueSurface triangle{{{0, 0, 0}, {1, 0, 0}, {0, 1e-300, -3}}, {1, 2.5, 3}, {{0, 1, 2}}};
  SceneView view{.caption = "two\nlines", .towards_eye = {1, 2, 3}, .up = {0, 0, 1}};
  view.surfaces = {{triangle, false, false, 0.25}, {{}, true, true, 0.8}};
  view.lines = {{{{{1, 2, 3}, {4, 5, 6}}}, 0.5, 7, 0.1}};
  view.marks = {{{1, 1, 1}, "12 MPa", false}};
  view.sides = {{{0, 1, 0}, "B"}};
  view.layer_normal = Vec3(0, 0.6, 0.8);
  view.shown = {{1, 1, 1}, {2, 2, 2}};
  const SceneScale scale{"MPa", 42, true, true, {{7, "limit", true}}};
  return {file,
          {PictureQuantity::tension, PictureFormat::pdf, 150},
          {"title", "sub", "note", "care", scale, {view}}};
}

}  // namespace

TEST_CASE("Pictures come out of a file as they went in, in their order", "[scene_file]") {
  const ScratchFolder scratch;
  const auto file = scratch.path() / "scenes";
  write_file(file, packed(picture("a.png")) + packed(picture("b/c.png")));
  std::vector<Picture> read;
  for_each_picture(file, [&](const Picture& p) { read.push_back(p); });
  REQUIRE(read.size() == 2);
  CHECK(read[0].file == "a.png");
  CHECK(read[1].file == "b/c.png");
  CHECK(packed(read[0]) == packed(picture("a.png")));
  const SceneView &view = read[1].scene.views.at(0), asked = picture("").scene.views[0];
  CHECK(view.surfaces[0].surface.points == asked.surfaces[0].surface.points);
  CHECK(view.surfaces[0].surface.values == asked.surfaces[0].surface.values);
  CHECK(view.surfaces[0].surface.triangles == asked.surfaces[0].surface.triangles);
  CHECK_FALSE(view.surfaces[0].coloured);
  CHECK(view.lines[0].segments == asked.lines[0].segments);
  CHECK(view.lines[0].lift_mm == 0.1);
  CHECK(view.marks[0].text == "12 MPa");
  CHECK(view.up == asked.up);
  CHECK(view.sides[0].letter == "B");
  CHECK(view.layer_normal == asked.layer_normal);
  CHECK(view.shown == asked.shown);
  CHECK(read[1].scene.scale.marks[0].drawn_on_body);
  CHECK(read[1].scene.scale.highest == 42);
  CHECK(read[1].scene.scale.low_is_strong);
  CHECK(read[1].scene.scale.clipped);
  CHECK(read[1].wishes.format == PictureFormat::pdf);
  CHECK(read[1].wishes.dpi == 150);
}

TEST_CASE("A scene file that is missing, cut short or foreign is told", "[scene_file]") {
  const ScratchFolder scratch;
  const auto file = scratch.path() / "scenes";
  const auto nothing = [](const Picture&) {};
  CHECK_THROWS_AS(for_each_picture(file, nothing), CannotDraw);
  const std::string whole = packed(picture("a.png"));
  for (const std::string& bytes :
       {whole.substr(0, whole.size() / 2), std::string("not scenes"), whole + "x"}) {
    write_file(file, bytes);
    CHECK_THROWS_WITH(for_each_picture(file, nothing), Catch::Contains("damaged"));
  }
}
