// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/page.hpp"

#include <catch2/catch.hpp>

#include "io/drawing/canvas.hpp"
#include "io/drawing/view_labels.hpp"

using namespace crownproof;

namespace {

/// A body ten by eight millimetres, as wide and high as a molar.
SceneView molar_view(const std::string& caption) {
  SceneView view{.caption = caption, .layer_normal = Vec3(0, 0.6, 0.8), .towards_eye = Vec3::UnitZ()};
  view.surfaces.push_back({{{{-5, -4, 0}, {5, -4, 0}, {0, 4, 0}}, {0, 50, 100}, {{0, 1, 2}}}});
  view.sides = {{Vec3::UnitY(), "B"}, {-Vec3::UnitY(), "L"}, {-Vec3::UnitX(), "M"}, {Vec3::UnitX(), "D"}};
  view.marks = {{{0, 0, 0}, "161 %"}, {{0.3, 0.2, 0}, "1234 N", false}, {{-0.4, 0.1, 0}, "58 % (far side)"}};
  return view;
}

Scene scene(std::size_t n_views) {
  Scene s{
      .title = "A title that is long enough to need more than one line of a page 120 mm wide, and so it does",
      .subtitle = "bite clench: what is seen",
      .note = "Decides: 309 MPa.",
      .caution =
          "For research and teaching. Not a medical device; no substitute for the licensed clinician, "
          "local codes, the material's instructions for use or physical tests."};
  s.scale = {.title = "Share of the strength used, % (of 516 MPa in the body, 353 MPa between layers)",
             .highest = 200,
             .marks = {{80, "limit in layers 80 %"}, {83.3, "limit 83.3 %"}, {400, "limit across"}}};
  for (std::size_t i = 0; i < n_views; ++i)
    s.views.push_back(molar_view(
        "occlusal thickness 0.8 mm\ncrown polymer_infiltrated_ceramic_milled\nsafety factor 1.36, below"));
  return s;
}

PageRect rect_of(const PageText& text, const TextWidth& width_of) {
  const double width = width_of(text.text, text.look), height = 0.7 * text.look.size_pt;
  const double left = text.look.align == Align::left    ? text.at.x
                      : text.look.align == Align::right ? text.at.x - width
                                                        : text.at.x - width / 2;
  return {left, text.at.y - height, left + width, text.at.y};
}

/// Every text on the page, those in the views too.
std::vector<PageRect> all_texts(const Scene& s, const Page& page, const TextWidth& ruler) {
  std::vector<PageRect> rects;
  for (const PageText& text : page.texts) rects.push_back(rect_of(text, ruler));
  for (const PageMark& mark : page.marks) rects.push_back(rect_of(mark.text, ruler));
  for (std::size_t i = 0; i < s.views.size(); ++i) {
    for (const PageText& letter : side_letters(s.views[i], page.views[i]))
      rects.push_back(rect_of(letter, ruler));
    rects.push_back(rect_of(layer_sign(s.views[i], page.views[i], ruler).words, ruler));
    for (const PlacedLabel& label : placed_labels(s.views[i], page.views[i], ruler))
      rects.push_back(label.place);
  }
  return rects;
}

}  // namespace

TEST_CASE("No text of a picture covers another, leaves the page or is smaller than 8 pt", "[page]") {
  const TextWidth ruler = text_ruler();
  for (const std::size_t n_views : {1, 2, 3, 4, 12, 18}) {
    const Scene s = scene(n_views);
    const Page page = lay_out(s, ruler);
    REQUIRE(page.views.size() == n_views);
    for (const PageText& text : page.texts) CHECK(text.look.size_pt >= 8);
    const std::vector<PageRect> rects = all_texts(s, page, ruler);
    const PageRect sheet{0, 0, page_width_pt, page.height};
    for (std::size_t i = 0; i < rects.size(); ++i) {
      INFO(n_views << " views, text " << i);
      CHECK(inside(rects[i], sheet));
      for (std::size_t j = 0; j < i; ++j) CHECK_FALSE(overlap(rects[i], rects[j]));
    }
    for (std::size_t i = 0; i < n_views; ++i)
      CHECK(placed_labels(s.views[i], page.views[i], ruler).size() == 3);
  }
}

TEST_CASE("All views of a page have one length scale and fit", "[page]") {
  Scene s = scene(3);
  for (Vec3& p : s.views[2].surfaces[0].surface.points) p *= 0.5;
  const Page page = lay_out(s, text_ruler());
  CHECK(page.views[0].body().width() == Approx(2 * page.views[2].body().width()));
  for (const ViewPort& port : page.views) CHECK(inside(port.body(), port.place()));
  const double length = page.length[2].x - page.length[1].x, mm = length * page.views[0].mm_per_pt();
  CHECK(mm == Approx(std::round(mm)));
}

TEST_CASE("Limits stand on the bar, or beside it with how far they lie beyond", "[page]") {
  const Page page = lay_out(scene(1), text_ruler());
  REQUIRE(page.marks.size() == 2);
  CHECK(page.marks[0].x == Approx(page.bar.left + 0.4 * page.bar.width()));
  const auto told = [&](const std::string& words) {
    return std::any_of(page.texts.begin(), page.texts.end(),
                       [&](const PageText& t) { return t.text == words; });
  };
  CHECK(told("limit across: 2 times the end of the scale"));
  CHECK(told("25"));
  CHECK(told("200"));
}

TEST_CASE("Rows of views are filled evenly", "[page]") {
  CHECK(grid_of(1).columns == 1);
  CHECK(grid_of(3).columns == 3);
  CHECK(grid_of(4).columns == 2);
  CHECK(grid_of(5).columns == 3);
  CHECK(grid_of(12).rows == 4);
  CHECK(grid_of(18).rows == 6);
}
