// Plan again in the middle: courses are laid, what is left was counted, and some colours will not last.
#include <cstdio>

#include "handlaid.hpp"

using namespace handlaid;

int main(int argc, char** argv) {
  if (argc != 7)
    return std::fprintf(stderr, "usage: replan CHART.csv PALETTE.csv PROGRESS.csv IN_HAND.csv STOCK.csv NEW-FOLDER\n"),
           2;
  try {
    const std::string numbers = read_text_file(argv[1]);
    const Raster<ColourNumber> cells = read_chart_numbers(numbers, argv[1]);
    const auto chart =
        read_chart(numbers, read_text_file(argv[2]),
                   Rectangular{.columns = cells.width(), .rows = cells.height(), .pitch = 11 * mm}, argv[1], argv[2]);
    const std::string mark = chart_fingerprint(chart);
    const Progress progress = read_progress(read_text_file(argv[3]), mark, chart.courses(), argv[3]);
    const auto in_hand = read_in_hand(read_text_file(argv[4]), mark, chart.palette.size(), argv[4]);
    const Stock stock = read_stock(read_text_file(argv[5]), argv[5]);

    const PlanAgain planning{.per_cell = 2};
    const Again again = planning(chart, progress, in_hand, stock);
    const auto after = changed(chart, again.changes);

    CsvWriter changes;
    changes.field("course").field("column").field("from").field("to").end_line();
    for (const CellChange& c : again.changes) {
      changes.field(c.course).field(c.column).field(c.from).field(c.to).end_line();
    }
    CsvWriter order;
    order.field("number").field("name").field("short").field("bought").field("left over").field("cost").end_line();
    for (const OrderLine& line : again.order.lines) {
      order.field(line.number).field(line.name).field(std::to_string(line.needed)).field(std::to_string(line.bought));
      order.field(std::to_string(line.left_over)).field(decimal_text(line.cost_hundredths, 2)).end_line();
    }
    OutputFolder out(argv[6]);
    out.write("chart.csv", write_chart(after));
    out.write("progress.csv", write_progress(progress, chart_fingerprint(after)));  // goes on with the new chart
    out.write("changes.csv", changes.text());
    out.write("order.csv", order.text());
    out.finish();

    const Remaining rest = remaining(after, progress, planning.per_cell);
    std::vector<TimedWork> timed;
    for (std::size_t i = 0; i < progress.done.size(); ++i) {
      std::int64_t laid = 0;
      for (const ColourNumber number : chart.course(progress.done[i].course))
        laid += number > 0 ? planning.per_cell : 0;
      if (progress.done[i].time_s == 0 || laid == 0) continue;
      timed.push_back({.unit = static_cast<std::int64_t>(i) + 1, .amount = laid, .seconds = progress.done[i].time_s});
    }
    std::printf("%s changed, %s to buy: %s\n", count_text(std::ssize(again.changes), "cell", "cells").c_str(),
                money_text(again.order.cost_hundredths(), again.order.currency).c_str(), argv[6]);
    if (timed.empty()) return std::printf("No course is timed: nothing can be said of the hours.\n"), 0;
    const auto next = std::ssize(progress.done) + 1;
    const LabourForecast hours = forecast(fit_learning(timed), next, rest.course_pieces);
    std::printf("%s left: %s to %s minutes, likely %s\n",
                count_text(std::ssize(rest.courses), "course", "courses").c_str(), count_text(hours.low_s / 60).c_str(),
                count_text((hours.high_s + 59) / 60).c_str(), count_text((hours.likely_s + 30) / 60).c_str());
  } catch (const Error& error) {
    return std::fprintf(stderr, "replan: %s\n", error.what()), 1;
  }
}
