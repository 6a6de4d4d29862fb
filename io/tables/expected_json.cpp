// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/tables/expected_json.hpp"

#include <nlohmann/json.hpp>

#include "io/record/run_record.hpp"
#include "io/words/expected_words.hpp"

namespace crownproof {

nlohmann::ordered_json expected_json(const VariantRecord& variant) {
  using Json = nlohmann::ordered_json;
  Json list = Json::array();
  for (const ExpectedValue& expected : variant.expected) {
    const auto found = found_value(variant, expected);
    list.push_back({{"bite", expected.bite},
                    {"zone", expected.zone ? Json(zone_name(*expected.zone)) : Json(nullptr)},
                    {"quantity", quantity_name(expected.quantity)},
                    {"expected", expected.value},
                    {"found", found ? Json(*found) : Json(nullptr)},
                    {"within_percent", expected.within_percent},
                    {"agrees", as_expected(variant, expected)},
                    {"source", expected.source}});
  }
  return list;
}

}  // namespace crownproof
