// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What happened to a batch, line by line.
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "areo/batch/batch.hpp"

namespace areo::wording {

/// Readings and additions in the order of time, below the names of the columns; nothing if there
/// are none.
/// @param bottles  with a column for them
[[nodiscard]] std::vector<std::vector<std::string>> history_rows(
    batch::Batch& batch, const std::vector<batch::Point>& points, const notebook::Notebook& book,
    bool bottles, bool full);
/// The original gravity at a moment: what it rests on, or why there is none.
[[nodiscard]] std::vector<std::string> original_lines(batch::Batch& batch,
                                                      const std::string& bottle, Moment at,
                                                      bool full);
/// What was amended, closed and reopened until then.
[[nodiscard]] std::vector<std::string> amendment_lines(const notebook::Notebook& book,
                                                       const notebook::BatchRecord& record,
                                                       Moment as_of);

/// The points of all samples, or of those that a list shows, with notes on corrections that they
/// mix.
[[nodiscard]] std::vector<batch::Point> shown_points(batch::Batch& batch, bool all);
/// What it is, and its original gravities.
/// @param as_of  the end of a day that was asked for; nothing: now
[[nodiscard]] std::vector<std::string> batch_lines(batch::Batch& batch,
                                                   const std::optional<Moment>& as_of, bool full);
/// A batch in a list: what it is, how many readings it has, whether it is closed.
[[nodiscard]] std::string listed_text(const notebook::Notebook& book,
                                      const notebook::BatchRecord& record);
/// The command that notes what comes next.
[[nodiscard]] std::string next_text(const batch::Batch& batch, const notebook::Notebook& book);
/// The batch for programs, then its samples as point_json(), its additions, and the readings that
/// do not count.
/// @param line  takes each
void each_batch_json(batch::Batch& batch, const notebook::Notebook& book,
                     const std::function<void(const std::string&)>& line);

/// What a reading says that was noted just now, and what to do next.
/// @param echo  how its texts were understood
[[nodiscard]] std::vector<std::string> new_reading_lines(batch::Batch& batch,
                                                         const batch::Point& point,
                                                         const std::vector<std::string>& echo,
                                                         bool full);
}  // namespace areo::wording
