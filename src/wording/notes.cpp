// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/wording/notes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/physics/scale_name.hpp"

namespace areo::wording {
namespace {

namespace note = measurement::note;

std::string checked_part(double lo, double hi) {
  return lo == hi ? fmt::format("{:g} only", lo) : fmt::format("{:g} to {:g}", lo, hi);
}

// "0.0006", "0.00012", "0.15 °P": what a scale shows of a small difference.
std::string small_text(double difference, const physics::Scale& scale) {
  const double size = std::abs(difference);
  const double leading = size / std::pow(10.0, std::floor(std::log10(size)));
  const std::string unit = physics::scale_unit(scale);
  return fmt::format("{:.{}g}{}{}", size, leading < 2 ? 2 : 1, unit.empty() ? "" : " ", unit);
}

struct Words {
  NoteWords operator()(const note::Said& n) const { return {n.words}; }
  NoteWords operator()(const note::AssumedTemperature& n) const {
    return {fmt::format("no temperature for {}: {:g} °C assumed, ± {:g} °C", n.of, n.celsius,
                        n.half_width_c)};
  }
  NoteWords operator()(const note::OutsideChecked& n) const {
    return {fmt::format("outside the checked part of {} ({}): the correction is used with growing "
                        "uncertainty",
                        n.instrument, checked_part(n.lo, n.hi)),
            fmt::format("{:g}", n.indication)};
  }
  NoteWords operator()(const note::OutsideCheckedTemperatures& n) const {
    return {fmt::format("outside the checked part of {} ({} °C): its correction is used with "
                        "growing uncertainty",
                        n.thermometer, checked_part(n.lo_c, n.hi_c)),
            fmt::format("{:g} °C", n.indication_c)};
  }
  NoteWords operator()(const note::NeverChecked& n) const {
    return {fmt::format("{} was never checked: its error is taken as within one division ({:g})",
                        n.instrument, n.division)};
  }
  NoteWords operator()(const note::NotInForce& n) const {
    return {fmt::format("{}: {} ({:g})", n.instrument, n.why, n.division)};
  }
  NoteWords operator()(const note::TopOfMeniscus& n) const {
    return {
        fmt::format("top of the meniscus: {:.1f} divisions added, as water climbs a stem like "
                    "this; measure it in a clear liquid and state it for {}",
                    n.divisions, n.instrument)};
  }
  NoteWords operator()(const note::WeighedOriginal& n) const {
    const bool water = n.sugar.volume == measurement::WeighedSugar::Volume::of_water;
    return {
        fmt::format("original gravity estimated from {:.4g} g of white sugar {} {:.4g} L{}, "
                    "the volume ± {:g} %; not measured, and what else was in it is left out",
                    n.sugar.sugar_g, water ? "in" : "made up to", n.sugar.volume_l,
                    water ? " of water" : "", 100 * measurement::kitchen_volume_half_width)};
  }
  NoteWords operator()(const note::SaltOrAcid& /*n*/) const {
    return {
        "salt and acid do not ferment: they count as the sugar that is as dense, in the original "
        "and in the extract that is left"};
  }
  NoteWords operator()(const note::Hot& n) const {
    std::string text = fmt::format("at {} °C one degree is worth {}: cool it below {:g} °C",
                                   celsius_number_text(n.celsius),
                                   small_text(n.per_degree, n.scale), n.cool_below_c);
    if (n.per_percent_of_steam != 0)
      text += fmt::format(", covered: each 1 % of it that goes as steam adds {}",
                          small_text(n.per_percent_of_steam, n.scale));
    return {text};
  }
  NoteWords operator()(const note::LighterThanWater& /*n*/) const {
    return {
        "lighter than water: if it has fermented, give the original gravity; if not, suspect the "
        "reading, the temperature or the instrument"};
  }
  NoteWords operator()(const note::BelowSugarScales& /*n*/) const {
    return {
        "lighter than water: no sugar solution is; sugar scales are continued below zero by their "
        "formula, as for the apparent extract of a dry drink"};
  }
  NoteWords operator()(const note::PotentialAlcohol& /*n*/) const {
    return {
        "potential alcohol: if a clean yeast fermented all of it, by Balling's balance [balling]; "
        "what is lost on the way is not taken off"};
  }
  NoteWords operator()(const note::BelowDry& n) const {
    return {
        fmt::format("the present reading is lower than fermenting all of the extract could "
                    "make it: {:.1f} ± {:.1f} % mass would be left; check both readings",
                    n.extract_percent, n.expanded)};
  }
  NoteWords operator()(const note::BeyondComparison& n) const {
    return {fmt::format(
        "{} than the {} % vol {} to which the method was compared with "
        "distillation: the scatter of its yield is taken on trust here",
        n.stronger ? "stronger" : "weaker", n.compared_percent_vol, n.stronger ? "up" : "down")};
  }
  NoteWords operator()(const note::Limits& n) const {
    const char* largest = n.refractometer >= n.hydrometer ? "the refractometer" : "the hydrometer";
    if (n.models > std::max(n.refractometer, n.hydrometer))
      largest = "what is known of the extract";
    return {
        fmt::format("{} limits this: of the variance, {:.0f} % comes from the refractometer, "
                    "{:.0f} % from the hydrometer, {:.0f} % from the kind of extract and the "
                    "models",
                    largest, 100 * n.refractometer, 100 * n.hydrometer, 100 * n.models)};
  }
  NoteWords operator()(const note::RepeatsApart& n) const {
    return {
        fmt::format("readings {} and {} of one sample are {:.0f} divisions apart: is one "
                    "misread? areo reading exclude keeps it out",
                    n.least, n.most, n.divisions)};
  }
  NoteWords operator()(const note::NotDegassed& /*n*/) const {
    return {
        "not degassed: bubbles lift a hydrometer, and it shows too much; the drink is stronger "
        "than it seems"};
  }
};

}  // namespace

std::string NoteWords::sentence() const {
  return reading.empty() ? text : fmt::format("{} is {}", reading, text);
}

NoteWords note_words(const measurement::Note& note) { return std::visit(Words{}, note); }

std::vector<std::string> sentences(const std::vector<measurement::Note>& notes) {
  std::vector<std::string> all;
  all.reserve(notes.size());
  for (const measurement::Note& n : notes) all.push_back(note_words(n).sentence());
  return all;
}

std::vector<std::string> own_notes(const measurement::Result& result) {
  return sentences(result.notes);
}

std::vector<std::string> all_notes(const measurement::Result& result) {
  std::vector<std::string> all = own_notes(result);
  for (std::string& n : sentences(result.method_notes)) all.push_back(std::move(n));
  return all;
}

}  // namespace areo::wording
