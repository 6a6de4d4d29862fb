// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/xml_text.hpp"

#include <catch2/catch.hpp>

using namespace crownproof;

// The five characters of Extensible Markup Language 1.0, section 2.4, but the single quote, which no
// attribute of ours is set in.
TEST_CASE("Text that means something to XML is made safe", "[xml_text]") {
  CHECK(xml_escaped("a < b && \"c\" > d\n") == "a &lt; b &amp;&amp; &quot;c&quot; &gt; d ");
  CHECK(xml_escaped("12 °") == "12 °");
}
