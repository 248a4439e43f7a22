#include "svg_colours.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string_view>

namespace areo::report {
namespace {

constexpr std::string_view current = "currentColor";

// Of an element's start tag: ' color="red"' has name " color" and value "red".
std::string value_of(std::string_view tag, std::string_view name) {
  for (const char quote : {'\'', '"'}) {
    const std::string begin = fmt::format(" {}={}", name, quote);
    const std::size_t at = tag.find(begin);
    if (at == std::string_view::npos) continue;
    const std::size_t from = at + begin.size();
    return std::string{tag.substr(from, tag.find(quote, from) - from)};
  }
  return "";
}

std::string replaced(std::string text, std::string_view what, std::string_view by) {
  for (std::size_t at = 0; (at = text.find(what, at)) != std::string::npos; at += by.size())
    text.replace(at, what.size(), by);
  return text;
}

class Plain {
 public:
  std::string tag(const std::string& tag) {
    if (tag == "<defs>" || tag == "</defs>") in_symbols_ = tag == "<defs>";
    if (in_symbols_) return symbol(tag);
    const std::string color = value_of(tag, "color");
    if (color.empty()) return tag;
    if (tag.starts_with("<use")) return placed(tag, color);
    return replaced(tag, current, color);
  }

 private:
  // A symbol takes its colour from where it is placed.
  std::string symbol(const std::string& tag) {
    if (value_of(tag, "fill") == current) filled_.insert("#" + value_of(tag, "id"));
    return replaced(replaced(tag, fmt::format(" stroke='{}'", current), ""),
                    fmt::format(" fill='{}'", current), "");
  }
  std::string placed(const std::string& tag, const std::string& color) const {
    const bool filled = filled_.contains(value_of(tag, "xlink:href"));
    return fmt::format("<use stroke='{0}'{1}{2}", color,
                       filled ? fmt::format(" fill='{}'", color) : "", tag.substr(4));
  }
  bool in_symbols_ = false;
  std::set<std::string> filled_;
};

}  // namespace

std::string with_plain_colours(const std::string& svg) {
  std::string out;
  Plain plain;
  for (std::size_t at = 0; at < svg.size();) {
    const std::size_t begin = std::min(svg.find('<', at), svg.size());
    out += svg.substr(at, begin - at);
    const std::size_t end = svg.find('>', begin);
    if (end == std::string::npos) return out + svg.substr(begin);
    out += plain.tag(svg.substr(begin, end + 1 - begin));
    at = end + 1;
  }
  return out;
}

}  // namespace areo::report
