// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What the two reports share.
#include <string>

#include "areo/paper/report.hpp"

namespace areo::paper {

/// Whether something went into a bottle, or into the batch before it, and counts.
[[nodiscard]] bool concerns(const notebook::AdditionRecord& addition, const BottleHistory& a);

/// "The batch", "Bottle A"
[[nodiscard]] std::string title_of(const BottleHistory& a);
/// The strength of each bottle, and what goes with it, for the first look.
/// @param with_state  how the ferment goes, and how sure a limit is: for those who made it
void write_headline(document::Document& d, const ReportData& m, bool with_state);
/// The cautions of both reports.
void write_cautions(document::Document& d);

// The two between headline and footer.
void write_full(document::Document& d, const ReportData& m);
void write_audience(document::Document& d, const ReportData& m);

}  // namespace areo::paper
