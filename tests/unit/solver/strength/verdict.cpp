// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/verdict.hpp"

#include <catch2/catch.hpp>

using namespace crownproof;

TEST_CASE("verdicts have the names of the guide", "[verdict]") {
  CHECK(verdict_name(Verdict::below) == "below");
  CHECK(verdict_name(Verdict::above) == "above");
  CHECK(verdict_name(Verdict::undecided) == "undecided");
}

TEST_CASE("above outweighs undecided, which outweighs below", "[verdict]") {
  CHECK(severity(Verdict::above) > severity(Verdict::undecided));
  CHECK(severity(Verdict::undecided) > severity(Verdict::below));
}
