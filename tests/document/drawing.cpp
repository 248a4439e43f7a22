// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing.hpp"

#include <gtest/gtest.h>
#include <regex.h>

#include <algorithm>
#include <memory>
#include <utility>

#include "document/chart_words.hpp"

namespace areo::document {
namespace {

using Match = std::vector<std::string>;  // the whole of it and its groups

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
    text.replace(at, from.size(), to);
  return text;
}

struct Matches {
  std::vector<Match> all;
  std::string rest;  // what is between them
};

// POSIX's extended expressions: GCC 12 warns of its own std::regex. @ is a coordinate.
Matches matched(const std::string& text, const std::string& pattern) {
  regex_t expression;
  const int code =
      regcomp(&expression, replaced(pattern, "@", R"((-?[0-9]+\.[0-9]))").c_str(), REG_EXTENDED);
  EXPECT_EQ(code, 0) << pattern;
  if (code != 0) return {};
  const std::unique_ptr<regex_t, decltype(&regfree)> owner{&expression, &regfree};
  std::vector<regmatch_t> groups(expression.re_nsub + 1);
  Matches found;
  const char* at = text.c_str();
  while (regexec(&expression, at, groups.size(), groups.data(), 0) == 0 && groups[0].rm_eo > 0) {
    Match match;
    match.reserve(groups.size());
    for (const regmatch_t& g : groups)
      match.push_back(g.rm_so < 0 ? "" : std::string(at + g.rm_so, at + g.rm_eo));
    found.all.push_back(std::move(match));
    found.rest.append(at, at + groups[0].rm_so);
    at += groups[0].rm_eo;
  }
  found.rest += at;
  return found;
}

std::vector<Match> all_of(const std::string& text, const std::string& pattern) {
  return matched(text, pattern).all;
}

std::string unescaped(std::string text) {
  const std::pair<const char*, const char*> marks[] = {
      {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}, {"&amp;", "&"}};
  for (const auto& [from, to] : marks) text = replaced(std::move(text), from, to);
  return text;
}

void require_closed_tags(const std::string& svg) {
  std::vector<std::string> open;
  for (const Match& m : all_of(svg, "<(/?)([a-z]+)([^<>]*)>")) {
    if (!m[1].empty()) {
      ASSERT_FALSE(open.empty());
      EXPECT_EQ(open.back(), m[2]);
      open.pop_back();
    } else if (!m[3].ends_with('/')) {
      open.push_back(m[2]);
    }
  }
  EXPECT_TRUE(open.empty());
  // Nothing but tags begins or ends like one, and each & begins a mark.
  const std::string rest = matched(svg, "<[^<>]*>|&(lt|gt|amp|quot|#39);").rest;
  EXPECT_EQ(rest.find_first_of("<>&"), std::string::npos) << rest;
  EXPECT_EQ(svg.find("nan"), std::string::npos);
  EXPECT_EQ(svg.find("inf"), std::string::npos);
  EXPECT_TRUE(all_of(svg, "[^0-9]-0(\\.0)?[^0-9.]").empty());
}

DrawnText text_of(const Match& m) {
  const double x = std::stod(m[1]), base = std::stod(m[2]);
  const std::string anchor = m[4];
  DrawnText t{unescaped(m[5]), x, x, base - 10, base + 3};
  const double width = text_width(t.text);
  t.left = anchor == "end" ? x - width : anchor == "middle" ? x - width / 2 : x;
  t.right = t.left + width;
  return t;
}

}  // namespace

DrawnText Drawn::at(const std::string& text) const {
  const auto is = [&](const DrawnText& t) { return t.text == text; };
  EXPECT_EQ(std::count_if(texts.begin(), texts.end(), is), 1) << text;
  const auto found = std::find_if(texts.begin(), texts.end(), is);
  return found == texts.end() ? DrawnText{} : *found;
}

bool Drawn::has(const std::string& text) const {
  return std::any_of(texts.begin(), texts.end(),
                     [&](const DrawnText& t) { return t.text == text; });
}

double Drawn::x_of(double value, double lo, double hi) const {
  return left + (value - lo) / (hi - lo) * (right - left);
}
double Drawn::y_of(double value, double lo, double hi) const {
  return bottom - (value - lo) / (hi - lo) * (bottom - top);
}

Drawn drawn(const std::string& svg) {
  require_closed_tags(svg);
  Drawn d;
  const auto number = [](const std::string& text) { return std::stod(text); };
  for (const auto& m : all_of(svg, "viewBox=\"0 0 ([0-9]+) ([0-9]+)\"")) {
    d.width = number(m[1]);
    d.height = number(m[2]);
  }
  for (const auto& m : all_of(svg, "<title>([^<]*)</title>")) d.title = unescaped(m[1]);
  for (const auto& m : all_of(svg, R"-("axes" d="M@ @V@H@)-")) {
    d.left = number(m[1]);
    d.top = number(m[2]);
    d.bottom = number(m[3]);
    d.right = number(m[4]);
  }
  for (const auto& m :
       all_of(svg, R"-(<text x="@" y="@"( text-anchor="([a-z]+)")?>([^<]*)</text>)-"))
    d.texts.push_back(text_of(m));
  d.legend_top = d.height;
  const std::size_t legend = svg.find("<g class=\"legend\">");
  const std::string entries = svg.substr(legend);
  for (const auto& t : all_of(entries, R"-(<text x="@" y="@")-"))
    d.legend_top = std::min(d.legend_top, number(t[2]) - 12);
  const std::string plot = svg.substr(0, legend);
  for (const auto& m : all_of(plot, R"-(<circle cx="@" cy="@)-"))
    d.dots.push_back({number(m[1]), number(m[2])});
  for (const auto& m : all_of(plot, R"-("odd" d="M@ @l5\.2 9)-"))
    d.triangles.push_back({number(m[1]), number(m[2]) + 6});
  for (const auto& m : all_of(plot, R"-(M@ @h6m-3 0V@m-3 0h6)-"))
    d.bars.push_back({number(m[1]) + 3, number(m[3]), number(m[2])});
  for (const auto& m : all_of(plot, R"-("event" d="M@ @V@)-"))
    d.events.push_back({number(m[1]), number(m[3]), number(m[2])});
  for (const auto& m : all_of(plot, R"-("level" d="M@ @H@)-")) d.levels.push_back(number(m[2]));
  return d;
}

std::vector<std::string> faults_of(const Drawn& d) {
  std::vector<std::string> out;
  const double slack = 0.2;  // of coordinates that are rounded to tenths
  for (std::size_t i = 0; i < d.texts.size(); ++i) {
    const DrawnText& t = d.texts[i];
    if (!(t.left >= 0 && t.right <= d.width && t.top >= 0 && t.bottom <= d.height))
      out.push_back(t.text + " leaves the chart");
    for (std::size_t j = 0; j < i; ++j) {
      const DrawnText& o = d.texts[j];
      if (t.left + slack < o.right && o.left + slack < t.right && t.top < o.bottom &&
          o.top < t.bottom)
        out.push_back(t.text + " touches " + o.text);
    }
    for (const Pole& p : d.events)
      if (p.x > t.left + slack && p.x < t.right - slack && p.top < t.bottom - slack &&
          p.bottom > t.top)
        out.push_back("a line crosses " + t.text);
    if (t.left < d.right && t.right > d.left + slack && t.top < d.bottom && t.bottom > d.top)
      out.push_back(t.text + " lies on the plot");
  }
  const auto inside = [&](double x, double y) {
    return x >= d.left - slack && x <= d.right + slack && y >= d.top - slack &&
           y <= d.bottom + slack;
  };
  for (const auto* points : {&d.dots, &d.triangles})
    for (const Place& p : *points)
      if (!inside(p.x, p.y)) out.emplace_back("a point lies outside");
  for (const Pole& p : d.bars)
    if (!inside(p.x, p.top) || !inside(p.x, p.bottom)) out.emplace_back("a bar ends outside");
  for (const Pole& p : d.events)
    if (!inside(p.x, p.bottom) || !(p.top >= 0)) out.emplace_back("an event lies outside");
  if (!(d.legend_top > d.bottom)) out.emplace_back("the legend covers the plot");
  return out;
}

}  // namespace areo::document
