// SPDX-License-Identifier: GPL-3.0-or-later
// How the checks of a certificate were made, and what they rest on.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "areo/calibration/check.hpp"
#include "certificate_parts.hpp"

namespace areo::paper {
namespace {

using notebook::CheckMethod;
using notebook::CheckRecord;

using Rows = std::vector<std::vector<std::string>>;

bool any(const Certified& c, CheckMethod method) {
  return std::any_of(c.summary.checks.begin(), c.summary.checks.end(),
                     [&](const CheckRecord& r) { return r.method == method; });
}

std::string in_water(const Certified& c) {
  if (const auto* r = c.instrument.refractometer())
    return r->compensated
               ? "water: read in clean water; with its temperature compensation the scale should "
                 "show about the refractive index of water at 20 °C [iapws-r9-97], within what "
                 "section 2 says that the compensation leaves"
               : "water: read in clean water; the scale should show the refractive index of water "
                 "at its temperature [iapws-r9-97]";
  return "water: floated in clean water; what it should show follows from the density of water at "
         "its temperature [tanaka2001], by the definition of its scale and the expansion of its "
         "glass";
}

std::string in_sugar(const Certified& c) {
  if (c.instrument.refractometer() != nullptr)
    return "sugar: read in a weighed solution; its fraction follows from the two masses, corrected "
           "for the buoyancy of air, its index from [icumsa1974], away from 20 °C with [itct1936]";
  return "sugar: floated in a weighed solution; its fraction follows from the two masses, "
         "corrected "
         "for the buoyancy of air, its density from [sps4]";
}

bool any_in_liquid(const Certified& c) {
  return std::any_of(c.summary.checks.begin(), c.summary.checks.end(), in_liquid);
}

// The checks for which something holds, by their numbers: "check 1", "checks 1, 2"; or nothing.
template <class Holds>
std::string numbers(const Certified& c, const Holds& holds) {
  std::vector<std::string> all;
  for (const CheckRecord& r : c.summary.checks)
    if (holds(r)) all.push_back(fmt::format("{}", r.id));
  if (all.empty()) return "";
  return fmt::format("check{} {}", all.size() == 1 ? "" : "s", fmt::join(all, ", "));
}

bool not_pure(const CheckRecord& r) { return in_liquid(r) && r.water != calibration::Water::pure; }

// What all checks in liquids have in common.
void add_liquids(std::vector<std::string>& all, const Certified& c) {
  if (c.instrument.hydrometer() != nullptr && any_in_liquid(c))
    all.emplace_back(
        "surface tension: the surface of a liquid pulls a stem down, by that of clean water here "
        "[iapws-r1-76]. The correction is the one that holds in the liquid that the scale was made "
        "for (section 2). What is not known of that liquid is in U; in a result it cancels, as "
        "reading and correction are both reckoned from it");
  if (const std::string tap = numbers(c, not_pure); !tap.empty())
    all.push_back(
        fmt::format("tap water, or a water that nobody named, in {}: 0 to {:g} g/L of solids, soft "
                    "to hard (judgement); taken as the "
                    "same water in all of them, so that more checks do not average it out",
                    tap, calibration::most_tap_solids_kg_m3));
  if (any(c, CheckMethod::sugar) || any(c, CheckMethod::salt))
    all.emplace_back(
        "balance: a gain that is wrong is so for both masses and cancels in their ratio; its "
        "linearity is taken as within one division (judgement), and as the same in all weighings "
        "with one division");
}

std::string apart_text(const Certified& c) {
  const std::string apart = numbers(c, [](const CheckRecord& r) { return r.apart; });
  const bool all = std::all_of(c.summary.checks.begin(), c.summary.checks.end(), [](const auto& r) {
    return r.apart || r.method != CheckMethod::certificate;
  });
  if (all) return "the owner states that their uncertainties have nothing in common";
  return "its points count as fully correlated, that is as erring together, by as much as makes "
         "offset and slope less certain" +
         (apart.empty() ? std::string{", for nobody stated otherwise"}
                        : fmt::format("; those of {} have nothing in common with others, as "
                                      "the owner states",
                                      apart));
}

std::vector<std::string> methods(const Certified& c) {
  std::vector<std::string> all;
  if (any(c, CheckMethod::water)) all.push_back(in_water(c));
  if (any(c, CheckMethod::sugar)) all.push_back(in_sugar(c));
  if (any(c, CheckMethod::salt))
    all.emplace_back(
        "salt: floated in a weighed solution of table salt; its fraction follows from the two "
        "masses, corrected for the buoyancy of air, its density from [laliberte2009] above water "
        "by [tanaka2001]");
  if (any(c, CheckMethod::ice))
    all.emplace_back(
        "melting ice: crushed ice and water, 0.00 °C, within ± 0.1 °C as a kitchen makes it");
  if (any(c, CheckMethod::boiling))
    all.emplace_back(
        "boiling water: its boiling point at the pressure of the place [if97]; where an altitude "
        "was given, the pressure of the standard atmosphere there [isa] ± 2 kPa for the weather; "
        "± 0.2 °C for superheat and for a stem that stands out of the water (judgement)");
  if (any(c, CheckMethod::certificate))
    all.push_back(
        "certificate: marks, corrections, expanded uncertainties and coverage factors as the owner "
        "copied them from the certificate of somebody else; nothing was read for them; " +
        apart_text(c));
  add_liquids(all, c);
  all.emplace_back(
      "correction: what the instrument should have shown less what it showed; an offset, and of a "
      "slope what the checks support, by least squares with the covariance of the checks "
      "[iso28037]; that it runs as a straight line between the checks is assumed");
  return all;
}

std::string temperature_source(const Certified& c, std::size_t i) {
  const CheckRecord& r = c.summary.checks[i];
  if (r.method == CheckMethod::certificate)
    return fmt::format("as certified: U = {:g}{}, k = {:g}", *r.expanded, Figures{c}.behind(),
                       *r.coverage_factor);
  if (r.method == CheckMethod::ice) return "the ice itself";
  if (r.method == CheckMethod::boiling)
    return fmt::format("pressure {:.2f} kPa ± {:.1f} kPa", *r.pressure_pa / 1000,
                       *r.pressure_half_width_pa / 1000);
  if (!r.temperature_c) return "nobody read it: assumed, ± 5 °C";
  if (!c.read_with[i].empty()) return c.read_with[i].front();
  return fmt::format("a thermometer without name, ± {:g} °C", r.temperature_half_width_c);
}

// Where the eye was, for those that float.
std::string level(const Certified& c, const CheckRecord& r) {
  if (c.instrument.hydrometer() == nullptr || r.method == CheckMethod::certificate) return "";
  return r.meniscus == instruments::Meniscus::top ? "top of the meniscus" : "level surface";
}

std::string air(const Certified& c) {
  const auto all_are = [&](CheckMethod method) {
    return std::all_of(c.summary.checks.begin(), c.summary.checks.end(),
                       [&](const CheckRecord& r) { return r.method == method; });
  };
  if (all_are(CheckMethod::certificate))
    return "All other conditions are those of that certificate.";
  if (c.instrument.thermometer() != nullptr)
    return "Temperature and humidity of the air were not noted; they do not matter here.";
  return "Temperature, pressure and humidity of the air at the place of the checks were not noted; "
         "what they do to a mass or a reading is far below the uncertainties stated here.";
}

std::string water_text(const CheckRecord& r) {
  if (!r.water) return "not stated: taken as pure, with a doubt";
  return *r.water == calibration::Water::pure ? "pure, as the owner states"
                                              : "tap water, as the owner states";
}

std::string balance_name(const CheckRecord& r) {
  return r.balance.empty() ? "not stated: ______________" : r.balance;
}

document::CaptionedTable liquids(const Certified& c) {
  const bool weighed = any(c, CheckMethod::sugar) || any(c, CheckMethod::salt);
  Rows rows{{"check", "water"}};
  if (weighed)
    for (const char* name : {"balance", "its division, g"}) rows.front().emplace_back(name);
  for (const CheckRecord& r : c.summary.checks) {
    if (!in_liquid(r)) continue;
    rows.push_back({fmt::format("{}", r.id), water_text(r)});
    if (!weighed) continue;
    rows.back().push_back(r.solution ? balance_name(r) : "");
    rows.back().push_back(r.solution ? fmt::format("{:g}", r.solution->balance_division_g) : "");
  }
  return {"The liquids of the checks", std::move(rows)};
}

document::Section method(const Certified& c) {
  const bool floats = c.instrument.hydrometer() != nullptr;
  Rows rows{{"check", "made at", "in", "temperature, °C", "known from"}};
  if (floats) rows.front().emplace_back("read at");
  rows.front().emplace_back("note");
  for (std::size_t i = 0; i < c.summary.checks.size(); ++i) {
    const CheckRecord& r = c.summary.checks[i];
    rows.push_back({fmt::format("{}", r.id), r.made_at.text().substr(0, 16),
                    c.summary.evaluated.checks[i].label,
                    r.temperature_c ? fmt::format("{:g}", *r.temperature_c) : "",
                    temperature_source(c, i)});
    std::replace(rows.back()[1].begin(), rows.back()[1].end(), 'T', ' ');
    if (floats) rows.back().push_back(level(c, r));
    rows.back().push_back(r.note);
  }
  std::vector<std::string> departures{air(c)};
  for (const CheckRecord& r : c.left_out)
    departures.push_back(fmt::format(
        "Check {} of {} was made in the same time and is not used{}.", r.id, r.made_at.date(),
        c.calibration.note.empty() ? "; no reason was noted"
                                   : "; the note in section 1 may say why"));
  if (c.left_out.empty())
    departures.emplace_back(
        "No check of that time was left out; nothing else departs from the method.");
  document::Section s{"3 How it was checked, and under what conditions",
                      {document::Bullets{methods(c)},
                       document::CaptionedTable{"Conditions of each check", std::move(rows)}}};
  if (any_in_liquid(c)) s.blocks.emplace_back(liquids(c));
  s.blocks.emplace_back(document::Bullets{std::move(departures)});
  return s;
}

std::string balance_text(const Certified& c) {
  std::set<double> divisions;
  std::set<std::string> names;
  for (const CheckRecord& r : c.summary.checks) {
    if (!r.solution) continue;
    divisions.insert(r.solution->balance_division_g);
    if (!r.balance.empty()) names.insert(r.balance);
  }
  return fmt::format(
      "masses: {}, division {:g} g, of which no calibration is known; only the ratio of two masses "
      "counts, so that its gain cancels; each mass is the difference of two indications, each "
      "rounded "
      "to its division, and its linearity is within one division",
      names.empty() ? "a balance without name" : fmt::format("{}", fmt::join(names, " and ")),
      fmt::join(divisions, " g and "));
}

std::vector<std::string> thermometers(const Certified& c) {
  std::vector<std::string> all;
  for (const ThermometerTrace& w : c.thermometers)
    all.push_back(fmt::format("temperature: {}, {}", w.name, w.rests_on));
  bool nameless = false;
  for (std::size_t i = 0; i < c.summary.checks.size(); ++i)
    nameless = nameless || (c.summary.checks[i].temperature_c && c.read_with[i].empty());
  const bool assumed =
      std::any_of(c.summary.checks.begin(), c.summary.checks.end(), [&](const CheckRecord& r) {
        return c.instrument.thermometer() == nullptr && r.method != CheckMethod::certificate &&
               !r.temperature_c;
      });
  if (assumed)
    all.emplace_back(
        "temperature: where nobody read it, the reference temperature of the scale ± 5 °C is "
        "assumed");
  if (nameless)
    all.emplace_back(
        "temperature: a thermometer without name, taken as right within the ± stated above: no "
        "calibration of it is known");
  return all;
}

document::Section basis(const Certified& c) {
  std::vector<std::string> all;
  if (any(c, CheckMethod::water))
    all.emplace_back(
        c.instrument.refractometer() != nullptr
            ? "water: the refractive index formula [iapws-r9-97], a property of pure water; that "
              "the "
              "water was clean is the owner's word"
            : "water: the density formula [tanaka2001], a property of pure water of usual isotopes "
              "and without air; that the water was clean is the owner's word");
  const bool weighed = any(c, CheckMethod::sugar) || any(c, CheckMethod::salt);
  if (any(c, CheckMethod::sugar))
    all.emplace_back(
        "sugar: white sugar as the food standard has it [codex-sugars], from memory: between 99.7 "
        "% "
        "and 100 % sucrose, not analysed");
  if (any(c, CheckMethod::salt))
    all.emplace_back(
        "salt: table salt as the food standard has it [codex-salt], from memory; not analysed");
  if (weighed) all.push_back(balance_text(c));
  if (any(c, CheckMethod::ice))
    all.emplace_back(
        "melting ice: the ice point of pure water, 0.00 °C; the purity of the ice is the owner's "
        "word");
  if (any(c, CheckMethod::boiling))
    all.emplace_back(
        "boiling water: the boiling curve of pure water [if97]; pressure as the owner stated it, "
        "from no calibrated barometer that the notebook knows of");
  if (any(c, CheckMethod::certificate))
    all.emplace_back(
        "certificate: the results of the laboratory that issued it; its name and number are with "
        "the owner, and traceability goes as far as that certificate does");
  for (std::string& text : thermometers(c)) all.push_back(std::move(text));
  all.emplace_back(
      any(c, CheckMethod::certificate)
          ? "Beyond that certificate there is no unbroken chain of calibrations to the SI."
          : "There is no unbroken chain of calibrations to the SI: properties of pure substances "
            "take the place of calibrated standards.");
  return {"4 What it rests on: traceability", {document::Bullets{std::move(all)}}};
}

}  // namespace

std::vector<document::Section> certificate_method(const Certified& c) {
  return {method(c), basis(c)};
}

}  // namespace areo::paper
