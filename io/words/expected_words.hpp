// SPDX-License-Identifier: AGPL-3.0-or-later
// Values that a case states, beside those that were found.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "io/record/expected_value.hpp"

namespace crownproof {

struct VariantRecord;

/// What was found of it; nothing where there is no such figure.
std::optional<double> found_value(const VariantRecord& variant, const ExpectedValue& expected);

/// Whether the found value lies as near as the case says.
bool as_expected(const VariantRecord& variant, const ExpectedValue& expected);

/// "tension_MPa", as the key of the case has it.
std::string quantity_name(ExpectedQuantity quantity);

/// A table for the terminal, each source once below it; empty if the case states nothing.
std::string expected_table(std::span<const VariantRecord> variants);

}  // namespace crownproof
