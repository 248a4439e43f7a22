// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The parts of a certificate, each in a file of its own.
#include <optional>
#include <string>
#include <vector>

#include "areo/paper/certificate.hpp"

namespace areo::paper {

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

/// What the keys in square brackets anywhere in the document stand for, and what of it is from
/// memory.
[[nodiscard]] document::CaptionedTable sources_of(const document::Document& d);

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

}  // namespace areo::paper
