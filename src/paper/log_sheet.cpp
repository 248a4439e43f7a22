// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/paper/log_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "areo/batch/batch.hpp"
#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/measurement/original.hpp"
#include "areo/paper/card.hpp"
#include "areo/text/format.hpp"
#include "source_lines.hpp"

namespace areo::paper {
namespace {

// A place for a pen, on a sheet that lies on its side.
constexpr const char* blank = "________________________";

// Their widths are those of the boxes.
std::vector<document::SheetColumn> columns(Shape shape) {
  std::vector<document::SheetColumn> all{{"date", "date", "", 11},
                                         {"time", "time", "", 8},
                                         {"reading", "shows", "", 11},
                                         {"temperature", "temperature", "", 11},
                                         {"instrument", "instrument", "", 11},
                                         {"degassed", "bubbles out? yes/no", "", 10},
                                         {"note", "note", "", 21},
                                         {"person", "who", "", 7}};
  // What was added is no reading: areo addition add takes it.
  if (shape == Shape::for_people) all.insert(all.begin() + 6, {"added", "what was added", "", 17});
  return all;
}

// Instruments that the batch was read with and that are still in use, with their offsets.
std::vector<std::string> offset_lines(const notebook::Notebook& book, const batch::Batch& batch,
                                      Moment at) {
  std::vector<notebook::Id> used;
  std::vector<std::string> lines;
  for (const auto& r : batch.readings()) {
    if (!r.counts() || std::find(used.begin(), used.end(), r.instrument) != used.end()) continue;
    used.push_back(r.instrument);
    if (!book.retired(r.instrument))
      lines.push_back(offset_line(card_subject(book, book.instrument(r.instrument), at)));
  }
  return lines;
}

std::string original_text(batch::Batch& batch, Moment at) {
  try {
    const auto original = batch.original("", at);
    if (!original.readings.empty())
      return text::value_text(measurement::original_gravity(original).at("sg_20_20_original").value,
                              "");
  } catch (const Error&) {
    return blank;  // not computed; areo batch show says why
  }
  return blank;
}

std::string or_blank(const std::string& text) { return text.empty() ? blank : text; }

std::vector<std::string> empty_row(const std::vector<document::SheetColumn>& columns, Cells cells) {
  std::vector<std::string> row;
  row.reserve(columns.size());
  for (const auto& c : columns)
    row.push_back(cells == Cells::lines ? std::string(c.width, '_') : "");
  return row;
}

}  // namespace

document::Headline blank_log_headline() {
  return {{fmt::format("Batch {}", blank)},
          {fmt::format("drink {0}   vessel {0}   volume {0}   since {0}", blank),
           fmt::format("original gravity {0}   instrument {0}   its offset {0}", blank)}};
}

document::Headline log_headline(const notebook::Notebook& book, const std::string& name,
                                Moment at) {
  batch::Batch batch{book, name};
  const notebook::BatchRecord& r = batch.record();
  document::Headline h{{fmt::format("Batch {}", r.name)},
                       {fmt::format("drink {}; vessel {}; volume {}; since {}; original gravity {}",
                                    or_blank(r.drink), or_blank(r.vessel), or_blank(r.volume_typed),
                                    r.started_at.date(), original_text(batch, at))}};
  const auto offsets = offset_lines(book, batch, at);
  h.below.insert(h.below.end(), offsets.begin(), offsets.end());
  if (offsets.empty()) h.below.push_back(fmt::format("instrument {0}   its offset {0}", blank));
  return h;
}

document::SheetHead log_head(const document::Headline& headline, const std::string& batch,
                             Shape shape) {
  document::SheetHead head;
  head.title = "Log of readings";
  head.columns = columns(shape);
  head.source = source_lines({});
  head.headline = headline;
  head.setup.for_a_pen = true;
  head.setup.landscape = true;
  head.lines = {
      fmt::format("Write a reading as it is shown, uncorrected, and the temperature with its unit; "
                  "areo corrects "
                  "it then: areo reading add {} 1.030 --temp 21C",
                  batch.empty() ? "NAME" : shell_word(batch))};
  return head;
}

void write_log(const document::SheetHead& head, std::size_t rows, Cells cells,
               document::SheetWriter& out) {
  const auto row = empty_row(head.columns, cells);
  for (std::size_t i = 0; i < rows; ++i) out.row(row);
  out.end({});
}

}  // namespace areo::paper
