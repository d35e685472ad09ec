// Text of SVG and HTML, built so that whatever is opened is closed and whatever was typed by others is escaped.
// The result is well-formed XML in both cases.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/sheets/utf8.hpp"

namespace handlaid {

/// `text` as it may stand between tags and in double quotes. Characters that XML 1.0 forbids become U+FFFD.
template <When = When::called>
std::string escaped(std::string_view text) {
  std::string safe;
  const std::string valid = valid_utf8(text);
  safe.reserve(valid.size());
  for (std::size_t i = 0; i < valid.size(); ++i) {
    const char c = valid[i];
    switch (c) {
      case '<':
        safe += "&lt;";
        break;
      case '>':
        safe += "&gt;";
        break;
      case '&':
        safe += "&amp;";
        break;
      case '"':
        safe += "&quot;";
        break;
      case '\'':
        safe += "&#39;";
        break;
      case '\n':
      case '\t':
        safe += ' ';
        break;
      default: {
        const bool control = static_cast<unsigned char>(c) < 0x20 || c == 0x7f;
        const bool noncharacter = valid.compare(i, 2, "\xef\xbf") == 0 && i + 2 < valid.size() &&
                                  static_cast<unsigned char>(valid[i + 2]) >= 0xbe;
        if (control || noncharacter) {
          safe += "\xef\xbf\xbd";
          if (noncharacter) i += 2;
        } else {
          safe += c;
        }
      }
    }
  }
  return safe;
}

/// ` name="value"`, escaped.
inline std::string attribute(std::string_view name, std::string_view value) {
  return " " + std::string(name) + "=\"" + escaped(value) + "\"";
}

/// A text under construction. Attributes are given as they stand, `R"(class="x")"`, or made by `attribute`.
class Markup {
 public:
  /// Opens an element.
  Markup& open(const char* tag, std::string_view attributes = {}) {
    start(tag, attributes);
    text_ += '>';
    open_.emplace_back(tag);
    return *this;
  }
  /// Closes the element that was opened last.
  Markup& close() {
    if (open_.empty()) throw Error::bad_option("markup", "nothing is open", "open an element before closing one");
    text_ += "</";
    text_ += open_.back();
    text_ += '>';
    open_.pop_back();
    return *this;
  }
  /// An element without content. In HTML only for those that never have any, such as img.
  Markup& leaf(const char* tag, std::string_view attributes = {}) {
    start(tag, attributes);
    text_ += "/>";
    return *this;
  }
  /// An element with nothing but text.
  Markup& element(const char* tag, std::string_view content, std::string_view attributes = {}) {
    return open(tag, attributes).text(content).close();
  }
  Markup& text(std::string_view content) {
    text_ += escaped(content);
    return *this;
  }
  /// What is markup already.
  Markup& raw(std::string_view content) {
    text_ += content;
    return *this;
  }
  Markup& line() {
    text_ += '\n';
    return *this;
  }

  /// Everything so far; throws Error while something is still open.
  std::string finish() && {
    if (!open_.empty()) throw Error::bad_option("markup", open_.back() + " is still open", "close it");
    return std::move(text_);
  }

 private:
  void start(const char* tag, std::string_view attributes) {
    text_ += '<';
    text_ += tag;
    if (!attributes.empty() && attributes.front() != ' ') text_ += ' ';
    text_ += attributes;
  }

  std::string text_;
  std::vector<std::string> open_;
};

}  // namespace handlaid
