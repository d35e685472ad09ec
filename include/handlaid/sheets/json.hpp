// A small writer of JSON (RFC 8259): commas and quotes are its business, names and values the caller's.
#pragma once

#include <charconv>
#include <concepts>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/sheets/utf8.hpp"

namespace handlaid {

/// `text` as a JSON string with its quotes. What is not UTF-8 becomes U+FFFD.
template <When = When::called>
std::string json_string(std::string_view text) {
  constexpr char digits[] = "0123456789abcdef";
  std::string quoted = "\"";
  for (const char c : valid_utf8(text)) {
    const auto code = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      quoted += '\\';
      quoted += c;
    } else if (code < 0x20 || code == 0x7f) {
      quoted += "\\u00";
      quoted += digits[code / 16];
      quoted += digits[code % 16];
    } else {
      quoted += c;
    }
  }
  return quoted + "\"";
}

/// A reported figure to four digits; null where it is no number. The last digits differ between builds, these do not.
template <When = When::called>
std::string json_figure(double value) {
  if (!(value > -1e300 && value < 1e300)) return "null";
  char text[32];
  const auto end = std::to_chars(text, text + sizeof text, value, std::chars_format::general, 4).ptr;
  return {text, end};
}

/// A document under construction. Objects and arrays are opened and closed; inside an object each value has a name.
class Json {
 public:
  Json& open_object(std::string_view name = {}) { return open(name, '{'); }
  Json& open_array(std::string_view name = {}) { return open(name, '['); }
  /// Closes what was opened last.
  Json& close() {
    if (open_.empty()) throw Error::bad_option("json", "nothing is open", "open an object or array first");
    text_ += open_.back() == '{' ? '}' : ']';
    open_.pop_back();
    first_ = false;
    return *this;
  }
  Json& add(std::string_view name, std::string_view text) { return put(name, json_string(text)); }
  Json& add(std::string_view name, const char* text) { return put(name, json_string(text)); }
  template <std::integral Whole>
  Json& add(std::string_view name, Whole value) {
    if constexpr (std::same_as<Whole, bool>) {
      return put(name, value ? "true" : "false");
    } else {
      return put(name, std::to_string(value));
    }
  }
  /// A figure that is reported, to four digits.
  Json& add_figure(std::string_view name, double value) { return put(name, json_figure(value)); }
  Json& add_null(std::string_view name) { return put(name, "null"); }
  /// An element of an array.
  template <class Item>
  Json& item(const Item& value) {
    return add({}, value);
  }

  /// Everything so far and a line end; throws Error while something is still open.
  std::string finish() && {
    if (!open_.empty()) throw Error::bad_option("json", "something is still open", "close it");
    return std::move(text_) + "\n";
  }

 private:
  Json& open(std::string_view name, char bracket) {
    put(name, std::string(1, bracket));
    open_ += bracket;
    first_ = true;
    return *this;
  }
  Json& put(std::string_view name, std::string_view value) {
    if (!first_) text_ += ',';
    // an outer level a line, so that the file can be read and compared
    if (!open_.empty() && open_.size() <= 2) text_ += "\n" + std::string(open_.size(), ' ');
    first_ = false;
    if (!open_.empty() && open_.back() == '{') {
      text_ += json_string(name);
      text_ += ": ";
    }
    text_ += value;
    return *this;
  }

  std::string text_;
  std::string open_;
  bool first_ = true;
};

}  // namespace handlaid
