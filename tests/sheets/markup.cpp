#include "handlaid/sheets/markup.hpp"

#include "sheets/well_formed.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;
using handlaid_test::read_markup;

// XML 1.0, fifth edition, sections 2.2 (characters) and 2.4 (markup that must be escaped)
TEST_CASE("text from others cannot leave its place") {
  CHECK(escaped("<b>\"A\" & 'B'</b>") == "&lt;b&gt;&quot;A&quot; &amp; &#39;B&#39;&lt;/b&gt;");
  CHECK(escaped("moss\tand\nfern") == "moss and fern");
  CHECK(escaped("a\x01z") == "a\xef\xbf\xbdz");
  CHECK(escaped("Grün 🌿 שלום") == "Grün 🌿 שלום");
  CHECK(escaped("\xef\xbf\xbe") == "\xef\xbf\xbd");  // U+FFFE is no character
  CHECK(escaped("\xef\xbf\xbd") == "\xef\xbf\xbd");
  CHECK(escaped("\xc3(") == "\xef\xbf\xbd(");
  CHECK(attribute("alt", "6\" <wide>") == " alt=\"6&quot; &lt;wide&gt;\"");
}

// RFC 3629, section 4, and the examples of its section 10
TEST_CASE("only UTF-8 in its shortest form is kept") {
  const std::string bad = "\xef\xbf\xbd";
  CHECK(valid_utf8("\xf0\x9f\x8c\xbf\xe2\x82\xac\xc3\xa9z") == "\xf0\x9f\x8c\xbf\xe2\x82\xac\xc3\xa9z");
  CHECK(valid_utf8("\xc0\x80") == bad + bad);                      // overlong
  CHECK(valid_utf8("\xed\xa0\x80") == bad + bad + bad);            // surrogate
  CHECK(valid_utf8("\xf4\x90\x80\x80") == bad + bad + bad + bad);  // beyond U+10FFFF
  CHECK(valid_utf8("\xe2\x82") == bad + bad);                      // cut short
  CHECK(valid_utf8("\xff") == bad);
}

TEST_CASE("markup closes what it opens") {
  Markup page;
  page.open("ul", R"(class="a")").element("li", "1 < 2").leaf("img", attribute("alt", "x")).close();
  const std::string text = std::move(page).finish();
  CHECK(text == "<ul class=\"a\"><li>1 &lt; 2</li><img alt=\"x\"/></ul>");
  CHECK(read_markup(text).fault.empty());

  Markup open;
  open.open("p");
  CHECK_THROWS_WITH(std::move(open).finish(), contains("p is still open"));
  CHECK_THROWS_WITH(Markup{}.close(), contains("nothing is open"));
}

TEST_CASE("the reader of the tests finds faults") {
  for (const char* wrong :
       {"<a><b></a></b>", "<a>", "<a></a><b></b>", "<a>1 & 2</a>", "<a x=1></a>", "<a x=\"1\" x=\"2\"></a>",
        "<a><b id=\"i\"/><c id=\"i\"/></a>", "<a x=\"<\"></a>", "x<a></a>"}) {
    INFO(wrong);
    CHECK_FALSE(read_markup(wrong).fault.empty());
  }
}
