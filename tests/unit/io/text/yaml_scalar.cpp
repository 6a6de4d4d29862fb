// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/yaml_scalar.hpp"

#include <catch2/catch.hpp>

using namespace crownproof;

namespace {

YamlNode value(const std::string& text) {
  return parse_yaml("k: " + text + "\n", "f.yaml").items.front();
}

std::string number_message(const std::string& text) {
  try {
    to_number(value(text), "'k'");
  } catch (const UserError& error) {
    return error.what();
  }
  return "";
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("decimal numbers are read exactly", "[casefile][yaml_scalar]") {
  CHECK(to_number(value("1.5"), "'k'") == 1.5);
  CHECK(to_number(value("-0.25"), "'k'") == -0.25);
  CHECK(to_number(value("+3"), "'k'") == 3);
  CHECK(to_number(value("1e-3"), "'k'") == 1e-3);
  CHECK(to_number(value(".5"), "'k'") == 0.5);
  CHECK(to_number(value("0"), "'k'") == 0);
  CHECK(to_number(value("0.1"), "'k'") == 0.1);
}

TEST_CASE("numbers that readers of YAML disagree on are refused with the remedy", "[casefile][yaml_scalar]") {
  CHECK(holds(number_message("010"), "f.yaml:1:4: 'k': '010' starts with a zero"));
  CHECK(holds(number_message("0x1F"), "Write it in decimal."));
  CHECK(holds(number_message("0o17"), "Write it in decimal."));
  CHECK(holds(number_message("1_000"), "Write 1000 without underscores."));
  CHECK(holds(number_message("1,5"), "Write 1.5 with a decimal point."));
  CHECK(holds(number_message("300 N"), "Write 300 alone; the unit is part of the key's name."));
  CHECK(holds(number_message("0.8mm"), "Write 0.8 alone; the unit is part of the key's name."));
  CHECK(holds(number_message(".inf"), "Write a finite number."));
  CHECK(holds(number_message("-.Inf"), "Write a finite number."));
  CHECK(holds(number_message(".nan"), "Write a finite number."));
  CHECK(holds(number_message("1e999"), "too large or too small"));
  CHECK(holds(number_message("no"), "must be a number, not 'no'"));
  CHECK(holds(number_message("1:30"), "must be a number"));
  CHECK(holds(number_message("\"1.5\""), "Write it without quotes."));
  CHECK(holds(number_message("[1]"), "not a list"));
  CHECK(holds(number_message(""), "not nothing"));
  CHECK(holds(number_message("~"), "not nothing"));
  CHECK(holds(number_message("1.2.3"), "must be a number"));
  CHECK(holds(number_message("--1"), "must be a number"));
  CHECK(holds(number_message("e5"), "must be a number"));
}

TEST_CASE("whole numbers, truth and text", "[casefile][yaml_scalar]") {
  CHECK(to_whole_number(value("150000"), "'k'") == 150000);
  CHECK_THROWS_WITH(to_whole_number(value("1.5"), "'k'"), Catch::Contains("must be a whole number"));
  CHECK_THROWS_WITH(to_whole_number(value("1e10"), "'k'"), Catch::Contains("must be a whole number"));
  CHECK(to_truth(value("true"), "'k'"));
  CHECK_FALSE(to_truth(value("false"), "'k'"));
  CHECK_THROWS_WITH(to_truth(value("no"), "'k'"), Catch::Contains("must be true or false, not 'no'"));
  CHECK_THROWS_WITH(to_truth(value("\"true\""), "'k'"), Catch::Contains("must be true or false"));
  CHECK(to_text(value("buccal side"), "'k'") == "buccal side");
  CHECK(to_text(value("\"no\""), "'k'") == "no");
  CHECK_THROWS_WITH(to_text(value("no"), "'k'"), Catch::Contains("Write \"no\"."));
  CHECK_THROWS_WITH(to_text(value("12"), "'k'"), Catch::Contains("Write \"12\"."));
}
