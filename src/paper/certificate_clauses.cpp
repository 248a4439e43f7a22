// SPDX-License-Identifier: GPL-3.0-or-later
// What ISO/IEC 17025:2017 asks of a calibration certificate in its clause 7.8, in our own words,
// and what a user's own certificate has of it.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "certificate_parts.hpp"

namespace areo::paper {
namespace {

using Status = Clause::Status;

Clause stated(const char* item, const char* asks, std::string where) {
  return {item, asks, Status::stated, std::move(where)};
}
Clause none(const char* item, const char* asks, std::string why) {
  return {item, asks, Status::does_not_apply, std::move(why)};
}
// What an item asks for, piece by piece, and whether somebody stated it.
struct Piece {
  std::string name;
  bool is_stated;
};

// In print, as lines to be filled in, or some of both.
Clause given(const char* item, const char* asks, const std::string& where,
             const std::vector<Piece>& pieces) {
  std::vector<std::string> missing;
  for (const Piece& p : pieces)
    if (!p.is_stated) missing.push_back(p.name);
  if (missing.empty()) return stated(item, asks, where);
  if (missing.size() == pieces.size()) return {item, asks, Status::by_hand, where};
  return {item, asks, Status::in_part,
          fmt::format("{}; not stated: {}", where, fmt::join(missing, ", "))};
}

// What the certificate has anyway, and what else it would need.
Clause with(const char* item, const char* asks, const std::string& where,
            std::vector<Piece> pieces) {
  pieces.push_back({"", true});
  return given(item, asks, where, pieces);
}

bool certified_elsewhere(const Certified& c) {
  return std::any_of(c.summary.checks.begin(), c.summary.checks.end(),
                     [](const auto& r) { return r.method == notebook::CheckMethod::certificate; });
}

// "temperature of checks 1, 2": a piece that is missing from the checks for which `lacks` holds.
template <class Lacks>
Piece of_checks(const Certified& c, const char* name, const Lacks& lacks) {
  std::vector<std::string> numbers;
  for (const notebook::CheckRecord& r : c.summary.checks)
    if (lacks(r)) numbers.push_back(fmt::format("{}", r.id));
  return {fmt::format("{} of check{} {}", name, numbers.size() == 1 ? "" : "s",
                      fmt::join(numbers, " and ")),
          numbers.empty()};
}

Clause which_item(const Certified& c) {
  const notebook::InstrumentRecord& r = c.instrument;
  return with("7.8.2.1 g", "which item it was, and in what condition", "section 2",
              {{"maker", !r.maker.empty()},
               {"serial number", !r.serial.empty()},
               {"condition", !r.note.empty()}});
}

Clause departures(const Certified& c) {
  return with("7.8.2.1 n", "what was added to the method, changed in it or left out", "section 3",
              {{"why a check was left out", c.left_out.empty() || !c.calibration.note.empty()}});
}

Clause from_others(const Certified& c) {
  constexpr const char* item = "7.8.2.1 p";
  constexpr const char* asks = "which results come from somebody else";
  if (!certified_elsewhere(c)) return none(item, asks, "all are the owner's own");
  return with(item, asks, "sections 3 and 5, the checks marked certificate",
              {of_checks(c, "issuer and number of the certificate", [](const auto& r) {
                return r.method == notebook::CheckMethod::certificate && r.note.empty();
              })});
}

std::vector<Clause> every_report(const Certified& c) {
  const bool by = !c.issue.by.empty();
  const bool place = !c.issue.place.empty();
  const Piece somebody_else{"those of somebody else's certificate", !certified_elsewhere(c)};
  return {
      stated("7.8.2.1 a", "a title", "the first line"),
      given("7.8.2.1 b", "who did the work, with an address", "section 1",
            {{"who", by}, {"where, the address", place}}),
      given("7.8.2.1 c", "where the work was done", "section 1", {{"where", place}}),
      stated("7.8.2.1 d", "a number that marks every part of it, and a clear end",
             "section 1, the head of each sheet and the last line"),
      given("7.8.2.1 e", "for whom it was made, and how to reach them", "section 1",
            {{"for whom", !c.issue.customer.empty()}}),
      with("7.8.2.1 f", "the method", "section 3", {somebody_else}),
      which_item(c),
      none("7.8.2.1 h", "the day the item was received, where it matters",
           "the instrument stays with its owner"),
      with("7.8.2.1 i", "the days of the work", "sections 1 and 3", {somebody_else}),
      stated("7.8.2.1 j", "the day of issue", "section 1"),
      none("7.8.2.1 k", "the sampling plan, where it matters",
           "the instrument itself was checked, no sample of it"),
      stated("7.8.2.1 l", "that the results are those of this item only", "section 10"),
      stated("7.8.2.1 m", "the results, with their units", "sections 5 and 6"),
      departures(c),
      given("7.8.2.1 o", "who authorises it", "section 1", {{"who", by}}),
      from_others(c),
      with("7.8.2.2", "who answers for it, and which data others supplied",
           "section 10; what others supplied is named in sections 3 and 4",
           {{"who answers for it", by}}),
  };
}

Clause conditions(const Certified& c) {
  using notebook::CheckMethod;
  return with(
      "7.8.4.1 b", "the conditions that bear on the results", "section 3",
      {of_checks(c, "temperature", [](const auto& r) { return in_liquid(r) && !r.temperature_c; }),
       of_checks(c, "kind of water", [](const auto& r) { return in_liquid(r) && !r.water; }),
       of_checks(c, "conditions of the certificate",
                 [](const auto& r) { return r.method == CheckMethod::certificate; })});
}

Clause traceability(const Certified& c) {
  const auto unnamed_thermometer = [&](const notebook::CheckRecord& r) {
    return in_liquid(r) && r.temperature_c && !r.thermometer;
  };
  const auto unnamed_balance = [](const notebook::CheckRecord& r) {
    return r.solution && r.balance.empty();
  };
  return with(
      "7.8.4.1 c", "how the results are traceable",
      certified_elsewhere(c) ? "section 4" : "section 4: by no unbroken chain of calibrations",
      {of_checks(c, "thermometer", unnamed_thermometer), of_checks(c, "balance", unnamed_balance)});
}

std::vector<Clause> calibration_certificate(const Certified& c) {
  return {
      stated("7.8.4.1 a", "the uncertainty of each result, in its unit", "sections 5, 6 and 7"),
      conditions(c),
      traceability(c),
      c.before ? stated("7.8.4.1 d", "results before and after an adjustment or repair",
                        "section 9, as far as a notebook can know")
               : none("7.8.4.1 d", "results before and after an adjustment or repair",
                      "there is no calibration before this one"),
      c.conformity.empty()
          ? none("7.8.4.1 e", "conformity with requirements, where it matters",
                 "the checks contradict each other")
          : stated("7.8.4.1 e", "conformity with requirements, where it matters", "section 8"),
      none("7.8.4.1 f", "opinions and interpretations, where they help", "none are given"),
      stated("7.8.4.3", "no interval to the next calibration, unless it was agreed on",
             c.calibration.due ? "section 10: none is recommended, the owner's own is given"
                               : "section 10: none is recommended"),
  };
}

std::vector<Clause> statements(const Certified& c) {
  if (c.conformity.empty())
    return {none("7.8.6.1", "the decision rule, and the risk that goes with it",
                 "no statement of conformity is made"),
            none("7.8.6.2", "which results, against what, met or not",
                 "no statement of conformity is made"),
            none("7.8.7", "who gives an opinion, and what it rests on", "none is given")};
  return {stated("7.8.6.1", "the decision rule, and the risk that goes with it", "section 8"),
          stated("7.8.6.2", "which results, against what, met or not", "section 8"),
          none("7.8.7", "who gives an opinion, and what it rests on", "none is given")};
}

}  // namespace

std::vector<Clause> certificate_clauses(const Certified& c) {
  std::vector<Clause> all;
  for (auto part : {every_report(c), calibration_certificate(c), statements(c)})
    for (Clause& k : part) all.push_back(std::move(k));
  return all;
}

const char* word(Clause::Status status) {
  switch (status) {
    case Status::stated: return "in";
    case Status::in_part: return "in part, in";
    case Status::by_hand: return "to be written by hand, in";
    case Status::does_not_apply: return "does not apply";
  }
  return "";
}

}  // namespace areo::paper
