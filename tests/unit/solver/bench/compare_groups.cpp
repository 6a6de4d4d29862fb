// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/compare_groups.hpp"

#include <catch2/catch.hpp>

#include "solver/bench/random_numbers.hpp"
#include "tests/support/nist_data.hpp"

using namespace crownproof;
using namespace crownproof::test;

namespace {

Group sample(RandomNumbers& random, double characteristic, double modulus, int n, double limit = 1e9) {
  Group group{"group", {}};
  for (int i = 0; i < n; ++i) {
    const double s = random.weibull(characteristic, modulus);
    group.specimens.push_back({std::min(s, limit), s < limit});
  }
  return group;
}

}  // namespace

TEST_CASE("pooling the two silicon nitride batches is flagged", "[compare_groups]") {
  const auto warning = why_not_pool({{"batch 1", silicon_nitride(1)}, {"batch 2", silicon_nitride(2)}});
  REQUIRE(warning);
  CHECK(warning->moduli[0] == Approx(14.0397).epsilon(1e-4));
  CHECK(warning->moduli[1] == Approx(9.79).epsilon(1e-2));
  CHECK(warning->pooled_modulus == Approx(10.1).margin(0.05));
  CHECK(warning->p < evidence_p);
  std::vector<Specimen> odd, even;
  for (const Specimen& s : silicon_nitride(1)) (odd.size() > even.size() ? even : odd).push_back(s);
  CHECK_FALSE(why_not_pool({{"odd", odd}, {"even", even}}));
}

TEST_CASE("the likelihood-ratio test rejects equal groups as often as it says", "[compare_groups]") {
  RandomNumbers random(7);
  int rejected = 0, found = 0;
  for (int i = 0; i < 1000; ++i) {
    const auto a = sample(random, 1000, 8, 25), b = sample(random, 1000, 8, 25),
               c = sample(random, 850, 8, 25);
    rejected += likelihood_ratio_test(a.specimens, b.specimens).p < 0.05;
    found += likelihood_ratio_test(a.specimens, c.specimens).p < 0.05;
  }
  CHECK(rejected > 30);  // 5 % of 1000 is 50; the test is known to be a little liberal at 25 a group
  CHECK(rejected < 90);
  CHECK(found > 900);
}

TEST_CASE("groups with suspended specimens are compared both ways", "[compare_groups]") {
  RandomNumbers random(3);
  const auto comparison =
      compare_groups(sample(random, 2000, 6, 12, 2100), sample(random, 2300, 6, 12, 2100));
  REQUIRE(comparison.numbers);
  REQUIRE(comparison.likelihood);
  const auto none = compare_groups({"a", {{5, true}, {6, true}}}, {"b", {{9, false}, {9, false}}});
  CHECK_FALSE(none.likelihood);
  CHECK_FALSE(none.why_no_likelihood.empty());
}
