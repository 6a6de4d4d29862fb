// SPDX-License-Identifier: AGPL-3.0-or-later
#include "tests/support/case_text.hpp"

#include "io/text/user_error.hpp"
#include "solver/model/model.hpp"

namespace crownproof {

Case read_and_build(const std::string& text) {
  Case whole = parse_case(text, "case.yaml", test_library());
  for (const CaseVariant& variant : whole.variants) build_model(variant.case_file, whole.library);
  return whole;
}

std::string message_of(const std::string& text) {
  try {
    read_and_build(text);
  } catch (const UserError& error) {
    return error.what();
  }
  return "";
}

}  // namespace crownproof
