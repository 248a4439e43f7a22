// What ISO/IEC 17025:2017 asks of a calibration certificate in its clause 7.8, in our own words,
// and what a user's own certificate has of it.
#include <algorithm>

#include "certificate.hpp"

namespace areo::cli {
namespace {

using Status = Clause::Status;

Clause stated(const char* item, const char* asks, std::string where) {
  return {item, asks, Status::stated, std::move(where)};
}
Clause none(const char* item, const char* asks, std::string why) {
  return {item, asks, Status::does_not_apply, std::move(why)};
}
// In section 1, in print or as a line to be filled in.
Clause given(const char* item, const char* asks, bool is_given) {
  return {item, asks, is_given ? Status::stated : Status::by_hand, "section 1"};
}

bool certified_elsewhere(const Certified& c) {
  return std::any_of(c.fitted.checks.begin(), c.fitted.checks.end(),
                     [](const auto& r) { return r.method == notebook::CheckMethod::certificate; });
}

std::vector<Clause> every_report(const Certified& c) {
  return {
      stated("7.8.2.1 a", "a title", "the first line"),
      given("7.8.2.1 b", "who did the work, with an address",
            !c.issue.by.empty() && !c.issue.place.empty()),
      given("7.8.2.1 c", "where the work was done", !c.issue.place.empty()),
      stated("7.8.2.1 d", "a number that marks every part of it, and a clear end",
             "section 1, the head of each sheet and the last line"),
      given("7.8.2.1 e", "for whom it was made, and how to reach them", !c.issue.customer.empty()),
      stated("7.8.2.1 f", "the method", "section 3"),
      stated("7.8.2.1 g", "which item it was, and in what condition", "section 2"),
      none("7.8.2.1 h", "the day the item was received, where it matters",
           "the instrument stays with its owner"),
      stated("7.8.2.1 i", "the days of the work", "sections 1 and 3"),
      stated("7.8.2.1 j", "the day of issue", "section 1"),
      none("7.8.2.1 k", "the sampling plan, where it matters",
           "the instrument itself was checked, no sample of it"),
      stated("7.8.2.1 l", "that the results are those of this item only", "section 10"),
      stated("7.8.2.1 m", "the results, with their units", "sections 5 and 6"),
      stated("7.8.2.1 n", "what was added to the method, changed in it or left out", "section 3"),
      given("7.8.2.1 o", "who authorises it", !c.issue.by.empty()),
      certified_elsewhere(c)
          ? stated("7.8.2.1 p", "which results come from somebody else",
                   "sections 3 and 5, the checks marked certificate")
          : none("7.8.2.1 p", "which results come from somebody else", "all are the owner's own"),
      stated("7.8.2.2", "who answers for it, and which data others supplied",
             "section 10; what others supplied is named in sections 3 and 4"),
  };
}

std::vector<Clause> calibration_certificate(const Certified& c) {
  return {
      stated("7.8.4.1 a", "the uncertainty of each result, in its unit", "sections 5, 6 and 7"),
      stated("7.8.4.1 b", "the conditions that bear on the results", "section 3"),
      stated("7.8.4.1 c", "how the results are traceable", "section 4"),
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
             c.calibration.due ? "section 10: none is recommended, the owner's own is told"
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
    case Status::by_hand: return "to be written by hand, in";
    case Status::does_not_apply: return "does not apply";
  }
  return "";
}

}  // namespace areo::cli
