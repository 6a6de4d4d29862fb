// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/shape/size_field.hpp"
#include "mesh/surface/rings.hpp"
#include "tests/support/sample_surfaces.hpp"

using namespace crownproof;

namespace {

std::vector<double> edges(const Ring& ring, const std::vector<double>& t) {
  std::vector<double> lengths;
  for (std::size_t j = 0; j < t.size(); ++j)
    lengths.push_back((ring.point(t[(j + 1) % t.size()]) - ring.point(t[j])).norm());
  return lengths;
}

}  // namespace

TEST_CASE("A circle is cut in equal edges of the asked length", "[mesher][rings]") {
  SizeRequest request;
  request.largest_mm = 0.5;
  const Ring ring = test::ball(3).rings[0];
  const SizeField size(Box{Vec3(-3, -3, -1), Vec3(3, 3, 1)}, request, {});
  const auto t = ring_nodes(ring, size);
  CHECK(t.size() == static_cast<std::size_t>(std::ceil(6 * std::numbers::pi / 0.5)));
  const auto lengths = edges(ring, t);
  CHECK(*std::max_element(lengths.begin(), lengths.end()) /
            *std::min_element(lengths.begin(), lengths.end()) <
        1.001);
}

TEST_CASE("Edges are short where the field asks for it", "[mesher][rings]") {
  SizeRequest request;
  request.largest_mm = 0.5;
  const Ring ring = test::ball(3).rings[0];
  const SizeField size(Box{Vec3(-3, -3, -1), Vec3(3, 3, 1)}, request, {{{3, 0, 0}, 0.4, 0.1}});
  const auto t = ring_nodes(ring, size);
  const auto lengths = edges(ring, t);
  for (std::size_t j = 0; j < t.size(); ++j) {
    const double next = j + 1 < t.size() ? t[j + 1] : 1;
    const double asked = size(ring.point(0.5 * (t[j] + next)));
    CHECK(lengths[j] == Approx(asked).epsilon(0.2));
  }
  CHECK(std::is_sorted(t.begin(), t.end()));
  CHECK(t.front() == 0);
}

TEST_CASE("Even parameters share out an uneven polyline", "[mesher][rings]") {
  const auto t = even_parameters({3, 1, 0, 4}, 4);  // total 8: nodes at 0, 2, 4, 6
  REQUIRE(t.size() == 4);
  CHECK(t[0] == Approx(0));
  CHECK(t[1] == Approx(2.0 / 3 / 4));
  CHECK(t[2] == Approx(0.75));  // after pieces 0, 1 and the empty one
  CHECK(t[3] == Approx(0.75 + 0.5 / 4));
}
