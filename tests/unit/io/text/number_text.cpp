// SPDX-License-Identifier: AGPL-3.0-or-later
// Numbers as spreadsheets write them. Expected values follow from place value alone.

#include <catch2/catch.hpp>

#include "io/text/number_text.hpp"

using namespace crownproof;

TEST_CASE("numbers with a decimal point or comma, signs, thousands, units", "[text]") {
  struct Written {
    const char* text;
    DecimalMark mark;
    double value;
  };
  constexpr auto point = DecimalMark::point, comma = DecimalMark::comma;
  for (const auto& [text, mark, value] :
       {Written{"1229", point, 1229}, Written{"+3.98", point, 3.98}, Written{"-5", point, -5},
        Written{"\xE2\x88\x92"
                "5",
                point, -5},
        Written{".5", point, 0.5}, Written{"4.", point, 4}, Written{"1,229.5", point, 1229.5},
        Written{"1 229", point, 1229}, Written{"1'229'000", point, 1229000},
        Written{"1\xE2\x80\x99"
                "229",
                point, 1229},
        Written{"1.0E+03", point, 1000}, Written{"4 mm", point, 4}, Written{"3,98", comma, 3.98},
        Written{"1.229,5", comma, 1229.5}, Written{"1.229", comma, 1229}, Written{"0,3cm", comma, 0.3},
        Written{">1500", point, 1500}}) {
    INFO(text);
    const NumberText number = read_number(text, mark);
    REQUIRE(number.value);
    CHECK(*number.value == Approx(value).epsilon(1e-15));
  }
  CHECK(read_number("0.4 cm", point).unit == "cm");
  CHECK(read_number(">1500", point).or_more);
  CHECK(read_number("1.0E+03", point).rounded);
  CHECK_FALSE(read_number("1.2290E+03", point).rounded);
  CHECK(read_number("1 229", point).thousands);
}

TEST_CASE("what is no number says why", "[text]") {
  const auto why = [](const char* text) {
    const NumberText number = read_number(text, DecimalMark::point);
    CHECK_FALSE(number.value);
    return number.why_not;
  };
  for (const char* date : {"12-Mar", "3/12", "2024-03-12", "12.03.2024", "Mar-12"})
    CHECK_THAT(why(date), Catch::Contains("looks like a date"));
  CHECK_THAT(why("=A1*2"), Catch::Contains("formula"));
  CHECK_THAT(why("#N/A"), Catch::Contains("error value"));
  for (const char* text : {"1,22", "1 22", "12,34,567", "1.2.3", "0x10", "1e400", "inf", "nan", "", "1229*",
                           "25 %", "1_000", "1229 \xC2\xB1 5", ",", "'", "+", "e5", "--5"})
    CHECK_FALSE(why(text).empty());
  CHECK_FALSE(why(std::string(100000, '1').c_str()).empty());
}

TEST_CASE("what one number says of the decimal mark of its table", "[text]") {
  for (const char* text : {"3.98", "1,229.5", "0.125", "1,229,000", "1229.500"})
    CHECK(mark_hint(text) == MarkHint::point);
  for (const char* text : {"3,98", "1.229,5", "0,125", "1.229.000", "1229,500", "4,0 mm"})
    CHECK(mark_hint(text) == MarkHint::comma);
  for (const char* text : {"1229", "", "12.03.2024", "a,b", "1,2,3"})
    CHECK(mark_hint(text) == MarkHint::none);
  CHECK(mark_hint("1,229") == MarkHint::either_with_comma);
  CHECK(mark_hint("1.229") == MarkHint::either_with_point);
}
