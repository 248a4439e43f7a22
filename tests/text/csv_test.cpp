// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/csv.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::text {
namespace {

using Cells = std::vector<std::string>;

// The whole file, with errors in their place: "!" and the message.
std::vector<Cells> read_all(const std::string& text) {
  std::istringstream in{text};
  CsvReader reader{in, "f.csv"};
  std::vector<Cells> rows;
  for (CsvRow row;;) {
    try {
      if (!reader.next(row)) return rows;
      rows.push_back(row.cells);
    } catch (const Error& e) {
      EXPECT_EQ(e.code, Errc::file);
      rows.push_back({"!", e.what()});
      if (rows.size() > 1000) return rows;  // a reader that never ends must fail, not hang
    }
  }
}

std::string header_error(const std::string& text) {
  std::istringstream in{text};
  try {
    CsvReader reader{in, "f.csv"};
  } catch (const Error& e) {
    EXPECT_EQ(e.code, Errc::file);
    return e.what();
  }
  return "no error";
}

TEST(CsvReader, ReadsCommentsHeaderAndRows) {
  std::istringstream in{"# title: a table\n#units:  kg\n# no key\n\na,b\n1,2\n\n 3 ,\n"};
  CsvReader reader{in, "f.csv"};
  EXPECT_EQ(reader.comments(), (Cells{"title: a table", "units:  kg", "no key"}));
  EXPECT_EQ(reader.comment("Title"), "a table");
  EXPECT_EQ(reader.comment("UNITS"), "kg");
  EXPECT_EQ(reader.comment("source"), "");
  EXPECT_EQ(reader.comment("titl"), "");
  EXPECT_EQ(reader.columns(), (Cells{"a", "b"}));
  CsvRow row;
  ASSERT_TRUE(reader.next(row));
  EXPECT_EQ(row.cells, (Cells{"1", "2"}));
  EXPECT_EQ(row.line, 6u);
  ASSERT_TRUE(reader.next(row));
  EXPECT_EQ(row.cells, (Cells{" 3 ", ""})) << "blanks belong to the cell";
  EXPECT_EQ(row.line, 8u);
  EXPECT_FALSE(reader.next(row));
  EXPECT_FALSE(reader.next(row)) << "the end stays the end";
}

TEST(CsvReader, FindsColumnsByName) {
  std::istringstream in{"t_c,rho\n"};
  const CsvReader reader{in, "f.csv"};
  EXPECT_EQ(reader.column("rho"), 1u);
  EXPECT_TRUE(reader.has_column("t_c"));
  EXPECT_FALSE(reader.has_column("T_C"));
  try {
    (void)reader.column("density");
    FAIL() << "no error";
  } catch (const Error& e) {
    EXPECT_EQ(e.code, Errc::file);
    EXPECT_STREQ(e.what(), "f.csv has no column 'density'");
    EXPECT_EQ(e.hint, "its columns are: t_c, rho");
  }
}

TEST(CsvReader, UnquotesCells) {
  EXPECT_EQ(read_all("a,b\n\"x,y\",\"say \"\"no\"\"\"\n\"\",\"\"\"\"\n"),
            (std::vector<Cells>{{"x,y", "say \"no\""}, {"", "\""}}));
}

TEST(CsvReader, KeepsLineEndsInsideQuotes) {
  std::istringstream in{"a,b\n1,\"one\n\ntwo, \"\"2\"\"\r\nthree\"\n4,5\n"};
  CsvReader reader{in, "f.csv"};
  CsvRow row;
  ASSERT_TRUE(reader.next(row));
  EXPECT_EQ(row.cells, (Cells{"1", "one\n\ntwo, \"2\"\r\nthree"}));
  EXPECT_EQ(row.line, 2u);
  ASSERT_TRUE(reader.next(row));
  EXPECT_EQ(row.cells, (Cells{"4", "5"}));
  EXPECT_EQ(row.line, 6u) << "the lines inside the quotes count";
}

TEST(CsvReader, QuotedHeaderMaySpanLines) {
  std::istringstream in{"\"a\nb\",\"c,d\"\n1,2\n"};
  CsvReader reader{in, "f.csv"};
  EXPECT_EQ(reader.columns(), (Cells{"a\nb", "c,d"}));
  CsvRow row;
  ASSERT_TRUE(reader.next(row));
  EXPECT_EQ(row.line, 3u);
}

TEST(CsvReader, AcceptsByteOrderMarkCrLfAndNoLastLineEnd) {
  std::istringstream in{"\xEF\xBB\xBF# title: t\r\na,b\r\n1,2\r\n\r\n3,4"};
  CsvReader reader{in, "f.csv"};
  EXPECT_EQ(reader.comment("title"), "t");
  EXPECT_EQ(reader.columns(), (Cells{"a", "b"}));
  CsvRow row;
  ASSERT_TRUE(reader.next(row));
  EXPECT_EQ(row.cells, (Cells{"1", "2"}));
  ASSERT_TRUE(reader.next(row));
  EXPECT_EQ(row.cells, (Cells{"3", "4"}));
  EXPECT_EQ(row.line, 5u);
  EXPECT_FALSE(reader.next(row));
  EXPECT_EQ(read_all("\xEF\xBB\xBF"
                     "a\n1"),
            (std::vector<Cells>{{"1"}}));
}

TEST(CsvReader, HashAfterTheHeaderIsData) {
  EXPECT_EQ(read_all("a,b\n#1,2\n"), (std::vector<Cells>{{"#1", "2"}}));
}

TEST(CsvReader, WrongCellCountNamesTheLineAndGoesOn) {
  EXPECT_EQ(read_all("a,b\n1,2\n1,2,3\n4\n\"5\n5\",6,7\n8,9\n"),
            (std::vector<Cells>{{"1", "2"},
                                {"!", "f.csv:3: 3 cells, but the header has 2"},
                                {"!", "f.csv:4: 1 cell, but the header has 2"},
                                {"!", "f.csv:5: 3 cells, but the header has 2"},
                                {"8", "9"}}));
}

TEST(CsvReader, UnclosedQuoteCostsOneLine) {
  EXPECT_EQ(
      read_all("a,b\n1,\"2\n3,4\n\n5,6\n"),
      (std::vector<Cells>{{"!", "f.csv:2: a double quote is not closed"}, {"3", "4"}, {"5", "6"}}));
  EXPECT_EQ(read_all("a,b\n1,2\n3,\"4"),
            (std::vector<Cells>{{"1", "2"}, {"!", "f.csv:3: a double quote is not closed"}}));
  // Two forgotten quotes: the second looks like the end of the first cell, with text behind it.
  EXPECT_EQ(read_all("a,b\n1,\"2\n3,\"4\n5,6\n"),
            (std::vector<Cells>{{"!", "f.csv:2: a double quote in the middle of a cell"},
                                {"!", "f.csv:3: a double quote is not closed"},
                                {"5", "6"}}));
}

TEST(CsvReader, UnclosedQuoteInALongStreamStaysBounded) {
  std::string text = "a,b\n1,\"2\n";
  const std::size_t lines = max_csv_record_bytes / 4 + 10;
  for (std::size_t i = 0; i < lines; ++i) text += "3,4\n";
  std::istringstream in{text};
  CsvReader reader{in, "f.csv"};
  CsvRow row;
  EXPECT_THROW(reader.next(row), Error);
  EXPECT_LT(static_cast<std::size_t>(in.tellg()), text.size()) << "must not read to the end";
  std::size_t good = 0;
  while (reader.next(row)) ++good;
  EXPECT_EQ(good, lines);
  EXPECT_EQ(row.line, 0u + 2 + lines);
}

TEST(CsvReader, RefusesQuotesInsideCellsAndLoneCarriageReturns) {
  EXPECT_EQ(read_all("a\n5\"\n\"5\"x\n\"5\" \n6\r7\n8\n"),
            (std::vector<Cells>{{"!", "f.csv:2: a double quote in the middle of a cell"},
                                {"!", "f.csv:3: a double quote in the middle of a cell"},
                                {"!", "f.csv:4: a double quote in the middle of a cell"},
                                {"!", "f.csv:5: a carriage return in the middle of a line"},
                                {"8"}}));
}

TEST(CsvReader, RefusesWhatIsNotText) {
  const std::string zero{"a,b\n1,\0\n3,4\n", 12};
  EXPECT_EQ(
      read_all(zero),
      (std::vector<Cells>{{"!", "f.csv:2: a zero byte, so this is not plain text"}, {"3", "4"}}));
  EXPECT_EQ(read_all("a\n" + std::string(max_csv_record_bytes + 1, 'x') + "\n1\n"),
            (std::vector<Cells>{{"!", "f.csv:2: line longer than 1048576 bytes"}, {"1"}}));
}

TEST(CsvReader, HandsOutWhatARefusedRowHolds) {
  std::istringstream in{"a,b\n1,2,3\n4\n5,\"x\n6,y\"z,7\n8\"9,0\n\"1\n2\",3,4\n"};
  CsvReader reader{in, "f.csv"};
  const struct {
    std::size_t line;
    const char* reason;
    Cells cells;
    const char* text;
  } rows[] = {{2, "3 cells, but the header has 2", {"1", "2", "3"}, "1,2,3"},
              {3, "1 cell, but the header has 2", {"4"}, "4"},
              {4, "a double quote in the middle of a cell", {"5", "x"}, "5,\"x"},
              {5, "a double quote in the middle of a cell", {"6", "y\"z", "7"}, "6,y\"z,7"},
              {6, "a double quote in the middle of a cell", {"8\"9", "0"}, "8\"9,0"},
              {7, "3 cells, but the header has 2", {"1\n2", "3", "4"}, "\"1\n2\",3,4"}};
  CsvRow row;
  for (const auto& expected : rows) {
    try {
      reader.next(row);
      ADD_FAILURE() << "accepted line " << row.line;
    } catch (const CsvError& e) {
      EXPECT_EQ(e.reason, expected.reason);
    }
    EXPECT_EQ(row.line, expected.line);
    EXPECT_EQ(row.cells, expected.cells);
    EXPECT_EQ(row.text, expected.text);
  }
  EXPECT_FALSE(reader.next(row));
}

TEST(CsvReader, AnOpenQuoteDoesNotSwallowTheLinesBeforeAZeroByte) {
  const std::string text{"a,b\n1,\"2\n3,4\n5,\0\n6,7\n", 21};
  EXPECT_EQ(read_all(text),
            (std::vector<Cells>{{"!", "f.csv:2: a double quote is not closed"},
                                {"3", "4"},
                                {"!", "f.csv:4: a zero byte, so this is not plain text"},
                                {"6", "7"}}));
}

TEST(CsvReader, RefusesBadHeaders) {
  EXPECT_EQ(header_error(""), "f.csv:1: no header line");
  EXPECT_EQ(header_error("# only\n# comments"), "f.csv:3: no header line");
  EXPECT_EQ(header_error("# c\na,,b\n"), "f.csv:2: column 2 of 3 has no name");
  EXPECT_EQ(header_error("a, \n"), "f.csv:1: column 2 of 2 has no name");
  EXPECT_EQ(header_error("a,b,\n"), "f.csv:1: column 3 of 3 has no name");
  EXPECT_EQ(header_error("a,b,a\n"), "f.csv:1: column name 'a' occurs twice");
  EXPECT_EQ(header_error("a,\"b\n"), "f.csv:1: a double quote is not closed");
  EXPECT_EQ(header_error("a,b\r1,2\r"), "f.csv:1: a carriage return in the middle of a line");
}

TEST(CsvReader, RefusesAFileThatCannotBeRead) {
  std::ifstream in{"/nonexistent/f.csv"};
  EXPECT_THROW((CsvReader{in, "f.csv"}), Error);
}

TEST(CsvCell, QuotesWhatNeedsQuotes) {
  EXPECT_EQ(csv_cell("plain text; 1.5 °C"), "plain text; 1.5 °C");
  EXPECT_EQ(csv_cell(""), "");
  EXPECT_EQ(csv_cell("a,b"), "\"a,b\"");
  EXPECT_EQ(csv_cell("a\nb"), "\"a\nb\"");
  EXPECT_EQ(csv_cell("a\rb"), "\"a\rb\"");
  EXPECT_EQ(csv_cell("say \"no\""), "\"say \"\"no\"\"\"");
  EXPECT_EQ(csv_cell("#1"), "\"#1\"");
  EXPECT_EQ(csv_cell("\xEF\xBB\xBFx"), "\"\xEF\xBB\xBFx\"");
  EXPECT_EQ(csv_cell("-1.5"), "-1.5") << "a number stays a number";
}

TEST(CsvCell, WhatIsWrittenIsRead) {
  const Cells cells{"a,b", "say \"no\"", "two\nlines", "cr\r\nlf", "\"", ",", "#x", " y "};
  std::string text = "c1,c2,c3,c4,c5,c6,c7,c8\n";
  for (std::size_t i = 0; i < cells.size(); ++i) text += (i ? "," : "") + csv_cell(cells[i]);
  EXPECT_EQ(read_all(text + "\n"), (std::vector<Cells>{cells}));
}

TEST(CsvTextCell, SpreadsheetsDoNotRunIt) {
  EXPECT_EQ(csv_text_cell("=cmd|' /C calc'!A0"), "'=cmd|' /C calc'!A0");
  EXPECT_EQ(csv_text_cell("+1"), "'+1");
  EXPECT_EQ(csv_text_cell("-x"), "'-x");
  EXPECT_EQ(csv_text_cell("@SUM(A1)"), "'@SUM(A1)");
  EXPECT_EQ(csv_text_cell("\t=1"), "'\t=1");
  EXPECT_EQ(csv_text_cell("=A1,\"x\""), "\"'=A1,\"\"x\"\"\"");
  EXPECT_EQ(csv_text_cell("a=b-c"), "a=b-c");
  EXPECT_EQ(csv_text_cell(""), "");
}

TEST(CsvTextCell, ControlCharactersDoNotReachATerminal) {
  EXPECT_EQ(csv_text_cell("a\x1B[31mred"), "a\uFFFD[31mred");
  EXPECT_EQ(csv_text_cell("bell\a back\b del\x7F cr\rx"),
            "bell\uFFFD back\uFFFD del\uFFFD cr\uFFFDx");
  EXPECT_EQ(csv_text_cell("c1 \xC2\x9B 31m"), "c1 \uFFFD 31m");
  EXPECT_EQ(csv_text_cell(std::string{"nul\0x", 5}), "nul\uFFFDx");
  EXPECT_EQ(csv_text_cell("é ° \u00A0 tab\t ok"), "é ° \u00A0 tab\t ok");
  EXPECT_EQ(csv_text_cell("line\nline\r\nline"), "\"line\nline\r\nline\"");
  EXPECT_EQ(csv_text_cell("\xC2"), "\xC2") << "cut off in the middle of a character";
}

TEST(Separator, IsThatOfTheHeaderIfAskedFor) {
  const auto cells = [](const char* text, Separator separator) {
    std::istringstream in{text};
    CsvReader reader{in, "x.csv", separator};
    CsvRow row;
    EXPECT_TRUE(reader.next(row));
    return row.cells;
  };
  EXPECT_EQ(cells("a;b\n1,5;2\n", Separator::of_header), (Cells{"1,5", "2"}));
  EXPECT_EQ(cells("a\tb\n1,5\t2;3\n", Separator::of_header), (Cells{"1,5", "2;3"}));
  EXPECT_EQ(cells("a,b\n1;5,2\n", Separator::of_header), (Cells{"1;5", "2"}));
  EXPECT_EQ(cells("\"a;x\",b\n1;5,2\n", Separator::of_header), (Cells{"1;5", "2"}));
  EXPECT_EQ(cells("a;b\n\"x;y\";2\n", Separator::of_header), (Cells{"x;y", "2"}));
  // What else spreadsheets write.
  EXPECT_EQ(cells("sep=;\na;b\n1,5;2\n", Separator::of_header), (Cells{"1,5", "2"}));
  EXPECT_EQ(cells("a;b;;\n1,5;2;;\n", Separator::of_header), (Cells{"1,5", "2"}));
  EXPECT_EQ(cells("a;b\n;\n ; \n1,5;2\n", Separator::of_header), (Cells{"1,5", "2"}));
  EXPECT_THROW(cells("a;b;\n1,5;2;3\n", Separator::of_header), Error) << "a cell without a name";
  EXPECT_THROW(cells("a;b\n1,5;2;\n", Separator::of_header), Error) << "no such column";
  EXPECT_THROW(cells("a,b,\n1,2,\n", Separator::comma), Error) << "strict";
  EXPECT_EQ(cells("a;b\n1\n", Separator::comma), (Cells{"1"}));
}

}  // namespace
}  // namespace areo::text
