// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/paper/card.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/notebook/recompute.hpp"
#include "areo/text/format.hpp"
#include "areo/text/temperature_text.hpp"
#include "areo/wording/instrument.hpp"

namespace areo::paper {
namespace {

constexpr const char* blank = "______________";  // a place for a pen

// One digit per tenth of a division is as fine as anybody reads.
int decimals_of(const CardSubject& s, double expanded) {
  const int of_scale = text::supported_decimals(s.record.graduation().division);
  return expanded > 0 ? std::min(of_scale, text::supported_decimals(expanded)) : of_scale;
}

double largest(const std::vector<CardOffset>& offsets) {
  double expanded = 0;
  for (const CardOffset& o : offsets) expanded = std::max(expanded, o.correction.expanded());
  return expanded;
}

std::string behind(const std::string& unit) { return unit.empty() ? "" : " " + unit; }

std::string plus_minus(const CardSubject& s, double expanded) {
  return fmt::format("± {}{}", doubt_text(expanded, decimals_of(s, expanded)),
                     behind(wording::unit_of(s.record)));
}

// What a hand has to do, place by place, each with what it is known to.
// @param condition  of an instruction that is the same everywhere: " at 20 °C", or nothing
std::vector<std::string> instructions(const CardSubject& s, const std::vector<CardOffset>& offsets,
                                      const std::string& condition) {
  const std::string unit = wording::unit_of(s.record);
  const int decimals = decimals_of(s, largest(offsets));
  if (offsets[0].everywhere)
    return {wording::instruction_where_checked(
        s.record, s.correction, offsets[0].correction.estimate, decimals, condition)};
  std::vector<std::string> all;
  all.reserve(offsets.size());
  for (const CardOffset& o : offsets)
    all.push_back(fmt::format("{} ± {}{} at {}", text::instruction(o.correction.estimate, decimals),
                              doubt_text(o.correction.expanded(), decimals), behind(unit),
                              wording::shown(s.record, o.reading)));
  return all;
}

std::string never_text(const CardSubject& s) {
  if (s.contradicted) return "ITS CHECKS CONTRADICT EACH OTHER";
  return s.ever_checked ? fmt::format("NO CALIBRATION IN FORCE on {}", s.at.date())
                        : "NEVER CHECKED";
}

std::string to_do(const CardSubject& s) {
  const std::string& name = s.record.name();
  if (s.in_force_later)
    return fmt::format("Its calibration is in force from {}", s.in_force_later->date());
  if (s.contradicted)
    return fmt::format("Do not rely on it. Which check to repeat: areo calibrate fit {}",
                       shell_word(name));
  if (s.ever_checked)
    return fmt::format("Put its checks in force: areo calibrate fit {}", shell_word(name));
  return s.record.thermometer() != nullptr
             ? fmt::format("Check it: areo calibrate ice {} READING", shell_word(name))
             : fmt::format("Check it: areo calibrate water {} READING TEMP", shell_word(name));
}

// The temperature that the instruction is meant for; none if it is the same at all of them.
std::optional<std::string> meant_for(const CardSubject& s) {
  const auto* h = s.record.hydrometer();
  const auto* r = s.record.refractometer();
  if (h == nullptr && (r == nullptr || r->compensated)) return std::nullopt;
  constexpr double refractometers_c = 20;
  return h != nullptr ? text::reference_text(h->scale) : text::celsius_text(refractometers_c);
}

void require_in_use(const notebook::Notebook& book, const notebook::InstrumentRecord& r,
                    Moment at) {
  const auto retired = book.retired(r.id);
  if (retired && at >= retired->at)
    throw Error{Errc::inconsistent,
                fmt::format("{} retired on {}: {}", r.name(), retired->at.date(), retired->reason),
                "an instrument out of use has no card; areo instrument list shows the others"};
}

}  // namespace

bool CardSubject::overdue() const {
  return calibration && calibration->due && at > *calibration->due;
}

CardSubject card_subject(const notebook::Notebook& book, const notebook::InstrumentRecord& record,
                         Moment at) {
  require_in_use(book, record, at);
  CardSubject s{record,
                at,
                notebook::correction_in_force(book, record, at),
                book.in_force(record.id, at),
                {},
                !book.checks(record.id).empty(),
                false,
                {}};
  if (s.calibration) s.checks = checks_of(book, *s.calibration);
  s.contradicted =
      !s.calibration && s.ever_checked && !fit(book, record, book.checks(record.id)).consistent;
  const auto calibrations = book.calibrations(record.id);
  if (!s.calibration && !calibrations.empty())
    s.in_force_later = calibrations.front().in_force_from;
  return s;
}

std::vector<CardOffset> condensed(const CardSubject& s, const std::vector<CardOffset>& all) {
  constexpr double most_ratio = 2;  // of two uncertainties that one figure may stand for
  const int decimals = decimals_of(s, largest(all));
  const auto printed = [&](const CardOffset& o) {
    return text::fixed(o.correction.estimate, decimals);
  };
  const auto known_less = [](const CardOffset& a, const CardOffset& b) {
    return a.correction.u < b.correction.u;
  };
  const auto [best, worst] = std::minmax_element(all.begin(), all.end(), known_less);
  const bool known_alike = worst->correction.u <= most_ratio * best->correction.u;
  if (known_alike && std::all_of(all.begin(), all.end(), [&](const CardOffset& o) {
        return printed(o) == printed(all.front());
      })) {
    CardOffset one = *worst;
    one.everywhere = all.size() > 1 || s.correction.slope == 0;
    return {one};
  }
  std::vector<CardOffset> few{all.front()};
  if (all.size() > 2) few.push_back(all[all.size() / 2]);
  few.push_back(all.back());
  return few;
}

std::vector<CardOffset> offsets_at(const CardSubject& s, const std::vector<double>& readings) {
  std::vector<CardOffset> all;
  all.reserve(readings.size());
  for (const double r : readings)
    all.push_back({r, {s.correction.at(r), s.correction.uncertainty_at(r)}});
  return condensed(s, all);
}

document::Headline card_headline(const CardSubject& s, const std::vector<CardOffset>& offsets) {
  const std::string doubt = plus_minus(s, largest(offsets));
  if (s.contradicted)
    return {{never_text(s)},
            {"What it is off by is not known, and nothing below allows for it.", to_do(s)}};
  if (!s.corrected())
    return {{never_text(s)},
            {fmt::format("Its error is taken as within one division ({:g}{}): any reading may be "
                         "off by {} (about 95 %)",
                         s.record.graduation().division, behind(wording::unit_of(s.record)), doubt),
             to_do(s)}};
  const auto t = meant_for(s);
  document::Headline h{
      instructions(s, offsets, t ? " at " + *t : ""),
      {offsets[0].everywhere ? doubt + " at most, for the readings of this card (about 95 %)"
                             : "each ± for about 95 %"}};
  if (!offsets[0].everywhere)
    h.below.front() +=
        (t ? "; at " + *t : "") + (offsets.size() > 1 ? "; in between in proportion" : "");
  if (t) h.below.front() += ". At any other temperature only the table counts; this is in it.";
  if (s.overdue())
    h.lines.push_back(fmt::format("DUE FOR A CHECK since {}", s.calibration->due->date()));
  return h;
}

std::string offset_line(const CardSubject& s) {
  const auto offsets = offsets_at(s, {s.correction.checked_lo, s.correction.checked_hi});
  const std::string& name = s.record.name();
  const std::string doubt = plus_minus(s, largest(offsets));
  if (!s.corrected())
    return s.contradicted
               ? fmt::format("{}: {}", name, never_text(s))
               : fmt::format("{}: {}, any reading may be off by {}", name, never_text(s), doubt);
  const auto t = meant_for(s);
  const bool everywhere = offsets[0].everywhere;
  const std::string at = t ? " at " + *t : "";
  return fmt::format("{}: {}{}{}{}{}", name, fmt::join(instructions(s, offsets, at), ", "),
                     offsets.size() > 1 ? ", in between in proportion" : "", everywhere ? "" : at,
                     everywhere ? ", " + doubt : "", s.overdue() ? ", DUE FOR A CHECK" : "");
}

std::vector<std::string> check_lines(const CardSubject& s) {
  std::vector<std::string> lines;
  if (s.calibration && !s.checks.empty()) {
    const std::string first = s.checks.front().made_at.date(),
                      last = s.checks.back().made_at.date();
    lines.push_back(fmt::format("Checked {} in {} check{}, {}; in force from {}",
                                first == last ? first : first + " to " + last, s.checks.size(),
                                s.checks.size() == 1 ? "" : "s",
                                wording::checked_text(s.record, s.correction),
                                s.calibration->in_force_from.date()));
  }
  if (!s.calibration)
    lines.push_back(s.ever_checked ? "Checked, but nothing is in force"
                                   : fmt::format("Checked on: {}", blank));
  else if (!s.calibration->due)
    lines.push_back(fmt::format("Check again: {}", blank));
  else if (s.overdue())
    lines.push_back(
        fmt::format("Was due on {}. Checked again on: {}", s.calibration->due->date(), blank));
  else
    lines.push_back(fmt::format("Check again: {}", s.calibration->due->date()));
  if (s.calibration) lines.emplace_back("A user's check, not an accredited calibration");
  return lines;
}

}  // namespace areo::paper
