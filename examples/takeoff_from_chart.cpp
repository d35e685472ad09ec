// Takeoff alone: a chart that exists already, and what your shop sells; no picture.
#include <cstdio>

#include "handlaid.hpp"

using namespace handlaid;

int main(int argc, char** argv) {
  if (argc != 5)
    return std::fprintf(stderr, "usage: takeoff_from_chart CHART.csv PALETTE.csv STOCK.csv TAKEOFF.csv\n"), 2;
  try {
    const std::string numbers = read_text_file(argv[1]);
    const Raster<ColourNumber> cells = read_chart_numbers(numbers, argv[1]);
    const auto chart =
        read_chart(numbers, read_text_file(argv[2]),
                   Rectangular{.columns = cells.width(), .rows = cells.height(), .pitch = 11 * mm}, argv[1], argv[2]);
    const Stock stock = read_stock(read_text_file(argv[3]), argv[3]);

    const auto pieces = chart | Pieces{.per_cell = 2} | Spares{.loss = 0.03, .confidence = 0.99};
    const Order order = pieces | choose_packs(stock);

    write_text_file(argv[4], write_takeoff(pieces, order));
    std::printf("%s, %s: %s\n", count_text(pieces.needed(), "piece", "pieces").c_str(),
                money_text(order.cost_hundredths(), order.currency).c_str(), argv[4]);
  } catch (const Error& error) {
    return std::fprintf(stderr, "takeoff_from_chart: %s\n", error.what()), 1;
  }
}
