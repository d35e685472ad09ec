// Runs one side of a figure each time it is asked. A line in: a task and its arguments, parted by tabs. A line out:
// "ok", wall and processor seconds, the result; or "none" where the task is not known here (a peer that is not
// installed); or "failed" and why.
#include <ctime>
#include <iostream>
#include <sstream>

#include "handlaid/image/read.hpp"
#include "tasks.hpp"

namespace handlaid_bench {

const handlaid::Raster<handlaid::Srgb8>& picture(const std::string& path) {
  static std::map<std::string, handlaid::Raster<handlaid::Srgb8>> pictures;
  auto& found = pictures[path];
  if (found.empty()) found = handlaid::read<handlaid::Srgb8>(path, {.ground = handlaid::Srgb8{255, 255, 255}});
  return found;
}

}  // namespace handlaid_bench

namespace {

double seconds(clockid_t clock) {
  timespec now = {};
  clock_gettime(clock, &now);
  return static_cast<double>(now.tv_sec) + static_cast<double>(now.tv_nsec) * 1e-9;
}

std::string answer(const std::string& line) {
  using namespace handlaid_bench;
  static std::map<std::string, Task> ready;
  if (!ready.contains(line)) {
    std::istringstream words(line);
    std::string word;
    std::getline(words, word, '\t');
    const auto make = tasks().find(word);
    if (make == tasks().end()) return "none";
    Arguments arguments;
    for (std::string part; std::getline(words, part, '\t');) arguments.push_back(part);
    const Task task = make->second(arguments);
    if (!task.run) return "none";
    ready[line] = task;
  }
  const Task& task = ready[line];
  const double wall = seconds(CLOCK_MONOTONIC);
  const double processor = seconds(CLOCK_PROCESS_CPUTIME_ID);
  task.run();
  std::ostringstream out;
  out.precision(9);
  out << "ok\t" << seconds(CLOCK_MONOTONIC) - wall << '\t' << seconds(CLOCK_PROCESS_CPUTIME_ID) - processor << '\t'
      << (task.result ? task.result() : "");
  return out.str();
}

}  // namespace

int main() {
  for (std::string line; std::getline(std::cin, line);) {
    try {
      std::cout << answer(line) << std::endl;
    } catch (const std::exception& error) {
      std::cout << "failed\t" << error.what() << std::endl;
    }
  }
}
