// Many numerals as one element of text: each digit stands at its own place, so that a chart of 100,000 cells is a
// handful of elements. Digits are placed by their middles, so that the reader's own font may be a little wider or
// narrower.
#pragma once

#include <cstdint>
#include <string>

#include "handlaid/core/length.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/sheets/figures.hpp"
#include "handlaid/sheets/look.hpp"
#include "handlaid/sheets/markup.hpp"

namespace handlaid {

/// Where a numeral is held.
enum class Anchor { left, middle, right };

/// Numerals of one size and one ink. Lengths are coordinates of the drawing.
class Numerals {
 public:
  explicit Numerals(Length em) : em_(em) {}

  Length em() const { return em_; }
  bool empty() const { return digits_.empty(); }

  /// A number of 0 or more whose middle height is at `y`.
  template <When = When::called>
  void add(int number, Length x, Length y, Anchor anchor = Anchor::middle) {
    const std::string digits = std::to_string(number);
    const Length advance = share(look::digit_advance);
    const auto count = static_cast<std::int64_t>(digits.size());
    // the middle of the first digit
    Length at = x + advance.divided(2);
    if (anchor == Anchor::middle) at = x - advance.times(count - 1).divided(2);
    if (anchor == Anchor::right) at = x + advance.divided(2) - advance.times(count);
    const Length baseline = tenth(y + share(look::digit_height).divided(2));
    if (digits_.empty()) first_ = last_ = baseline;
    for (const char digit : digits) {
      append(xs_, drawing_mm(tenth(at)));
      append(steps_, drawing_mm(baseline - last_));
      last_ = baseline;
      digits_ += digit;
      at += advance;
    }
  }

  /// Writes the element; nothing where there are no numerals.
  template <When = When::called>
  void write(Markup& markup, std::string_view attributes) const {
    if (digits_.empty()) return;
    markup.open("text", "x=\"" + xs_ + "\" y=\"" + drawing_mm(first_) + "\" dy=\"" + steps_ + "\" font-size=\"" +
                            drawing_mm(em_) + "\"" + (attributes.empty() ? "" : " ") + std::string(attributes));
    markup.raw(digits_).close();
  }

 private:
  Length share(int thousandths) const { return em_.times(thousandths).divided(1000); }
  /// To a tenth of a unit where cells are of usual size, finer where they are small.
  Length tenth(Length place) const {
    const std::int64_t step = em_ < 2 * mm ? 10 : 100;
    return place.divided(step).times(step);
  }
  static void append(std::string& list, const std::string& item) {
    if (!list.empty()) list += ' ';
    list += item;
  }

  Length em_;
  std::string xs_;
  /// Baselines: the first one, and from each digit to the next, which is mostly 0 and so takes two bytes instead of
  /// six.
  Length first_ = {};
  Length last_ = {};
  std::string steps_;
  std::string digits_;
};

}  // namespace handlaid
