// SPDX-License-Identifier: GPL-3.0-or-later
// The tables of figures that docs/explanation includes.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "agreement.hpp"
#include "areo/numeric/quantile.hpp"

namespace areo::published {
namespace {

using Line = std::vector<std::string>;

std::string table(const std::vector<Line>& lines) {
  std::string text;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    text += '|';
    for (const std::string& cell : lines[i]) text += ' ' + cell + " |";
    text += '\n';
    if (i > 0) continue;
    text += '|';
    for (std::size_t j = 0; j < lines[i].size(); ++j) text += "---|";
    text += '\n';
  }
  return text;
}

std::string number(const std::string& format, double v) {
  return fmt::format(fmt::runtime(format), v);
}
std::string with_sign(const std::string& format, double v) {
  const std::string text = number(format, v);
  if (text.find_first_of("123456789") == std::string::npos) return number(format, 0);
  return v > 0 ? '+' + text : text;
}
// Upwards to two digits, as a bound is.
std::string upwards(double v) {
  const double digit = std::pow(10, std::floor(std::log10(v)) - 1);
  const double up = std::ceil(v / digit - 1e-9) * digit;
  return fmt::format("{:.{}f}", up, std::max(0, static_cast<int>(-std::floor(std::log10(digit)))));
}
std::string unit(const Comparison& c) { return c.unit.empty() ? "" : ' ' + c.unit; }

/// (short name, label; empty: the comparison's own)
using Lines = std::vector<std::pair<std::string, std::string>>;

std::string agreement(const std::string& head, const Lines& wanted) {
  std::vector<Line> lines{{head, "values", "mean", "scatter", "largest", "bound"}};
  for (const auto& [id, label] : wanted) {
    const Comparison& c = comparisons().at(id);
    const Summary s = summary(c);
    lines.push_back({label.empty() ? c.what : label, std::to_string(s.values),
                     with_sign(c.format, s.mean), number(c.format, s.deviation),
                     number(c.format, s.largest), upwards(s.bound) + unit(c)});
  }
  return table(lines);
}

std::string overview() {
  return agreement(
      "compared with",
      {{"water-iapws95", "density of water, IAPWS-95, 0 °C to 40 °C"},
       {"sucrose-nbsc440 to 40 %", "density of sucrose solutions, NBS C440 table 114, to 40 %"},
       {"sucrose-nbsc440 to 60 %", "the same, to 60 %"},
       {"extract-gost51620", "extract of wine, GOST R 51620, to 203 g/L"},
       {"ethanol-osborne1913-low",
        "density of ethanol and water, Bureau of Standards 1913, to 25 % by mass"},
       {"ethanol-usp29-mass", "alcoholometric table of USP 29, % by mass"},
       {"ethanol-usp29-volume", "the same, % by volume"},
       {"distillate-gost12787", "alcohol of distillates, GOST 12787, to 3 % by mass"},
       {"brix-hydrometer 10 °C to 30 °C",
        "corrections of Brix hydrometers, 10 °C to 30 °C (that table is from memory)"},
       {"brix-correction-1936",
        "corrections of Brix refractometers of 1936, 10 °C to 30 °C (one constant fitted; from "
        "memory above 21 °C)"},
       {"brix-correction-oiv", "the same of the OIV, 10 °C to 17 °C"},
       {"index-crc102", "refractive index of sucrose, to 70 %, in another handbook"},
       {"port",
        "port of 18 % vol to 21 % vol by refractometer and hydrometer, as far as the model "
        "reaches"},
       {"balling", "Balling's table B"},
       {"carbon-dioxide",
        "solubility of carbon dioxide in water, five laboratories, 1 °C to 35 °C"},
       {"beers", "beers, by two gravities against their distillates, nothing fitted"}});
}

std::string sucrose() {
  std::vector<Line> lines{{"% by mass", "values", "rms", "largest", "bound"}};
  for (const char* part : {"0 to 10", "10 to 20", "20 to 30", "30 to 40", "40 to 50", "50 to 60",
                           "60 to 70", "70 to 80", "80 to 85"}) {
    const Comparison& c = comparisons().at(std::string{"sucrose-nbsc440 "} + part);
    const Summary s = summary(c);
    lines.push_back({c.what, std::to_string(s.values), number(c.format, s.rms),
                     number(c.format, s.largest), upwards(s.bound) + unit(c)});
  }
  return table(lines);
}

std::string wines() {
  std::vector<Line> lines{{"wines", "compared", "extract without sugar", "scatter"}};
  for (const char* colour : {"white", "red"}) {
    std::vector<double> all;
    for (const Row& r : rows_of("beverage-analyses-wine", "type", colour))
      all.push_back(sugar_free_extract(r));
    const auto n = static_cast<double>(all.size());
    double mean = 0, squares = 0;
    for (const double e : all) mean += e / n;
    for (const double e : all) squares += (e - mean) * (e - mean);
    lines.push_back({colour, std::to_string(all.size()), fmt::format("{:.1f} g/L", mean),
                     fmt::format("{:.1f} g/L", std::sqrt(squares / (n - 1)))});
  }
  return table(lines);
}

std::string barth() {
  std::vector<Line> lines{
      {"ethanol", "extract", "less by Barth, counted as sucrose", "counted as malt extract"}};
  for (const auto& [ethanol, extract] : {std::pair{0.04, 0.04}, {0.10, 0.10}, {0.04, 0.08}})
    lines.push_back(
        {fmt::format("{:.0f} %", 100 * ethanol), fmt::format("{:.0f} %", 100 * extract),
         fmt::format("{:.2f} %", barth_finds_too_little(ethanol, extract, physics::sucrose_optics)),
         fmt::format("{:.2f} %",
                     barth_finds_too_little(ethanol, extract, physics::malt_extract_optics))});
  return table(lines);
}

std::string ferment_lines() {
  std::vector<Line> lines{{"wort", "slope", "largest distance from the line"}};
  for (const double plato : {8.0, 12.0, 18.0}) {
    const FermentLine line = ferment_line(Plato{plato});
    lines.push_back({fmt::format("{:.0f} °P", plato), fmt::format("{:.3f}", line.slope),
                     fmt::format("{:.2f} %", line.bend)});
  }
  return table(lines);
}

std::string extracts() {
  constexpr double least_percent = 4;  // below, the last digit of the index is more than 2 %
  std::vector<Line> lines{{"solute", "rows", "rise by all rows", "smallest of a row", "largest"}};
  for (const char* solute : {"sucrose", "glucose", "fructose", "maltose", "glycerol", "lactic acid",
                             "acetic acid", "citric acid"}) {
    double xy = 0, xx = 0, least = 0, most = 0;
    const auto rows = rows_of("solutes-density-refractive-index-20c", "solute", solute);
    for (const Row& r : rows) {
      const auto [printed, sucrose] = rise(r);
      xy += sucrose * printed;
      xx += sucrose * sucrose;
      if (r.number("mass_percent") < least_percent) continue;
      const double ratio = printed / sucrose;
      least = least == 0 ? ratio : std::min(least, ratio);
      most = std::max(most, ratio);
    }
    lines.push_back({solute, std::to_string(rows.size()), fmt::format("{:.3f}", xy / xx),
                     fmt::format("{:.3f}", least), fmt::format("{:.3f}", most)});
  }
  return table(lines);
}

std::string beers_table() {
  std::vector<Line> lines{{"of the beers", "beers", "mean", "known to, 95 %", "scatter"}};
  const auto add = [&](const std::string& what, const std::string& format, auto of, bool sign) {
    Comparison c{what, "", format};
    for (const Beer& b : beers()) c.differences.push_back({b.where, of(b), 0});
    const Summary s = summary(c);
    const auto n = static_cast<double>(s.values);
    const double known = numeric::student_t_coverage(0.95, n - 1) * s.deviation / std::sqrt(n);
    lines.push_back({what, std::to_string(s.values),
                     sign ? with_sign(format, s.mean) : number(format, s.mean),
                     "± " + number(format, known), number(format, s.deviation)});
  };
  add(
      "two gravities minus distillate, % vol", "{:.3f}",
      [](const Beer& b) { return b.predicted_percent_vol - b.measured_percent_vol; }, true);
  add(
      "by a perfect refractometer and the original, minus distillate, % vol", "{:.3f}",
      [](const Beer& b) { return b.refraction_error; }, true);
  add(
      "extract lost per gram of ethanol, g", "{:.3f}",
      [](const Beer& b) { return b.extract_per_ethanol; }, false);
  const BrewYield today = brew_yield();
  lines.push_back({"the same in brews of today [cutaia2009]", fmt::format("{:.0f}", today.brews),
                   number("{:.3f}", today.mean), "",
                   fmt::format("means of sets {:.3f} to {:.3f}", today.least, today.most)});
  return table(lines);
}

std::string hydrometer() {
  Lines lines;
  for (const char* at : {"10 °C to 30 °C", "40 °C", "5 °C", "0 °C", "45 °C to 60 °C"})
    if (comparisons().contains(std::string{"brix-hydrometer "} + at))
      lines.emplace_back(std::string{"brix-hydrometer "} + at, "");
  return agreement("temperature", lines);
}

}  // namespace

std::vector<Fragment> fragments() {
  return {
      {"overview", overview()},
      {"water", agreement("compared with", {{"water-iapws95", ""}, {"one-water", ""}})},
      {"sucrose", sucrose()},
      {"sucrose-tables", agreement("other tables", {{"sucrose [crc102], 20 °C, to 42 %", ""},
                                                    {"sucrose [crc102], 44 % to 60 %", ""},
                                                    {"sucrose [crc102], 70 % to 84 %, which it "
                                                     "extrapolates",
                                                     ""},
                                                    {"sucrose [umk-torun], 15 °C, to 37 %", ""},
                                                    {"sucrose [umk-torun], 20 °C, to 37 %", ""},
                                                    {"extract-gost51620", ""}})},
      {"ethanol", agreement("compared with", {{"ethanol-osborne1913-low", ""},
                                              {"ethanol-osborne1913", ""},
                                              {"ethanol-usp29-mass", ""},
                                              {"ethanol-usp29-volume", ""},
                                              {"ethanol-usp29-gravity", ""},
                                              {"distillate-gost12787", ""}})},
      {"wines", wines()},
      {"salt", agreement("compared with", {{"salt-crc102-low", ""}, {"salt-crc102", ""}})},
      {"index", agreement("compared with", {{"index-water", ""},
                                            {"index-water-middle", ""},
                                            {"index-icumsa1974", ""},
                                            {"index-oiv", ""},
                                            {"index-crc102", ""}})},
      {"refraction", agreement("compared with", {{"brix-correction-1936", ""},
                                                 {"brix-correction-oiv", ""},
                                                 {"index-ethanol", ""},
                                                 {"port", ""}})},
      {"barth", barth()},
      {"ferment-lines", ferment_lines()},
      {"extracts", extracts()},
      {"hydrometer", hydrometer()},
      {"boiling", agreement("compared with", {{"boiling", ""}})},
      {"ferment", agreement("compared with", {{"balling", ""}, {"beers", ""}, {"potential", ""}})},
      {"beers", beers_table()},
      {"carbon-dioxide", agreement("formula minus", {{"carbon-dioxide Murray&Riley 1971", ""},
                                                     {"carbon-dioxide Findlay&Shen 1912", ""},
                                                     {"carbon-dioxide Findlay&Howell 1915", ""},
                                                     {"carbon-dioxide Van Slyke 1939", ""},
                                                     {"carbon-dioxide Kunerth 1922", ""},
                                                     {"carbon-dioxide drinks", ""}})},
  };
}

}  // namespace areo::published
