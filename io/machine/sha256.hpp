// SPDX-License-Identifier: AGPL-3.0-or-later
// The SHA-256 digest (FIPS 180-4), so that a manifest names its inputs beyond doubt.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace crownproof {

/// 64 lower-case hexadecimal digits.
std::string sha256(std::string_view bytes);

/// Digest of a file's bytes. Throws ResultsError if it cannot be read.
std::string sha256_of_file(const std::filesystem::path& path);

}  // namespace crownproof
