// areo table log: a blank sheet for what is read at the jar, with boxes for a pen.
#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <memory>

#include "areo/batch/batch.hpp"
#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/measurement/original.hpp"
#include "areo/text/format.hpp"
#include "card.hpp"
#include "failure.hpp"
#include "open_notebook.hpp"
#include "table.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

// A place for a pen, on a sheet that lies on its side.
constexpr const char* blank = "________________________";

constexpr std::int64_t fill_the_sheet = std::numeric_limits<std::int64_t>::min();

struct Options {
  std::string batch;
  std::int64_t rows = fill_the_sheet;
  SheetOptions sheet;
};

constexpr std::int64_t most_rows = 1000;

// The keys are those that `areo import` takes; their widths are those of the boxes.
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
std::vector<std::string> offset_lines(const notebook::Notebook& book, const batch::Batch& batch) {
  std::vector<notebook::Id> used;
  std::vector<std::string> lines;
  for (const auto& r : batch.readings()) {
    if (!r.counts() || std::find(used.begin(), used.end(), r.instrument) != used.end()) continue;
    used.push_back(r.instrument);
    if (!book.retired(r.instrument))
      lines.push_back(offset_line(card_subject(book, book.instrument(r.instrument), now())));
  }
  return lines;
}

std::string original_text(batch::Batch& batch) {
  try {
    const auto original = batch.original("", now());
    if (!original.readings.empty())
      return text::value_text(measurement::original_gravity(original).at("sg_20_20_original").value,
                              "");
  } catch (const Error&) {
    return blank;  // not computed; areo batch show says why
  }
  return blank;
}

std::string or_blank(const std::string& text) { return text.empty() ? blank : text; }

document::Headline head_of(const Options& o, const Session& session) {
  if (o.batch.empty())
    return {{fmt::format("Batch {}", blank)},
            {fmt::format("drink {0}   vessel {0}   volume {0}   since {0}", blank),
             fmt::format("original gravity {0}   instrument {0}   its offset {0}", blank)}};
  const notebook::Notebook book = open_notebook(session, notebook::Open::read);
  batch::Batch batch{book, o.batch};
  const notebook::BatchRecord& r = batch.record();
  document::Headline h{{fmt::format("Batch {}", r.name)},
                       {fmt::format("drink {}; vessel {}; volume {}; since {}; original gravity {}",
                                    or_blank(r.drink), or_blank(r.vessel), or_blank(r.volume_typed),
                                    r.started_at.date(), original_text(batch))}};
  const auto offsets = offset_lines(book, batch);
  h.below.insert(h.below.end(), offsets.begin(), offsets.end());
  if (offsets.empty()) h.below.push_back(fmt::format("instrument {0}   its offset {0}", blank));
  return h;
}

// A box is drawn by the page; a text needs a line to write on.
std::vector<std::string> empty_row(const std::vector<document::SheetColumn>& columns, bool lines) {
  std::vector<std::string> row;
  row.reserve(columns.size());
  for (const auto& c : columns) row.push_back(lines ? std::string(c.width, '_') : "");
  return row;
}

int run_log(const Options& o, const Session& session) {
  const Shape shape = shape_of(o.sheet);
  document::SheetHead head;
  head.title = "Log of readings";
  head.columns = columns(shape);
  head.source = source_lines({});
  head.headline = head_of(o, session);
  head.setup.for_a_pen = true;
  head.setup.landscape = true;
  head.lines = {
      fmt::format("Write a reading as it is shown, uncorrected, and the temperature with its unit; "
                  "areo corrects "
                  "it then: areo reading add {} 1.030 --temp 21C",
                  o.batch.empty() ? "NAME" : shell_word(o.batch))};
  const auto row = empty_row(head.columns, format_of(o.sheet) == PrintFormat::text);
  constexpr std::int64_t usual_rows = 15;
  std::int64_t rows = o.rows > 0 ? o.rows : usual_rows;
  OneSheet one_sheet;
  if (o.rows == fill_the_sheet) {
    constexpr std::int64_t fewest = 4, most = 20;
    one_sheet = {most - fewest + 1, [&](document::SheetHead&, std::size_t more) {
                   rows = fewest + static_cast<std::int64_t>(more);
                 }};
  }
  write_sheet(
      o.sheet, session, head, static_cast<std::size_t>(rows) * head.columns.size(),
      [&](document::SheetWriter& out) {
        for (std::int64_t i = 0; i < rows; ++i) out.row(row);
        out.end({});
      },
      one_sheet);
  return done;
}

}  // namespace

void setup_table_log(const Command& tables, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto t = tables.add_subcommand("log", "a blank sheet for readings, to fill in with a pen");
  t.add_option("--batch", o->batch, "batch in the notebook that it is for; blanks unless stated")
      .type_name("NAME");
  t.add_option("--rows", o->rows,
               "so many; unless stated as many as fill a sheet of PDF, and 15 otherwise")
      .type_name("N");
  add_sheet_options(t, o->sheet);
  t.footer(
      "Examples:\n  areo table log --out log.pdf\n"
      "  areo table log --batch PT-1 --paper Letter --out pt-1-log.pdf\n"
      "  areo table log --csv > log.csv");
  t.callback([=, &session, &run] {
    check_sheet_options(o->sheet, session);
    if (session.json)
      throw UsageError{"a blank sheet has nothing for programs",
                       "--csv makes one that areo import takes back"};
    if (o->rows != fill_the_sheet && (o->rows < 1 || o->rows > most_rows))
      throw UsageError{fmt::format("a sheet has 1 to {} rows", most_rows), "say --rows 20"};
    run = [=, &session] { return run_log(*o, session); };
  });
}

}  // namespace areo::cli
