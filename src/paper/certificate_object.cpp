// SPDX-License-Identifier: GPL-3.0-or-later
// What a certificate says first: of what, by whom, and of which instrument.
#include <fmt/format.h>

#include "areo/instruments/stem.hpp"
#include "areo/physics/scale_name.hpp"
#include "areo/text/format.hpp"
#include "areo/wording/instrument.hpp"
#include "certificate_parts.hpp"

namespace areo::paper {
namespace {

using notebook::CheckRecord;

using Rows = std::vector<std::vector<std::string>>;

std::string or_line(const std::string& stated, const char* nothing = "not stated") {
  return stated.empty() ? fmt::format("{}: ______________________________", nothing) : stated;
}

std::string days(const std::vector<CheckRecord>& checks) {
  const std::string first = checks.front().made_at.date();
  const std::string last = checks.back().made_at.date();
  return first == last ? first : first + " to " + last;
}

std::string in_force(const Certified& c) {
  std::string text = "from " + c.calibration.in_force_from.date();
  if (c.after)
    text += fmt::format(" until {}, when calibration {} took its place",
                        c.after->in_force_from.date(), c.after->id);
  return text;
}

document::Section identification(const Certified& c) {
  Rows rows{{"item", "stated"}};
  rows.push_back({"number of this certificate", c.number});
  rows.push_back({"instrument", c.instrument.name()});
  rows.push_back({"calibration in the notebook", fmt::format("{}", c.calibration.id)});
  rows.push_back({"checks made on", days(c.summary.checks)});
  rows.push_back({"correction in force", in_force(c)});
  rows.push_back({"issued on", c.issue.on.date()});
  rows.push_back({"made and authorised by", or_line(c.issue.by)});
  rows.push_back({"where the checks were made", or_line(c.issue.place)});
  rows.push_back({"made for", or_line(c.issue.customer)});
  rows.push_back({"date and signature", "______________________________"});
  if (!c.calibration.note.empty()) rows.push_back({"note", c.calibration.note});
  return {"1 Identification",
          {document::CaptionedTable{"What this certificate is", std::move(rows)}}};
}

// @param usual  what the owner did not state, and where that comes from
std::string limit_text(const Certified& c, bool stated, const char* usual) {
  return fmt::format("{:.3g}{}, {}", c.summary.tolerance, Figures{c}.behind(),
                     stated ? "as stated by the owner" : usual);
}

constexpr const char* usual_of_hydrometers =
    "one division of the scale, the usual one [astm-d1298]";
constexpr const char* usual_of_others = "one division of the scale (common practice, no source)";

std::string known_text(const instruments::Known& k, const char* unit, bool stated) {
  return fmt::format("{:.3g} {} ± {:.2g} {}, {}", k.value, unit, k.half_width, unit,
                     stated ? "as stated by the owner" : "not stated, taken as usual (judgement)");
}

// What decides how hard the surface of a liquid pulls.
void add_stem(Rows& rows, const instruments::Hydrometer& h) {
  const instruments::Stem s = instruments::stem_of(h);
  rows.push_back({"scale made for a liquid of surface tension",
                  known_text(s.made_for_mn_m, "mN/m", h.made_for_mn_m.has_value()) +
                      (h.made_for_mn_m ? "" : ": that of clean water [iapws-r1-76]")});
  rows.push_back(
      {"diameter of the stem", known_text(s.diameter_mm, "mm", h.stem_diameter_mm.has_value())});
  rows.push_back({"mass", known_text(s.mass_g, "g", h.mass_g.has_value())});
}

void add_hydrometer(Rows& rows, const Certified& c, const instruments::Hydrometer& h) {
  const bool gravity = h.scale.water_c > 0;
  rows.push_back({"scale", physics::scale_name(h.scale)});
  rows.push_back({"reference temperatures",
                  fmt::format("liquid {}{}", text::celsius_text(h.scale.sample_c),
                              gravity ? ", water " + text::celsius_text(h.scale.water_c) : "")});
  rows.push_back(
      {"glass, cubic expansion",
       fmt::format("{:.3g}e-6 per °C, known to ± {:.2g}e-6 per °C{}", h.glass_expansion_per_c * 1e6,
                   instruments::glass_expansion_half_width_per_c * 1e6,
                   h.glass_expansion_per_c == instruments::conventional_glass_expansion_per_c
                       ? ", conventional value [iso1768]"
                       : ", as stated by the owner")});
  add_stem(rows, h);
  rows.push_back(
      {"maximum permissible error", limit_text(c, h.tolerance.has_value(), usual_of_hydrometers)});
}

void add_refractometer(Rows& rows, const Certified& c, const instruments::Refractometer& r) {
  const bool index = r.scale == instruments::RefractometerScale::index;
  rows.push_back({"scale", index ? "refractive index, sodium D line, against air"
                                 : "Brix: percent sucrose by mass at 20 °C"});
  rows.push_back({"reference temperature", "20 °C"});
  rows.push_back({"temperature compensation",
                  r.compensated ? "yes; it leaves ± one division at 5 °C or more from 20 °C, less "
                                  "nearer to it (judgement)"
                                : "none"});
  if (r.also_gravity) rows.push_back({"second scale", "specific gravity, repeats the Brix mark"});
  rows.push_back(
      {"maximum permissible error", limit_text(c, r.tolerance.has_value(), usual_of_others)});
}

document::Section object(const Certified& c) {
  const notebook::Graduation g = c.instrument.graduation();
  const Figures figures{c};
  Rows rows{{"item", "value"}};
  rows.push_back({"kind", c.instrument.kind()});
  rows.push_back({"maker", or_line(c.instrument.maker)});
  rows.push_back({"serial number", or_line(c.instrument.serial)});
  if (const auto* h = c.instrument.hydrometer()) add_hydrometer(rows, c, *h);
  if (const auto* r = c.instrument.refractometer()) add_refractometer(rows, c, *r);
  if (c.instrument.thermometer() != nullptr) {
    rows.push_back({"scale", "degrees Celsius"});
    rows.push_back({"maximum permissible error", limit_text(c, false, usual_of_others)});
  }
  rows.push_back({"range", fmt::format("{} to {}{}", figures.shown(g.lo), figures.shown(g.hi),
                                       figures.behind())});
  rows.push_back({"division", fmt::format("{:g}{}", g.division, figures.behind())});
  rows.push_back({"condition and notes", or_line(c.instrument.note, "nothing noted")});
  if (c.retired)
    rows.push_back({"retired", fmt::format("on {}: {}", c.retired->at.date(), c.retired->reason)});
  return {"2 The instrument", {document::CaptionedTable{"What was calibrated", std::move(rows)}}};
}

}  // namespace

std::vector<document::Section> certificate_object(const Certified& c) {
  return {identification(c), object(c)};
}

}  // namespace areo::paper
