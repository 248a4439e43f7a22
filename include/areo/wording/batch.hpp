// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A batch and what its readings say, for people and for programs.
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "areo/batch/batch.hpp"
#include "areo/batch/expectation.hpp"

namespace areo::wording {

/// "mixed culture, jar, 5L, since 2026-03-02"
[[nodiscard]] std::string facts_text(const notebook::BatchRecord& r);
/// "PT-1: pear and thyme, mixed culture, jar, 5L, since 2026-03-02"
[[nodiscard]] std::string batch_text(const notebook::BatchRecord& r);
[[nodiscard]] std::string batch_json(const notebook::Notebook& book,
                                     const notebook::BatchRecord& r);
/// "sugar, 100g", "juice, 0.5L of 12.5Bx", "part of PT-2, 1L"
[[nodiscard]] std::string addition_text(const notebook::Notebook& book,
                                        const notebook::AdditionRecord& r);
[[nodiscard]] std::string addition_json(const notebook::Notebook& book,
                                        const notebook::AdditionRecord& r);
/// Numbers of the readings of a sample: "7", "7, 8, 9".
[[nodiscard]] std::string numbers(const batch::Sample& sample);
/// The same for a narrow column, neighbours as a stretch: "7-9".
[[nodiscard]] std::string numbers_cell(const batch::Sample& sample);
/// What a sample was: "stem-1 shows 1.030, 1.031 at 21 °C".
[[nodiscard]] std::string sample_text(batch::Batch& batch, const batch::Sample& sample);
/// The same for a narrow column: "stem-1: 1.030, 1.031, 21 °C".
[[nodiscard]] std::string sample_cell(batch::Batch& batch, const batch::Sample& sample);
/// The alcohol, its bound, or why there is none, under a head that says "alcohol": "4.98 ± 0.30 %
/// vol", "below 0.24 % vol (about 95 %)".
[[nodiscard]] std::string strength_text(const batch::Point& point, bool full);
/// The same below strength_head: "4.98 ± 0.30", "below 0.24".
[[nodiscard]] std::string strength_cell_text(const batch::Point& point, bool full);
inline constexpr const char* strength_head = "alcohol, % vol";
/// What such a table has to say once.
inline constexpr const char* column_level = "± and bounds: about 95 %";
/// The same where it stands by itself: "alcohol below 0.24 % vol (about 95 %)".
/// @param point  with a strength
[[nodiscard]] std::string strength_alone_text(const batch::Point& point, bool full);
/// "down 0.0081 ± 0.0010 since 2026-03-03 (2.1 days)"; empty for the first sample.
[[nodiscard]] std::string change_text(batch::Batch& batch, const batch::Point& point);
/// Whether the gravity rose since the last sample, beyond its uncertainty.
[[nodiscard]] bool jumped_up(batch::Batch& batch, const batch::Point& point);
/// One sample as an object: what was read, and what follows from it.
[[nodiscard]] std::string point_json(batch::Batch& batch, const batch::Point& point);
/// The sample that a reading belongs to.
[[nodiscard]] const batch::Sample& sample_with(const batch::Batch& batch, notebook::Id reading);
/// Notes of all points, each once; readings outside the checked part of one scale in one note.
[[nodiscard]] std::vector<std::string> notes_of(const std::vector<batch::Point>& points);
/// "2940 more readings of these days are not shown; --all shows them"; empty if all are.
[[nodiscard]] std::string not_shown_text(std::size_t samples, std::size_t shown);
/// Each sample as point_json(), one at a time, as a sensor writes many.
/// @param points  of some of these samples, in their order
/// @param line    takes each
void each_point_json(batch::Batch& batch, std::span<const batch::Sample* const> samples,
                     const std::vector<batch::Point>& points,
                     const std::function<void(const std::string&)>& line);
/// Doubts about what is to be noted, in one line.
[[nodiscard]] std::string doubts_text(const batch::Doubts& doubts);
/// "2026-03-02 10:00"; the seconds of a reading interest nobody.
[[nodiscard]] std::string when_text(Moment at);
/// "2.1 days", "3 hours"
[[nodiscard]] std::string duration_text(std::int64_t seconds);

}  // namespace areo::wording
