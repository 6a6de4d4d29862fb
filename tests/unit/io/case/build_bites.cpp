// SPDX-License-Identifier: AGPL-3.0-or-later
// The force of a bite: given contact by contact, or as one resultant that they share.
#include <cmath>
#include <string>

#include <catch2/catch.hpp>

#include "solver/model/bite.hpp"
#include "solver/model/model.hpp"
#include "tests/support/case_text.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;

namespace {

std::string shared(const std::string& first, const std::string& second, const std::string& total) {
  const std::string text = with(small_case(), "    contacts:", total + "    contacts:");
  return with(with(text, "force_N: 300", first), "force_N: 100", second);
}

Bite bite_of(const std::string& text) {
  const Case whole = read_and_build(text);
  return build_model(whole.variants[0].case_file, whole.library).bites.front();
}

}  // namespace

TEST_CASE("Contacts share the force of a bite by their weights", "[build_bites]") {
  const Bite bite = bite_of(shared("share: 3", "share: 1", "    total_force_N: 800\n"));
  CHECK_THAT(bite.contacts[0].force_N, Catch::WithinRel(600.0, 1e-12));
  CHECK_THAT(bite.contacts[1].force_N, Catch::WithinRel(200.0, 1e-12));
  CHECK_THAT(resultant_N(bite).norm(), Catch::WithinRel(800.0, 1e-12));
}

// Two equal forces at a and -a to the axis have the resultant 2 F cos a along it (parallelogram of forces);
// with
// a = 30 degrees 2000 N take 1154.70 N each.
TEST_CASE("The force of a bite is its resultant, not the sum of magnitudes", "[build_bites]") {
  const std::string left = "share: 1, direction: [0.5, 0, -0.8660254037844386]",
                    right = "direction: [-0.5, 0, -0.8660254037844386]";
  const Bite bite = bite_of(shared(left, right, "    total_force_N: 2000\n"));
  CHECK_THAT(bite.contacts[0].force_N, Catch::WithinRel(2000 / std::sqrt(3.0), 1e-9));
  CHECK_THAT(bite.contacts[1].force_N, Catch::WithinRel(2000 / std::sqrt(3.0), 1e-9));
  CHECK_THAT(resultant_N(bite).z(), Catch::WithinRel(-2000.0, 1e-9));
}

TEST_CASE("Forces that do not say how hard a contact presses are refused", "[build_bites]") {
  CHECK_THAT(message_of(shared("pressure: hertz", "force_N: 100", "")),
             Contains("case.yaml:15") && Contains("has no 'force_N'") && Contains("total_force_N"));
  CHECK_THAT(message_of(shared("share: 1", "force_N: 100", "    total_force_N: 800\n")),
             Contains("case.yaml:17") && Contains("have no 'force_N' of their own"));
  CHECK_THAT(message_of(shared("force_N: 300, share: 1", "force_N: 100", "")),
             Contains("case.yaml:15") && Contains("which is not given"));
  CHECK_THAT(message_of(shared("direction: [0.995, 0, -0.0998]", "direction: [-0.995, 0, -0.0998]",
                               "    total_force_N: 800\n")),
             Contains("case.yaml:14") && Contains("press against each other"));
}
