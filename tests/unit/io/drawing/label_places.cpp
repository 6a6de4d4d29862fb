// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/label_places.hpp"

#include <random>

#include <catch2/catch.hpp>

using namespace crownproof;

namespace {

PageRect around(PagePoint p, double reach) {
  return {p.x - reach, p.y - reach, p.x + reach, p.y + reach};
}

}  // namespace

TEST_CASE("A label stands beside its point, outward of the view's middle", "[label_places]") {
  const PageRect room{0, 0, 200, 200};
  const auto right = place_labels({{{150, 100}, 30, 10, 4}}, {}, room);
  REQUIRE(right[0]);
  CHECK(right[0]->left >= 154);
  CHECK(right[0]->left < 160);
  const auto left = place_labels({{{50, 100}, 30, 10, 4}}, {}, room);
  REQUIRE(left[0]);
  CHECK(left[0]->right <= 46);
}

TEST_CASE("No label covers another, a ring, a letter or the edge of the view", "[label_places]") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> share(0, 1);
  const PageRect room{10, 20, 130, 120};
  int placed = 0;
  for (int run = 0; run < 300; ++run) {
    std::vector<LabelWish> wishes;
    for (int i = 0; i < 5; ++i)  // often near one another, as contacts are
      wishes.push_back({{60 + 25 * share(random), 60 + 25 * share(random)}, 20 + 20 * share(random), 10, 4});
    const std::vector<PageRect> taken{{10, 60, 20, 70}, {100, 105, 130, 120}};
    const auto places = place_labels(wishes, taken, room);
    for (std::size_t i = 0; i < places.size(); ++i) {
      if (!places[i]) continue;
      ++placed;
      CHECK(inside(*places[i], room));
      for (const PageRect& other : taken) CHECK_FALSE(overlap(*places[i], other));
      for (const LabelWish& wish : wishes) CHECK_FALSE(overlap(*places[i], around(wish.anchor, 4)));
      for (std::size_t j = 0; j < i; ++j) CHECK((!places[j] || !overlap(*places[i], *places[j])));
    }
  }
  CHECK(placed == 300 * 5);
}

TEST_CASE("A label without room is left out, not laid over others", "[label_places]") {
  const PageRect room{0, 0, 60, 20};
  const auto places = place_labels({{{30, 10}, 25, 10, 2}, {{31, 10}, 55, 10, 2}}, {}, room);
  CHECK(places[0]);
  CHECK_FALSE(places[1]);
}

TEST_CASE("Lines meet rectangles that they run through", "[label_places]") {
  const PageRect rect{10, 10, 20, 20};
  CHECK(line_meets({0, 15}, {30, 15}, rect));
  CHECK(line_meets({0, 0}, {30, 30}, rect));
  CHECK_FALSE(line_meets({0, 15}, {9, 15}, rect));
  CHECK_FALSE(line_meets({0, 0}, {30, 5}, rect));
  CHECK_FALSE(line_meets({5, 0}, {5, 30}, rect));
}
