// SPDX-License-Identifier: AGPL-3.0-or-later
// Words in the cells of a bench table: kinds of test, ends of tests, and what people write for them.
#pragma once

#include <string>
#include <vector>

#include "io/bench_table/bench_end.hpp"
#include "io/bench_table/remark.hpp"
#include "io/text/delimited_text.hpp"
#include "solver/bench/bench_specimen.hpp"

namespace crownproof {

/// A word that was understood. Remarks where it is not the word of the guide.
template <typename Value>
struct UnderstoodWord {
  Value value;
  std::vector<Remark> remarks = {};
};

/// All throw UserError with the words that are allowed.
UnderstoodWord<BenchTest> test_word(const TableCell& cell);
UnderstoodWord<BenchEnd> end_word(const TableCell& cell);
UnderstoodWord<std::optional<LayerNormal>> layer_normal_of_word(const TableCell& cell);

/// Whether a cell says how a test ended.
bool is_end_word(const std::string& text);

/// Whether a cell names a mean, a scatter or a count, so that its line is no specimen.
bool names_a_summary(const std::string& text);

/// The same for longer words at the beginning of a line: "Mean strength", "SD (n = 10)".
bool begins_like_a_summary(const std::string& text);

/// Whether a name stands for none: a dash, a question mark, "n/a".
bool stands_for_no_name(const std::string& text);

}  // namespace crownproof
