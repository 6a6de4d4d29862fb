// SPDX-License-Identifier: AGPL-3.0-or-later
// Against a search through all points.
#include <catch2/catch.hpp>

#include <random>

#include "solver/model/near_nodes.hpp"

using namespace crownproof;

TEST_CASE("The nearest chosen point within reach is found", "[near_nodes]") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> place(-2, 2);
  std::vector<Vec3> points(3000);
  for (Vec3& p : points) p = Vec3(place(random), place(random), place(random));
  std::vector<int> chosen;
  for (int i = 0; i < 3000; i += 3) chosen.push_back(i);
  const double reach = 0.2;
  const NearNodes near(points, chosen, reach);
  int found = 0;
  for (int k = 0; k < 500; ++k) {
    const Vec3 from(place(random), place(random), place(random));
    int best = -1;
    double nearest = reach;
    for (const int i : chosen)
      if ((points[i] - from).norm() <= nearest) nearest = (points[i] - from).norm(), best = i;
    CHECK(near.nearest(from) == best);
    found += best >= 0;
  }
  CHECK(found > 50);
  CHECK(found < 450);
}
