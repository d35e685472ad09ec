#include "handlaid/files/stock_table.hpp"

#include "files/mutations.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

namespace {
const std::string felt =
    "name,colour,pieces,price EUR,in hand\n"
    "moss,#556b2f,50,3.90,12\n"
    "oat,#d8c9a8,50,3.9,\n"
    "moss,#556B2F,200,12,\n"
    "\"rust, dark\",#8b3a1e,1000,0.05,\n"
    "chalk,#f4f2ec,,,7\n";

Stock stock(const std::string& text) { return read_stock(text, "felt.csv"); }

/// The felt file with a line changed; lines count from 1.
Stock with_line(int number, const std::string& line) {
  std::string text;
  int at = 1;
  for (std::string_view rest = felt; !rest.empty(); ++at) {
    const std::size_t end = rest.find('\n') + 1;
    text += at == number ? line + "\n" : std::string(rest.substr(0, end));
    rest.remove_prefix(end);
  }
  return stock(text);
}
}  // namespace

TEST_CASE("a stock is read, the lines of a name as packs of one colour") {
  const Stock read = stock(felt);
  CHECK(read.currency == "EUR");
  REQUIRE(read.colours.size() == 4);
  CHECK(read.colours[0] ==
        StockColour{.name = "moss", .colour = {0x55, 0x6b, 0x2f}, .packs = {{50, 390}, {200, 1200}}, .in_hand = 12});
  CHECK(read.colours[1].packs == std::vector<Pack>{{50, 390}});
  CHECK(read.colours[2].name == "rust, dark");
  CHECK(read.colours[2].packs == std::vector<Pack>{{1000, 5}});
  CHECK(read.colours[3].packs.empty());
  CHECK(read.colours[3].in_hand == 7);
}

TEST_CASE("a stock is the same with CRLF, a byte-order mark, semicolons, tabs, other order and spelling of columns") {
  const Stock expected = stock(felt);
  const auto with = [](std::string text, const std::string& from, const std::string& to) {
    for (std::size_t at = 0; (at = text.find(from, at)) != text.npos; at += to.size())
      text.replace(at, from.size(), to);
    return text;
  };
  CHECK(stock(with(felt, "\n", "\r\n")) == expected);
  CHECK(stock("\xef\xbb\xbf" + felt) == expected);
  Stock without_comma = expected;
  without_comma.colours[2].name = "rust";
  const std::string plain = with(felt, "\"rust, dark\"", "rust");
  CHECK(stock(with(plain, ",", " ; ")) == without_comma);
  CHECK(stock(with(plain, ",", "\t")) == without_comma);
  CHECK(stock(with(felt, "name,colour,pieces,price EUR,in hand", " Name,COLOR,Pieces,Price (EUR),In_Hand")) ==
        expected);
  CHECK(stock("\n\nnote,price,name,,pieces,colour\nmine,1,moss,,5,#556b2f\n,,,,,\n\n").colours.size() == 1);
  CHECK(stock(with(felt, "price EUR", "price")).currency.empty());
}

TEST_CASE("a stock may be measured in another unit, and sell packs from a least number on") {
  const std::string text =
      "name,colour,ml,price,at least,in hand\nsand,#c8b48a,250,6.40,,100\nsand,#c8b48a,1000,18,2,\n";
  const Stock paint = stock(text);
  CHECK(paint.unit == StockUnit::millilitres);
  CHECK(paint.colours.at(0).packs == std::vector<Pack>{{250, 640}, {1000, 1800, 2}});
  CHECK(stock(write_stock(paint)) == paint);
  CHECK(write_stock(paint) ==
        "name,colour,ml,price,at least,in hand\nsand,#c8b48a,250,6.40,,100\nsand,#c8b48a,1000,18.00,2,\n");
  CHECK_THROWS_WITH(stock("name,colour,ml,g,price\na,#000000,1,1,1\n"), contains("two columns of amounts"));
  CHECK_THROWS_WITH(stock("name,colour,ml,price,at least\na,#000000,1,1,0\n"), contains("1 to 1000000 packs"));
}

TEST_CASE("a pack has what the shop calls it") {
  const std::string text =
      "name,colour,pieces,price,article,in hand\nmoss,#556b2f,50,3.90,M 1/50,12\nmoss,#556b2f,200,12.00,,\n";
  const Stock read = stock(text);
  CHECK(read.colours.at(0).packs == std::vector<Pack>{{50, 390, 1, "M 1/50"}, {200, 1200}});
  CHECK(write_stock(read) == text);
  const auto with_article = [&](const std::string& article) {
    return stock("name,colour,pieces,price,article\nmoss,#556b2f,50,3.90," + article + "\n");
  };
  CHECK_THROWS_WITH(with_article(std::string(61, 'x')), contains("line 2, column 22: article: it is longer than 60"));
  CHECK_THROWS_WITH(with_article("\"a\nb\""), contains("article: it has a line break or a tab"));
}

TEST_CASE("a stock written reads back the same") {
  const Stock read = stock(felt);
  CHECK(stock(write_stock(read)) == read);
}

TEST_CASE("each fault of a stock file has its line and column, and says what to do") {
  const auto header = [](const std::string& line) { return with_line(1, line); };
  CHECK_THROWS_WITH(header("name,collour,pieces,price"),
                    contains("felt.csv, line 1, column 1: there is no column \"colour\", the nearest is \"collour\""));
  CHECK_THROWS_WITH(header("name,colour,pieces,prise"), contains("no column \"price\", the nearest is \"prise\""));
  CHECK_THROWS_WITH(header("name,name,colour,pieces,price"),
                    contains("line 1, column 6: there are two columns \"name\""));
  CHECK_THROWS_WITH(header("name,colour,pieces,price,in hnad"),
                    contains("line 1, column 26: the column \"in hnad\" is not known; did you mean \"in hand\"?"));
  CHECK_THROWS_WITH(header("name,colour,pieces,price a,price b"), contains("two columns of prices"));
  CHECK_THROWS_WITH(with_line(3, "oat,#d8c9a,50,3.90,"),
                    contains("felt.csv, line 3, column 5: colour: \"#d8c9a\" is not a colour; write it as #rrggbb"));
  CHECK_THROWS_WITH(with_line(3, "oat,,50,3.90,"), contains("line 3, column 5: colour: nothing is given"));
  CHECK_THROWS_WITH(with_line(3, "oat"), contains("line 3, column 1: colour: nothing is given"));
  CHECK_THROWS_WITH(with_line(3, ",#d8c9a8,50,3.90,"), contains("line 3, column 1: name: nothing is given"));
  CHECK_THROWS_WITH(with_line(4, "moss,#556b2f,50,12,"),
                    contains("line 4, column 14: pieces: \"moss\" stands in line 2 with a pack of 50 already"));
  CHECK_THROWS_WITH(with_line(4, "moss,#556b30,200,12,"),
                    contains("line 4, column 6: colour: \"moss\" stands in line 2 with another colour"));
  CHECK_THROWS_WITH(with_line(4, "moss,#556b2f,200,12,5"),
                    contains("line 4, column 21: in hand: \"moss\" stands in line 2"));
  CHECK_THROWS_WITH(with_line(3, "oat,#d8c9a8,50,-3.90,"),
                    contains("line 3, column 16: price eur: \"-3.90\" is not an amount"));
  CHECK_THROWS_WITH(with_line(3, "oat,#d8c9a8,50,\"3,90\","), contains("with a decimal point"));
  CHECK_THROWS_WITH(with_line(3, "oat,#d8c9a8,50,3.905,"), contains("is not an amount"));
  CHECK_THROWS_WITH(with_line(3, "oat,#d8c9a8,50,3.,"), contains("is not an amount"));
  CHECK_THROWS_WITH(with_line(3, "oat,#d8c9a8,50,99999999,"), contains("out of range"));
  CHECK_THROWS_WITH(with_line(3, "oat,#d8c9a8,50,,"), contains("price eur: nothing is given"));
  CHECK_THROWS_WITH(with_line(3, "oat,#d8c9a8,,3,"), contains("pieces: nothing is given"));
  CHECK_THROWS_WITH(with_line(3, "oat,#d8c9a8,0,3,"), contains("pieces: \"0\" is out of range; give 1 to"));
  CHECK_THROWS_WITH(with_line(3, "oat,#d8c9a8,1e3,3,"), contains("\"1e3\" is not a whole number"));
  CHECK_THROWS_WITH(with_line(3, "oat,#d8c9a8,50,3.90,,x"), contains("line 3, column 22: there are more fields"));
  CHECK_THROWS_WITH(with_line(5, "rust, dark,#8b3a1e,1000,0.05,"), contains("line 5"));
  CHECK_THROWS_WITH(with_line(3, "\xf6t,#d8c9a8,50,3.90,"),
                    contains("line 3, column 1: there are bytes that are not UTF-8"));
  CHECK_THROWS_WITH(with_line(3, std::string(101, 'x') + ",#d8c9a8,50,3.90,"), contains("longer than 100 bytes"));
  CHECK_THROWS_WITH(stock(""), contains("felt.csv: it is empty; give a table with the columns name"));
  CHECK_THROWS_WITH(stock(" \n,,\n"), contains("it is empty"));
  CHECK_THROWS_WITH(stock("name,colour,pieces,price\n"), contains("it has no colours"));
}

TEST_CASE("damaged stock files are read or refused, never worse") {
  const int read = handlaid_test::count_readable(felt, 20'000, [](const std::string& text) {
    const Stock read_anyway = stock(text);
    CHECK(stock(write_stock(read_anyway)) == read_anyway);
  });
  CHECK(read > 100);
  CHECK(read < 19'900);
}
