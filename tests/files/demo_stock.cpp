// The demo's own stock: what the example says of it is so.
#include <fstream>
#include <set>
#include <sstream>

#include "handlaid/files/stock_table.hpp"
#include "handlaid/takeoff/packs.hpp"
#include "support/catch.hpp"

using namespace handlaid;

TEST_CASE("the demo's felt stock has 60 colours, each on sale, larger packs cheaper by the piece") {
  std::ifstream file(HANDLAID_TEST_DATA "/../../examples/demo/felt_stock.csv");
  REQUIRE(file);
  std::ostringstream text;
  text << file.rdbuf();
  const Stock stock = read_stock(text.str(), "felt_stock.csv");
  CHECK(stock.colours.size() == 60);
  CHECK(stock.currency == "EUR");
  std::set<Srgb8> colours;
  for (const StockColour& item : stock.colours) {
    INFO(item.name);
    colours.insert(item.colour);
    REQUIRE(item.packs.size() >= 2);
    for (std::size_t i = 1; i < item.packs.size(); ++i) {
      CHECK(item.packs[i].pieces > item.packs[i - 1].pieces);
      CHECK(item.packs[i].price_hundredths * item.packs[i - 1].pieces <
            item.packs[i - 1].price_hundredths * item.packs[i].pieces);
    }
  }
  CHECK(colours.size() == 60);
  // The text is what the library would write, so that it can be edited by program and by hand.
  CHECK(write_stock(stock) == text.str());
}
