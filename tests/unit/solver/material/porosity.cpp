// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/material/porosity.hpp"

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"

using namespace crownproof;

TEST_CASE("porosity laws at dental densities", "[porosity]") {
  // Hand values of exp(-3.5 P), exp(-2P/(1-P)), exp(-4P), exp(-7P).
  CHECK(stiffness_ratio(StiffnessLaw::exponential, 0.01, PoreArrangement::even, 3.5) ==
        Approx(0.966).margin(5e-4));
  CHECK(stiffness_ratio(StiffnessLaw::closed_pores, 0.02) == Approx(0.960).margin(5e-4));
  CHECK(stiffness_ratio(StiffnessLaw::closed_pores, 0.05) == Approx(0.900).margin(5e-4));
  CHECK(stiffness_ratio(StiffnessLaw::power, 0.1) == Approx(0.81).epsilon(1e-12));
  CHECK(strength_ratio(0.02, PoreArrangement::even, 4) == Approx(0.923).margin(5e-4));
  CHECK(strength_ratio(0.05, PoreArrangement::even, 7) == Approx(0.705).margin(5e-4));
  // Biscuit-sintered 3Y zirconia at 82.5 % density has 100 to 130 GPa of 210 (Kosmac et al.).
  const double biscuit = 210 * stiffness_ratio(StiffnessLaw::exponential, 0.175);
  CHECK(biscuit > 100);
  CHECK(biscuit < 130);
  for (const auto law : {StiffnessLaw::exponential, StiffnessLaw::power, StiffnessLaw::closed_pores})
    CHECK(stiffness_ratio(law, 0) == 1);
}

TEST_CASE("porosity laws know their limits", "[porosity]") {
  CHECK_THROWS_WITH(stiffness_ratio(StiffnessLaw::closed_pores, 0.2), Catch::Contains("outside the range"));
  CHECK_THROWS_WITH(strength_ratio(-0.1), Catch::Contains("outside the range"));
  CHECK_THROWS_WITH(strength_ratio(0.01, PoreArrangement::layer_aligned),
                    Catch::Contains("across the layers"));
  CHECK_THROWS_AS(stiffness_ratio(StiffnessLaw::power, 0.01, PoreArrangement::layer_aligned), ModelError);
}
