// Looks into markup without a browser: whether it is well-formed, and what its elements hold.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

namespace handlaid_test {

/// An element with its attributes (still escaped) and the text right inside it.
struct Element {
  std::string tag = {};
  std::map<std::string, std::string> attributes = {};
  std::string text = {};
  int depth = 0;
};

struct Document {
  /// In the order of their start tags.
  std::vector<Element> elements = {};
  /// The first fault found; empty where there is none.
  std::string fault = {};

  std::vector<Element> all(const std::string& tag, const std::string& key = {}, const std::string& value = {}) const {
    std::vector<Element> found;
    for (const Element& element : elements) {
      const auto at = element.attributes.find(key);
      if (element.tag == tag && (key.empty() || (at != element.attributes.end() && at->second == value))) {
        found.push_back(element);
      }
    }
    return found;
  }
};

/// Reads the well-formed part of XML that our pages use: tags, quoted attributes, text, entities, one declaration; and
/// scripts, whose text is their own.
/// Everything else is a fault: a tag left open, a bare < or &, an attribute twice, an id twice, two roots.
inline Document read_markup(const std::string& text) {
  Document document;
  std::vector<std::size_t> open;
  std::set<std::string> ids;
  int roots = 0;
  const auto fault = [&](const std::string& what, std::size_t at) {
    if (document.fault.empty()) {
      document.fault = what + " at byte " + std::to_string(at) + ": " + text.substr(at, 60);
    }
  };
  const auto check_entities = [&](const std::string& part, std::size_t at) {
    for (std::size_t i = part.find('&'); i != part.npos; i = part.find('&', i + 1)) {
      const std::string entity = part.substr(i, part.find(';', i) + 1 - i);
      if (entity != "&lt;" && entity != "&gt;" && entity != "&amp;" && entity != "&quot;" && entity != "&#39;") {
        fault("bare ampersand", at + i);
      }
    }
  };
  std::size_t at = 0;
  if (text.rfind("<?xml", 0) == 0) at = text.find("?>") + 2;
  if (text.compare(at, 2, "<!") == 0) at = text.find('>', at) + 1;
  while (at < text.size() && document.fault.empty()) {
    // what is inside of a script ends only with the script
    const bool script = !open.empty() && document.elements[open.back()].tag == "script";
    const std::size_t tag = text.find(script ? "</script" : "<", at);
    const std::string between = text.substr(at, tag == text.npos ? text.npos : tag - at);
    if (!open.empty()) document.elements[open.back()].text += between;
    if (open.empty() && between.find_first_not_of(" \n") != between.npos) fault("text outside the root", at);
    const bool style = !open.empty() && document.elements[open.back()].tag == "style";
    if (!style && !script) check_entities(between, at);
    if (tag == text.npos) break;
    // the end of the tag: a > in quotes does not count
    std::size_t end = tag + 1;
    for (bool quoted = false; end < text.size() && (quoted || text[end] != '>'); ++end) {
      if (text[end] == '"') quoted = !quoted;
      if (text[end] == '<') fault("< inside a tag", end);
    }
    if (end == text.size()) fault("tag without end", tag);
    std::string inside = text.substr(tag + 1, end - tag - 1);
    at = end + 1;
    if (!inside.empty() && inside[0] == '/') {
      if (open.empty() || document.elements[open.back()].tag != inside.substr(1)) {
        fault("closing what is not open", tag);
      } else {
        open.pop_back();
      }
      continue;
    }
    const bool leaf = !inside.empty() && inside.back() == '/';
    if (leaf) inside.pop_back();
    Element element;
    element.depth = static_cast<int>(open.size());
    std::size_t i = inside.find_first_of(" \n");
    element.tag = inside.substr(0, i);
    while (i != inside.npos && (i = inside.find_first_not_of(" \n", i)) != inside.npos) {
      const std::size_t equals = inside.find("=\"", i);
      const std::size_t close = equals == inside.npos ? inside.npos : inside.find('"', equals + 2);
      if (close == inside.npos) {
        fault("attribute without a quoted value", tag);
        break;
      }
      const std::string value = inside.substr(equals + 2, close - equals - 2);
      check_entities(value, tag);
      if (!element.attributes.emplace(inside.substr(i, equals - i), value).second) fault("attribute twice", tag);
      i = close + 1;
      if (i < inside.size() && inside[i] != ' ' && inside[i] != '\n') fault("attributes run together", tag);
    }
    const auto id = element.attributes.find("id");
    if (id != element.attributes.end() && !ids.insert(id->second).second) fault("id twice", tag);
    if (open.empty() && ++roots > 1) fault("a second root", tag);
    document.elements.push_back(element);
    if (!leaf) open.push_back(document.elements.size() - 1);
  }
  if (!open.empty()) fault(document.elements[open.back()].tag + " is never closed", text.size());
  return document;
}

/// How often a text stands in another.
inline int occurrences(const std::string& text, const std::string& part) {
  int count = 0;
  for (std::size_t at = text.find(part); at != text.npos; at = text.find(part, at + part.size())) ++count;
  return count;
}

/// A count as printed, read back: "1,234" is 1234.
inline long long number_of(const std::string& text) {
  std::string digits;
  for (const char c : text) {
    if (c >= '0' && c <= '9') digits += c;
  }
  return digits.empty() ? -1 : std::stoll(digits);
}

}  // namespace handlaid_test
