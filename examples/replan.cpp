// Plan again in the middle: courses are laid, what is left was counted, and some colours will not last.
#include <cstdio>
#include <cstdlib>
#include <filesystem>

#include "handlaid.hpp"

using namespace handlaid;

namespace {

/// Empty forms of a plan: no course is laid, and all that the panel asks for is in hand.
void make_forms(const PlanFolder& plan, const std::string& folder) {
  std::vector<std::int64_t> in_hand;
  for (const PieceLine& line : plan.pieces().lines) in_hand.push_back(line.pieces + line.spares);
  OutputFolder out(folder);
  out.write("progress.csv", write_progress({}, plan.mark));
  out.write("in_hand.csv", write_in_hand(in_hand, plan.mark));
  out.finish();
  std::printf("%s: fill in progress.csv and in_hand.csv\n", folder.c_str());
}

/// Courses and days from now on, by the minutes of the courses laid, or by the rate of the plan before there are any.
void say_hours(const PlanFolder& plan, const Progress& progress, const Remaining& rest, int minutes_a_day) {
  const std::vector<TimedWork> timed = timed_courses(plan.chart, progress, plan.per_cell());
  LearningCurve curve = fit_learning(timed);
  if (timed.empty()) {
    curve.first_ms = plan.job.rates({.pieces = 1}).lines.at(0).each_ms;
    std::printf("No course is timed yet; by the rate of the plan:\n");
  }
  const auto next = std::ssize(progress.done) + 1;
  const LabourForecast hours = forecast(curve, next, rest.course_pieces);
  std::printf("%s left: %s to %s minutes, likely %s\n",
              count_text(std::ssize(rest.courses), "course", "courses").c_str(), count_text(hours.low_s / 60).c_str(),
              count_text((hours.high_s + 59) / 60).c_str(), count_text((hours.likely_s + 30) / 60).c_str());
  const std::vector<int> days = day_targets(curve, next, rest.course_pieces, minutes_a_day);
  if (days.empty()) return;
  std::printf("At %d minutes a day: %s; courses to finish each day:", minutes_a_day,
              count_text(std::ssize(days), "day", "days").c_str());
  for (std::size_t day = 0; day < days.size() && day < 14; ++day) std::printf(" %d", days[day]);
  std::printf(days.size() > 14 ? " ...\n" : "\n");
}

/// Paths of a job file are relative to its folder.
Job moved(Job job, const std::string& from, const std::string& to) {
  namespace fs = std::filesystem;
  for (auto* path : {&job.picture, &job.stock, &job.importance, &job.changes}) {
    if (*path) *path = fs::proximate(fs::path(from) / **path, fs::weakly_canonical(fs::absolute(to))).string();
  }
  return job;
}

void replan(const std::vector<std::string>& files, int minutes_a_day) {
  const PlanFolder plan = read_plan_folder(files[0]);
  const Progress progress = read_progress(read_text_file(files[1]), plan.mark, plan.chart.courses(), files[1]);
  const auto in_hand = read_in_hand(read_text_file(files[2]), plan.mark, plan.chart.palette.size(), files[2]);
  const std::string stock_file = files.size() == 5 ? files[3] : plan.stock_file;
  const Stock stock = stock_file.empty() ? Stock{} : read_stock(read_text_file(stock_file), stock_file);

  const Again again = PlanAgain{.per_cell = plan.per_cell()}(plan.chart, progress, in_hand, stock);
  PlanFolder after = plan;
  after.chart = changed(plan.chart, again.changes);
  after.mark = chart_fingerprint(after.chart);  // the files of the new folder go on with the new chart
  const auto then_in_hand = with_order(in_hand, again.order);
  const Remaining rest = remaining(after.chart, progress, plan.per_cell());

  OutputFolder out(files.back());
  out.write("plan.job", write_job(moved(plan.job, files[0], files.back())));
  out.write("chart.csv", write_chart(after.chart));
  out.write("palette.csv", write_palette(after.pieces(), tally(after.chart)));
  out.write("progress.csv", write_progress(progress, after.mark));
  out.write("in_hand.csv", write_in_hand(then_in_hand, after.mark));
  out.write("remaining.csv", write_remaining(rest, after.chart.palette, then_in_hand));
  out.write("changes.csv", write_changes(again.changes));
  out.write("order.csv", write_order(again.order));
  say_hours(after, progress, rest, minutes_a_day);
  out.finish();
  std::printf("%s changed, %s to buy%s: %s\n", count_text(std::ssize(again.changes), "cell", "cells").c_str(),
              money_text(again.order.cost_hundredths(), again.order.currency).c_str(),
              again.proven() ? "; no other way is cheaper" : "", files.back().c_str());
}

}  // namespace

constexpr const char* usage =
    "usage: replan --forms PLAN-FOLDER NEW-FOLDER\n"
    "       replan [--minutes A-DAY] PLAN-FOLDER PROGRESS.csv IN_HAND.csv [STOCK.csv] NEW-FOLDER\n"
    "Finds the least costly way on from the courses that are laid and the pieces that are left.\n";

int main(int argc, char** argv) {
  std::vector<std::string> words(argv + 1, argv + argc);
  if (words.size() == 1 && words[0] == "--help") return std::printf("%s", usage), 0;
  try {
    if (words.size() == 3 && words[0] == "--forms") return make_forms(read_plan_folder(words[1]), words[2]), 0;
    int minutes_a_day = 60;
    if (words.size() > 2 && words[0] == "--minutes") {
      const bool whole = words[1].size() < 6 && words[1].find_first_not_of("0123456789") == std::string::npos;
      minutes_a_day = whole ? std::atoi(words[1].c_str()) : 0;
      words.erase(words.begin(), words.begin() + 2);
    }
    if (words.size() == 4 || words.size() == 5) return replan(words, minutes_a_day), 0;
  } catch (const Error& error) {
    return std::fprintf(stderr, "replan: %s\n", error.what()), 1;
  }
  return std::fprintf(stderr, "%s", usage), 2;
}
