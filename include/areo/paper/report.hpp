// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The story of a batch: what it tells of, and two ways to tell it.
#include <optional>
#include <string>
#include <vector>

#include "areo/document/document.hpp"
#include "areo/wording/limit.hpp"
#include "areo/wording/trend.hpp"

namespace areo::paper {

/// Of one bottle, or of the batch as a whole.
struct BottleHistory {
  std::string bottle;
  trend::History history;
  std::optional<trend::Passing> passing{};  ///< if a limit was asked for
  std::vector<std::string> corrections{};   ///< what has to be said of two that are mixed

  /// The last point that has a strength, be it an upper bound, and is not odd; nothing if there is
  /// none.
  [[nodiscard]] const batch::Point* last_strength() const;
};

/// What a guest drinks: common practice, no source.
inline constexpr double usual_glass_l = 0.2;

/// A glass of guests as it is typed, in litres; nothing if empty.
/// @throws ParseError, also for one that is larger than people drink from
[[nodiscard]] std::optional<double> glass_from_text(const std::string& text);

struct ReportData {
  const notebook::Notebook* book;
  batch::Batch* batch;
  std::vector<BottleHistory> accounts;  ///< at least one
  std::vector<std::string> silent{};    ///< a sentence for each bottle that nothing can be said of
  std::optional<double> expected{};
  std::optional<wording::Limit> limit{};
  bool full = false;
  double glass_l = usual_glass_l;
};

/// @param bottle  of this one only; empty = all that were read
/// @throws Error{inconsistent} for a bottle that is not there, and for an end that cannot be;
///         Error{domain} if nothing can be said of any
[[nodiscard]] ReportData material_of(const notebook::Notebook& book, batch::Batch& batch,
                                     const std::string& bottle,
                                     const std::optional<double>& expected,
                                     const std::optional<wording::Limit>& limit, bool full);

/// "PT-1: cider"
[[nodiscard]] std::string report_title(const notebook::BatchRecord& batch);
/// Everything, for the one who made it and for those who check it.
/// @param made_on  told at the foot
[[nodiscard]] document::Document full_report(const ReportData& m, Moment made_on);
/// One sheet for people who only want to know what is in the glass.
[[nodiscard]] document::Document audience_report(const ReportData& m, Moment made_on);
/// The gravities of the only bottle against the date, as SVG.
/// @throws Error{inconsistent} for several bottles
[[nodiscard]] std::string gravity_picture(const ReportData& m);
/// {"report", "page", "plot"}: which files were written; an empty name is none.
[[nodiscard]] std::string report_json(const notebook::BatchRecord& batch, const std::string& page,
                                      const std::string& plot);

}  // namespace areo::paper
