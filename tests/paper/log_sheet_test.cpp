// SPDX-License-Identifier: GPL-3.0-or-later
// The sheet for a pen: its columns, its rows, and what it says of a batch.
#include "areo/paper/log_sheet.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "checked.hpp"

namespace areo::paper {
namespace {

using notebook::expect_contains;

std::string written(const document::SheetHead& head, document::SheetFormat format, Cells cells) {
  std::ostringstream out;
  write_log(head, 3, cells, *document::sheet_writer(format, out, head));
  return out.str();
}

TEST(LogSheet, HasTheColumnsOfAnImport) {
  const document::SheetHead head = log_head(blank_log_headline(), "", Shape::for_programs);
  const std::string csv = written(head, document::SheetFormat::csv, Cells::empty);
  expect_contains(csv, "\ndate,time,reading,temperature,instrument,degassed,note,person\n");
  expect_contains(csv, "\n,,,,,,,\n,,,,,,,\n,,,,,,,\n");
  const document::SheetHead people = log_head(blank_log_headline(), "", Shape::for_people);
  EXPECT_EQ(people.columns.size(), head.columns.size() + 1) << "what was added";
}

TEST(LogSheet, HasLinesToWriteOnWhereNoBoxIsDrawn) {
  const document::SheetHead head = log_head(blank_log_headline(), "", Shape::for_people);
  expect_contains(written(head, document::SheetFormat::text, Cells::lines),
                  "\n___________ ________ ___________");
  EXPECT_TRUE(head.setup.for_a_pen && head.setup.landscape);
  expect_contains(head.lines.front(), "areo reading add NAME 1.030");
  expect_contains(log_head({}, "two words", Shape::for_people).lines.front(),
                  "add 'two words' 1.030");
}

class LogOfABatch : public Checked {};

TEST_F(LogOfABatch, SaysWhatTheNotebookHas) {
  const Id id = stem("stem-1", physics::sg_20_20, 0.990, 1.100, 0.002);
  put_in_force(id, check(id, {in_water(1.002, 21)}));
  notebook::BatchRecord b;
  b.name = "PT-1";
  b.drink = "pear";
  b.started_at = moment_from_text("2026-03-02");
  const Id batch = book_.add(b);
  const Moment at = moment_from_text("2026-06-01T12:00Z");
  const document::Headline empty = log_headline(book_, "PT-1", at);
  EXPECT_EQ(empty.lines, (std::vector<std::string>{"Batch PT-1"}));
  expect_contains(empty.below.at(0), "drink pear; vessel ____");
  expect_contains(empty.below.at(0), "original gravity ____");
  expect_contains(empty.below.at(1), "instrument ____");

  notebook::ReadingRecord r;
  r.batch = batch;
  r.instrument = id;
  r.indication = 1.048;
  r.stage = notebook::Stage::original;
  r.temperature_c = 20;
  r.made_at = r.noted_at = moment_from_text("2026-03-02T10:00Z");
  book_.add(std::span{&r, 1});
  const document::Headline read = log_headline(book_, "PT-1", at);
  expect_contains(read.below.at(0), "original gravity 1.04");
  EXPECT_EQ(read.below.at(1), offset_line(subject("stem-1")));
  EXPECT_EQ(read.below.size(), 2u);
  book_.retire(id, at, "broke");
  expect_contains(log_headline(book_, "PT-1", at).below.at(1), "instrument ____");
}

}  // namespace
}  // namespace areo::paper
