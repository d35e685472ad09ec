// The one exception of the library: what was wrong, where, and what to do about it.
// Every message is built here, by a named maker that takes the culprit, so that the wording is uniform.
#pragma once

#include <exception>
#include <string>
#include <utility>

namespace handlaid {

/// Thrown by every part of the library. `what()` is one line: "where: problem; remedy".
class Error : public std::exception {
 public:
  enum class Kind {
    option,  ///< a value that was asked for makes no sense (a program exits with 2)
    input,   ///< something that was read is missing, damaged or of the wrong kind (exit 1)
    output,  ///< something could not be written (exit 1)
    stopped  ///< the caller asked for the work to stop (exit 1)
  };

  Error(Kind kind, const std::string& where, const std::string& problem, const std::string& remedy)
      : kind_(kind), line_(where + ": " + problem + (remedy.empty() ? "" : "; " + remedy)) {}

  /// An option whose value cannot be used: `option` is its name as the user wrote it.
  static Error bad_option(const std::string& option, const std::string& problem, const std::string& remedy) {
    return {Kind::option, option, problem, remedy};
  }
  /// An option outside its range.
  static Error out_of_range(const std::string& option, const std::string& found, const std::string& range) {
    return {Kind::option, option, found + " is out of range", "give " + range};
  }
  /// Input that cannot be used: `where` names the file, or says what the bytes are.
  static Error bad_input(const std::string& where, const std::string& problem, const std::string& remedy) {
    return {Kind::input, where, problem, remedy};
  }
  /// A text file with a fault at a place. Lines and columns count from 1; column 0 stands for the whole line.
  static Error bad_line(const std::string& file, int line, int column, const std::string& problem,
                        const std::string& remedy) {
    std::string where = file + ", line " + std::to_string(line);
    if (column > 0) where += ", column " + std::to_string(column);
    return {Kind::input, where, problem, remedy};
  }
  /// Output that could not be written.
  static Error bad_output(const std::string& where, const std::string& problem, const std::string& remedy) {
    return {Kind::output, where, problem, remedy};
  }
  /// The caller's `Work::stop` said so.
  static Error stopped(const std::string& step) {
    return {Kind::stopped, step, "stopped as asked", "nothing was kept of it"};
  }

  Kind kind() const noexcept { return kind_; }
  const char* what() const noexcept override { return line_.c_str(); }

 private:
  Kind kind_;
  std::string line_;
};

}  // namespace handlaid
