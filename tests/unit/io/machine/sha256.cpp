// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/machine/sha256.hpp"

#include <catch2/catch.hpp>

#include "io/machine/output_file.hpp"
#include "tests/support/scratch_folder.hpp"

using namespace crownproof;

// NIST, Examples with intermediate values for FIPS 180-4 (SHA-256), and the empty and long messages of the
// NIST validation suite (SHA256ShortMsg, one million 'a').
TEST_CASE("SHA-256 gives the published digests", "[sha256]") {
  CHECK(sha256("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  CHECK(sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(sha256(std::string(1000000, 'a')) ==
        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_CASE("A file has the digest of its bytes", "[sha256]") {
  const ScratchFolder scratch;
  write_file(scratch.path() / "case.yaml", "abc");
  CHECK(sha256_of_file(scratch.path() / "case.yaml") == sha256("abc"));
  CHECK_THROWS_WITH(sha256_of_file(scratch.path() / "gone.yaml"), Catch::Contains("gone.yaml"));
}
