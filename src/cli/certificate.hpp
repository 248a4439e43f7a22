#pragma once
// The certificate of a user's own calibration: what the notebook has of it, and how it is told.
#include <optional>
#include <string>
#include <vector>

#include "areo/calibration/correction_budget.hpp"
#include "areo/calibration/drift.hpp"
#include "areo/document/document.hpp"
#include "areo/wording/fit.hpp"

namespace areo::cli {

/// What the notebook cannot know; empty = a line to be filled in by hand.
struct Issue {
  Moment on;
  std::string by, place, customer;
  bool full = false;
};

/// The calibration before, and what changed since.
struct Predecessor {
  notebook::CalibrationRecord calibration;
  wording::Fitted fitted;
  calibration::Drift drift;
};

/// A thermometer that checks were read with.
struct Witness {
  std::string name;
  std::string rests_on;  ///< its own calibration, in words
};

/// Everything that a certificate tells of, before it is put into words.
struct Certified {
  Issue issue;
  notebook::InstrumentRecord instrument;
  notebook::CalibrationRecord calibration;
  wording::Fitted fitted;
  std::vector<calibration::CorrectionBudget> corrections;  ///< at marks along the scale
  std::vector<calibration::CorrectionBudget> budgets;      ///< at the ends and the middle
  std::vector<calibration::ConformityPoint> conformity;    ///< none if the checks contradict
  std::optional<Predecessor> before;
  std::optional<notebook::CalibrationRecord> after;  ///< took its place
  std::optional<notebook::Retirement> retired;
  std::vector<std::vector<std::string>> read_with;  ///< names of thermometers, one list a check
  std::vector<Witness> thermometers;
  std::vector<notebook::CheckRecord> left_out;  ///< made in between, and not used
  std::string number;
};

/// @param calibration  of the instrument
[[nodiscard]] Certified certified(const notebook::Notebook& book,
                                  const notebook::InstrumentRecord& instrument,
                                  const notebook::CalibrationRecord& calibration,
                                  const Issue& issue);

[[nodiscard]] document::Document certificate_document(const Certified& c);
/// @param members  further ones, each with its comma in front
[[nodiscard]] std::string certificate_json(const Certified& c, const std::string& members);

// Its parts, each in a file of its own.
[[nodiscard]] std::vector<document::Section> certificate_object(const Certified& c);   ///< 1, 2
[[nodiscard]] std::vector<document::Section> certificate_method(const Certified& c);   ///< 3, 4
[[nodiscard]] std::vector<document::Section> certificate_results(const Certified& c);  ///< 5 to 9
[[nodiscard]] document::Section certificate_budget(const Certified& c);                ///< 7
/// What is special about it: a day that is past, a thermometer that was due.
[[nodiscard]] std::vector<std::string> certificate_notes(const Certified& c);
[[nodiscard]] document::Section certificate_remarks(const Certified& c);  ///< 10

/// "pure", "tap"; empty: nobody said.
[[nodiscard]] const char* water_word(const std::optional<calibration::Water>& water);
/// Whether a check was made in water or a solution.
[[nodiscard]] bool in_liquid(const notebook::CheckRecord& r);

/// Lists in section 4 what the keys in square brackets anywhere in the document stand for, and what
/// of it is from memory.
void add_sources(document::Document& d);

/// An item of ISO/IEC 17025:2017, clause 7.8, and what the certificate has of it.
struct Clause {
  enum class Status { stated, in_part, by_hand, does_not_apply };
  std::string item;  ///< "7.8.2.1 d"
  std::string asks;  ///< in our own words
  Status status = Status::stated;
  std::string where_or_why;  ///< "section 3", "the head of each sheet"; a reason
};
[[nodiscard]] std::vector<Clause> certificate_clauses(const Certified& c);
[[nodiscard]] const char* word(Clause::Status status);

/// How numbers of one certificate are written.
class Figures {
 public:
  explicit Figures(const Certified& c) : Figures{c, c.issue.full} {}
  Figures(const Certified& c, bool full);
  /// To the digits that an expanded uncertainty supports; `more` further ones.
  [[nodiscard]] std::string number(double value, double expanded, int more = 0) const;
  [[nodiscard]] std::string with_sign(double value, double expanded, int more = 0) const;
  [[nodiscard]] std::string shown(double indication) const;  ///< without its unit
  [[nodiscard]] std::string behind() const;                  ///< " Brix", or nothing
  /// A place of the scale that nobody read, without its unit: "1.039".
  [[nodiscard]] std::string place(double indication) const;
  /// For the head of a column: "°C", "SG", "index".
  [[nodiscard]] const std::string& unit() const { return unit_; }

 private:
  const notebook::InstrumentRecord* instrument_;
  std::string unit_;
  int further_;
};

}  // namespace areo::cli
