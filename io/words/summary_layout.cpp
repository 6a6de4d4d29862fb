// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/summary_layout.hpp"

#include <fmt/format.h>

#include "io/text/text_layout.hpp"

namespace crownproof {

std::string verdict_word(Verdict verdict, bool colour) {
  const std::string name = verdict_name(verdict);
  if (!colour) return name;
  const int code = verdict == Verdict::below ? 32 : verdict == Verdict::above ? 31 : 33;
  return fmt::format("\033[1;{}m{}\033[0m", code, name);
}

std::string entry(const std::string& label, const std::string& text) {
  return wrapped(text, summary_width, fmt::format("{:<11}", label), std::string(11, ' '));
}

std::string factor_cell(double value) {
  return value < 100 ? fmt::format("{:.2f}", value) : ">100";
}

}  // namespace crownproof
