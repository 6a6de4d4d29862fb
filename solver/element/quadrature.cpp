// SPDX-License-Identifier: AGPL-3.0-or-later
// Symmetric quadrature rules on the tetrahedron and the triangle. All points lie inside and all weights are
// positive, so that powers of stress are summed without cancellation.
#include <algorithm>
#include <cassert>
#include <cmath>

#include "solver/element/barycentric.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"

namespace crownproof {
namespace {

using Rule = std::vector<QuadraturePoint>;

/// All distinct orders of the first `n` coordinates of a point, each with the same weight.
Rule orbit(Barycentric at, int n, double weight) {
  Rule points;
  const auto last = at.begin() + n;
  std::sort(at.begin(), last);
  do points.push_back({at, weight});
  while (std::next_permutation(at.begin(), last));
  return points;
}

Rule join(const std::vector<Rule>& orbits) {
  Rule rule;
  for (const Rule& points : orbits) rule.insert(rule.end(), points.begin(), points.end());
  return rule;
}

/// Four points near the corners (a < 1/4) or near the faces (a > 1/4).
Rule tet_corners(double weight, double a) {
  return orbit({a, a, a, 1 - 3 * a}, 4, weight);
}
/// Six points on the lines between middles of opposite edges.
Rule tet_edges6(double weight, double a) {
  return orbit({a, a, 0.5 - a, 0.5 - a}, 4, weight);
}
/// Twelve points.
Rule tet_twelve(double weight, double a, double b) {
  return orbit({a, a, b, 1 - 2 * a - b}, 4, weight);
}

/// Three points of a triangle.
Rule tri_corners(double weight, double a) {
  return orbit({a, a, 1 - 2 * a, 0}, 3, weight);
}
/// Six points of a triangle.
Rule tri_six(double weight, double a, double b) {
  return orbit({a, b, 1 - a - b, 0}, 3, weight);
}

}  // namespace

const std::vector<QuadraturePoint>& tetrahedron_rule(int degree) {
  assert(degree >= 0 && degree <= 8);
  // Degree 2: Hammer, Marlowe & Stroud 1956. Degree 5: Walkington 2000 (also Grundmann & Moeller 1978).
  // Degrees 3 and 8: Witherden & Vincent, Comput. Math. Appl. 69 (2015) 1232-1241.
  static const Rule centre = orbit({0.25, 0.25, 0.25, 0.25}, 4, 1);
  static const Rule degree_2 = tet_corners(0.25, (5 - std::sqrt(5.0)) / 20);
  static const Rule degree_3 = join({tet_corners(1.362178425370874e-01, 3.281633025163817e-01),
                                     tet_corners(1.137821574629126e-01, 1.080472498984286e-01)});
  static const Rule degree_5 = join({tet_corners(6 * 0.018781320953002641800, 0.31088591926330060980),
                                     tet_corners(6 * 0.012248840519393658257, 0.092735250310891226402),
                                     tet_edges6(6 * 0.0070910034628469110730, 0.045503704125649649492)});
  static const Rule degree_8 =
      join({tet_corners(2.642665090840883e-02, 1.079527249622109e-01),
            tet_corners(5.203174756373853e-02, 1.851094877825866e-01),
            tet_corners(7.525256153540199e-03, 4.231654368476728e-02),
            tet_corners(4.176378285693490e-02, 3.141817091240390e-01),
            tet_edges6(3.628093026130882e-02, 4.355913285838302e-01),
            tet_twelve(7.156902890844433e-03, 2.143393012713057e-02, 7.174640634263083e-01),
            tet_twelve(1.545348615096034e-02, 2.041393338760291e-01, 5.837973783021444e-01)});
  if (degree <= 1) return centre;
  if (degree == 2) return degree_2;
  if (degree == 3) return degree_3;
  return degree <= 5 ? degree_5 : degree_8;
}

const std::vector<QuadraturePoint>& triangle_rule(int degree) {
  assert(degree >= 0 && degree <= 8);
  // Degree 2: Strang & Fix 1973. Degrees 4, 6, 8: Dunavant, Int. J. Numer. Methods Eng. 21 (1985) 1129-1148.
  static const Rule degree_2 = tri_corners(1.0 / 3, 1.0 / 6);
  static const Rule degree_4 = join(
      {tri_corners(0.223381589678011, 0.445948490915965), tri_corners(0.109951743655322, 0.091576213509771)});
  static const Rule degree_6 = join({tri_corners(0.116786275726379, 0.249286745170910),
                                     tri_corners(0.050844906370207, 0.063089014491502),
                                     tri_six(0.082851075618374, 0.053145049844817, 0.310352451033784)});
  static const Rule degree_8 = join({orbit({1.0 / 3, 1.0 / 3, 1.0 / 3, 0}, 3, 0.144315607677787),
                                     tri_corners(0.095091634267285, 0.459292588292723),
                                     tri_corners(0.103217370534718, 0.170569307751760),
                                     tri_corners(0.032458497623198, 0.050547228317031),
                                     tri_six(0.027230314174435, 0.008394777409958, 0.263112829634638)});
  if (degree <= 2) return degree_2;
  if (degree <= 4) return degree_4;
  return degree <= 6 ? degree_6 : degree_8;
}

}  // namespace crownproof
