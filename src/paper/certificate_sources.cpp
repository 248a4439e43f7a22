// SPDX-License-Identifier: GPL-3.0-or-later
// What the keys in square brackets of a certificate stand for, and what of it is from memory.
#include <algorithm>
#include <array>
#include <set>

#include "certificate_parts.hpp"

namespace areo::paper {
namespace {

/// An entry of tables/sources.bib in one line.
struct Source {
  const char* key;
  const char* text;
  const char* from_memory;  ///< what its note there says is; empty: nothing
};

constexpr std::array sources{
    Source{"tanaka2001",
           "Tanaka and others, Recommended table for the density of water between 0 °C and 40 °C, "
           "Metrologia 38 (2001) 301",
           "title from memory"},
    Source{"iapws-r9-97",
           "IAPWS R9-97, Release on the Refractive Index of Ordinary Water Substance (1997)", ""},
    Source{"iapws-r1-76",
           "IAPWS R1-76(2014), Revised Release on Surface Tension of Ordinary Water Substance",
           "title from memory"},
    Source{"if97", "IAPWS R7-97(2012), Revised Release on the IAPWS Industrial Formulation 1997",
           "title from memory"},
    Source{"isa", "ISO 2533:1975, Standard Atmosphere", ""},
    Source{"sps4", "ICUMSA, Specification and Standard SPS-4: Densimetry and Tables (1994)",
           "title and year from memory"},
    Source{"icumsa1974",
           "ICUMSA, International Refractive Index Scale for sucrose solutions at 20 °C (1974)",
           "title and values from memory"},
    Source{"itct1936", "ICUMSA, International Temperature Correction Table, 1936",
           "title and the rows from 22 °C from memory"},
    Source{
        "laliberte2009",
        "Laliberté, A Model for Calculating the Heat Capacity of Aqueous Solutions, with Updated "
        "Density and Viscosity Data, Journal of Chemical and Engineering Data 54 (2009) 1725",
        "title from memory"},
    Source{"codex-sugars", "Codex Alimentarius CXS 212-1999, Standard for Sugars",
           "title from memory"},
    Source{"codex-salt", "Codex Alimentarius CXS 150-1985, Standard for Food Grade Salt",
           "title from memory"},
    Source{"iso1768",
           "ISO 1768:1975, Glass hydrometers -- Conventional value for the thermal cubic expansion "
           "coefficient",
           ""},
    Source{"astm-d1298",
           "ASTM D1298-12, Standard Test Method for Density, Relative Density, or API Gravity of "
           "Crude Petroleum and Liquid Petroleum Products by Hydrometer Method",
           "title from memory"},
    Source{"iso28037",
           "ISO/TS 28037:2010, Determination and use of straight-line calibration functions", ""},
    Source{"ilac-g8", "ILAC G8:09/2019, Guidelines on Decision Rules and Statements of Conformity",
           "title from memory"},
    Source{"iso17025",
           "ISO/IEC 17025:2017, General requirements for the competence of testing and calibration "
           "laboratories",
           "number and title from memory"},
    Source{
        "gum",
        "JCGM 100:2008, Evaluation of measurement data -- Guide to the expression of uncertainty "
        "in measurement",
        "title from memory"},
    Source{"jcgm200",
           "JCGM 200:2012, International vocabulary of metrology -- Basic and general concepts and "
           "associated terms",
           "number, year and title from memory"},
};

void collect(std::set<std::string>& keys, const std::string& text) {
  for (const Source& s : sources)
    if (text.find('[' + std::string{s.key} + ']') != std::string::npos) keys.insert(s.key);
}

void collect(std::set<std::string>& keys, const document::Block& block) {
  if (const auto* p = std::get_if<document::Paragraph>(&block)) collect(keys, p->text);
  if (const auto* b = std::get_if<document::Bullets>(&block))
    for (const std::string& item : b->items) collect(keys, item);
  const auto* t = std::get_if<document::CaptionedTable>(&block);
  if (t == nullptr) return;
  collect(keys, t->caption);
  for (const auto& row : t->rows)
    for (const std::string& cell : row) collect(keys, cell);
}

}  // namespace

document::CaptionedTable sources_of(const document::Document& d) {
  std::set<std::string> keys;
  for (const document::Section& s : d.sections)
    for (const document::Block& b : s.blocks) collect(keys, b);
  for (const std::string& text : d.footer) collect(keys, text);
  document::CaptionedTable list{
      "Sources named in square brackets. What is from memory was not seen when it was written "
      "down: "
      "look it up before you quote it.",
      {{"key", "source", "from memory"}}};
  for (const Source& s : sources)
    if (keys.contains(s.key)) list.rows.push_back({s.key, s.text, s.from_memory});
  return list;
}

}  // namespace areo::paper
