// SPDX-License-Identifier: AGPL-3.0-or-later
#include <cmath>
#include <set>

#include <catch2/catch.hpp>

#include "solver/element/barycentric.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"

using namespace crownproof;

namespace {

double factorial(int n) {
  return n < 2 ? 1 : n * factorial(n - 1);
}

/// Mean of L0^a L1^b L2^c L3^d over a simplex of dimension `dim` (closed form, e.g. Stroud 1971).
double exact_mean(const std::array<int, 4>& powers, int dim) {
  double numerator = factorial(dim);
  int sum = dim;
  for (int p : powers) {
    numerator *= factorial(p);
    sum += p;
  }
  return numerator / factorial(sum);
}

double rule_mean(const std::vector<QuadraturePoint>& rule, const std::array<int, 4>& powers) {
  double mean = 0;
  for (const auto& q : rule) {
    double value = q.weight;
    for (int i = 0; i < 4; ++i) value *= std::pow(q.at[i], powers[i]);
    mean += value;
  }
  return mean;
}

/// Worst error over all monomials of total degree `degree` in the first dim+1 barycentric coordinates.
double worst_error(const std::vector<QuadraturePoint>& rule, int degree, int dim) {
  double worst = 0;
  for (int a = 0; a <= degree; ++a)
    for (int b = 0; a + b <= degree; ++b)
      for (int c = 0; a + b + c <= degree; ++c) {
        const std::array<int, 4> powers{a, b, c, degree - a - b - c};
        if (dim == 2 && powers[3] > 0) continue;
        worst = std::max(worst, std::abs(rule_mean(rule, powers) - exact_mean(powers, dim)));
      }
  return worst;
}

}  // namespace

TEST_CASE("Tetrahedron rules integrate monomials of their degree exactly, and not of the next",
          "[quadrature]") {
  const int degree = GENERATE(1, 2, 3, 5, 8);
  const auto& rule = tetrahedron_rule(degree);
  CHECK(worst_error(rule, degree, 3) < 2e-15);
  CHECK(worst_error(rule, degree + 1, 3) > 1e-8);  // the rule is not secretly a higher one: the test can fail
}

TEST_CASE("Triangle rules integrate monomials of their degree exactly, and not of the next", "[quadrature]") {
  const int degree = GENERATE(2, 4, 6, 8);
  const auto& rule = triangle_rule(degree);
  CHECK(worst_error(rule, degree, 2) < 2e-15);
  CHECK(worst_error(rule, degree + 1, 2) > 1e-8);
}

TEST_CASE("A degree between two rules gives the higher one", "[quadrature]") {
  CHECK(tetrahedron_rule(4).size() == 14);
  CHECK(tetrahedron_rule(6).size() == 46);
  CHECK(triangle_rule(3).size() == 6);
  CHECK(triangle_rule(7).size() == 16);
}

TEST_CASE("All points lie inside, weights are positive, no point comes twice", "[quadrature]") {
  for (const int degree : {1, 2, 3, 5, 8}) {
    std::set<Barycentric> seen;
    for (const auto& q : tetrahedron_rule(degree)) {
      CHECK(q.weight > 0);
      CHECK(seen.insert(q.at).second);
      for (double l : q.at) CHECK(l > 0);
    }
  }
}
