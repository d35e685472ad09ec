// What the report measures: a task is one side of a figure, made ready beforehand, then run and timed. Each file beside
// this one puts its tasks on the list; report.py pairs them, repeats them in turns and judges.
#pragma once

#include <functional>
#include <map>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/raster.hpp"

namespace handlaid_bench {

struct Task {
  /// What is timed.
  std::function<void()> run = {};
  /// What came out of the last run, as one line without tabs; may be empty.
  std::function<std::string()> result = {};
};

using Arguments = std::vector<std::string>;
/// Makes a task ready: reads and converts whatever is not to be timed.
using MakeTask = std::function<Task(const Arguments&)>;

inline std::map<std::string, MakeTask>& tasks() {
  static std::map<std::string, MakeTask> all;
  return all;
}

/// Puts a task on the list: `const AddTask name("word", …);` in its file.
struct AddTask {
  AddTask(const std::string& word, MakeTask make) { tasks()[word] = std::move(make); }
};

/// An argument, from 0 on.
inline const std::string& argument(const Arguments& arguments, std::size_t i) {
  if (i >= arguments.size()) throw std::invalid_argument("an argument is missing");
  return arguments[i];
}

/// The picture of a file, read once.
const handlaid::Raster<handlaid::Srgb8>& picture(const std::string& path);

}  // namespace handlaid_bench
