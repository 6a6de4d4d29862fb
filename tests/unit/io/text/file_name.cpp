// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/file_name.hpp"

#include <catch2/catch.hpp>

using namespace crownproof;

TEST_CASE("Names become safe file names", "[results_folder]") {
  CHECK(file_safe("clench", "bite") == "clench");
  CHECK(file_safe("../../etc/passwd", "bite") == "etc_passwd");
  CHECK(file_safe("  night  grinding (left) ", "bite") == "night_grinding_left");
  CHECK(file_safe("\xE5\x92\xAC\xE5\x90\x88", "bite_1") == "bite_1");
  CHECK(file_safe(std::string(500, 'a'), "bite").size() == 60);
}
