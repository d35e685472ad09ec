// A table of tests/data: comma-separated, the first line names the columns, quotes as in RFC 4180.
#pragma once

#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace handlaid_test {

class Table {
 public:
  explicit Table(const std::string& name) {
    std::ifstream file(std::string(HANDLAID_TEST_DATA) + "/" + name);
    if (!file) throw std::runtime_error("no test data: " + name);
    std::string line;
    while (std::getline(file, line)) {
      if (!line.empty() && line.back() == '\r') line.pop_back();
      if (!line.empty() && line.rfind("# ", 0) != 0) rows_.push_back(cells(line));
    }
    if (rows_.size() < 2) throw std::runtime_error("no rows: " + name);
    names_ = rows_.front();
    rows_.erase(rows_.begin());
  }

  std::size_t size() const { return rows_.size(); }
  const std::string& text(std::size_t row, const std::string& column) const {
    for (std::size_t i = 0; i < names_.size(); ++i) {
      if (names_[i] == column) return rows_.at(row).at(i);
    }
    throw std::runtime_error("no column " + column);
  }
  double number(std::size_t row, const std::string& column) const { return std::stod(text(row, column)); }
  int whole(std::size_t row, const std::string& column) const { return std::stoi(text(row, column)); }

 private:
  static std::vector<std::string> cells(const std::string& line) {
    std::vector<std::string> all(1);
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
      if (line[i] == '"') {
        if (quoted && i + 1 < line.size() && line[i + 1] == '"') all.back() += line[i++];
        quoted = !quoted;
      } else if (line[i] == ',' && !quoted) {
        all.emplace_back();
      } else {
        all.back() += line[i];
      }
    }
    return all;
  }

  std::vector<std::string> names_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace handlaid_test
