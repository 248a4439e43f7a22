// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/stream/stream.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/text/format.hpp"
#include "areo/text/parse_sample.hpp"
#include "areo/wording/notes.hpp"
#include "text/json_dump.hpp"
#include "wording/result_value.hpp"

namespace areo::stream {
namespace {

// Finds repeated rows within a window: a paste that slipped in twice. The window bounds the memory.
class Repeats {
 public:
  /// Line of an equal row within the window, and remembers this one.
  std::optional<std::size_t> seen(const text::CsvRow& row) {
    std::string joined;
    for (const std::string& c : row.cells) {
      joined += c;
      joined += '\x1f';
    }
    const std::size_t hash = std::hash<std::string>{}(joined);
    const auto found = std::find_if(window_.begin(), window_.end(),
                                    [&](const Entry& e) { return e.line != 0 && e.hash == hash; });
    std::optional<std::size_t> earlier;
    if (found != window_.end()) earlier = found->line;
    window_[next_] = {hash, row.line};
    next_ = (next_ + 1) % window_.size();
    return earlier;
  }

 private:
  struct Entry {
    std::size_t hash = 0, line = 0;
  };
  std::array<Entry, 1000> window_{};
  std::size_t next_ = 0;
};

// "-5.5P" is no formula, though "-5+..." could be one: digits, one unit, nothing to compute with.
bool is_negative_reading(const std::string& cell) {
  if (cell.size() < 2 || cell[0] != '-' || cell[1] < '0' || cell[1] > '9') return false;
  if (text::printable(cell) != cell) return false;
  return std::all_of(cell.begin() + 1, cell.end(), [](char c) {
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '.' ||
           c == ',' || c == ' ' || (static_cast<unsigned char>(c) & 0x80U) != 0;
  });
}

// What says what a row is about; no result depends on it.
const std::vector<std::string> described{"batch",  "bottle", "date",  "time",
                                         "person", "note",   "sample"};

class Writer {
 public:
  Writer(const text::CsvReader& reader, const text::Columns& columns, const StreamJob& job,
         StreamForm form, const LineSink& line)
      : reader_{&reader}, columns_{&columns}, job_{&job}, form_{form}, line_{&line} {}

  void header() const {
    if (form_.json) return;
    std::string out;
    for (const std::string& c : reader_->columns()) out += text::csv_text_cell(c) + ",";
    for (const std::string& key : job_->results) out += fmt::format("{},{}_U,", key, key);
    for (const std::string& key : job_->facts) out += key + ",";
    (*line_)(out + "note,error");
  }

  void good(const text::CsvRow& row, const RowOutcome& outcome) const {
    if (form_.json) {
      text::Json head{{"line", row.line}};
      for (std::size_t i = 0; i < outcome.facts.size(); ++i)
        text::add_field(head, job_->facts.at(i), outcome.facts[i]);
      add_kept(head, row);
      (*line_)(wording::json_line(outcome.result, std::move(head)));
      return;
    }
    std::string out = input_cells(row);
    for (const std::string& key : job_->results) {
      const auto& all = outcome.result.quantities;
      const auto q =
          std::find_if(all.begin(), all.end(), [&](const auto& x) { return x.key == key; });
      const bool shown =
          q != all.end() && std::find(outcome.withheld.begin(), outcome.withheld.end(), key) ==
                                outcome.withheld.end();
      out += shown ? value_cells(q->value) : ",,";
    }
    for (std::size_t i = 0; i < job_->facts.size(); ++i)
      out += (i < outcome.facts.size() ? outcome.facts[i].cell() : "") + ",";
    (*line_)(out +
             text::csv_text_cell(
                 fmt::format("{}", fmt::join(wording::all_notes(outcome.result), "; "))) +
             ",");
  }

  // @param note  about the row as a whole; may be empty
  void bad(const text::CsvRow& row, const Error& e, const std::string& note) const {
    if (form_.json) {
      text::Json object = wording::failure_value(e, row.line, note);
      add_kept(object, row);
      (*line_)(text::dump(object));
      return;
    }
    std::string out = input_cells(row);
    out.append(2 * job_->results.size() + job_->facts.size(), ',');
    const bool more = row.cells.size() > reader_->columns().size();
    (*line_)(out + text::csv_text_cell(note) + "," +
             text::csv_text_cell(more ? fmt::format("{}; the line was: {}", e.what(), row.text)
                                      : e.what()));
  }

 private:
  // Columns that areo reads go out as they came; free text is kept from running in a spreadsheet.
  [[nodiscard]] std::string input_cells(const text::CsvRow& row) const {
    std::string out;
    for (std::size_t i = 0; i < reader_->columns().size(); ++i) {
      const std::string cell = i < row.cells.size() ? row.cells[i] : "";
      const bool negative = is_number_column(i) && is_negative_reading(cell);
      out += (negative ? text::csv_cell(cell) : text::csv_text_cell(cell)) + ",";
    }
    return out;
  }
  [[nodiscard]] bool is_number_column(std::size_t i) const {
    const auto kind = text::kind_of_field(columns_->meanings()[i].field);
    return columns_->is_kept(i) || kind == text::CellKind::mark ||
           kind == text::CellKind::temperature;
  }
  // The cells that go along because somebody said so; nothing if there are none.
  void add_kept(text::Json& to, const text::CsvRow& row) const {
    text::Json kept = text::Json::object();
    for (std::size_t i = 0; i < reader_->columns().size(); ++i)
      if (columns_->is_kept(i))
        kept[reader_->columns()[i]] = i < row.cells.size() ? row.cells[i] : "";
    if (!kept.empty()) to["kept"] = std::move(kept);
  }
  [[nodiscard]] std::string value_cells(const uncertainty::Value& v) const {
    const double expanded = v.expanded();
    const int decimals = text::last_place(expanded) + (form_.full ? 6 : 0);
    return text::fixed(v.estimate, decimals) + "," + text::fixed(expanded, decimals) + ",";
  }

  const text::CsvReader* reader_;
  const text::Columns* columns_;
  const StreamJob* job_;
  StreamForm form_;
  const LineSink* line_;
};

// What areo writes must not stand twice in a header: the output could not be read again.
void refuse_own_columns(const text::CsvReader& reader, const StreamJob& job, StreamForm form) {
  if (form.json) return;
  std::vector<std::string> own{"note", "error"};
  own.insert(own.end(), job.facts.begin(), job.facts.end());
  for (const std::string& key : job.results) {
    own.push_back(key);
    own.push_back(key + "_U");
  }
  for (const std::string& c : own)
    if (reader.has_column(c))
      throw Error{Errc::file, fmt::format("the column '{}' is one that areo writes", c),
                  "rename it in the file, e.g. my_" + c};
}

text::ColumnRules with_fields_of(const StreamJob& job, text::ColumnRules rules) {
  rules.fields = job.needed;
  rules.needed = job.needed;
  rules.fields.insert(rules.fields.end(), job.known.begin(), job.known.end());
  rules.described = described;
  rules.both_mean_hint = "leave one out, or let it go along unread with --keep";
  return rules;
}

void pass_rows(std::istream& in, text::CsvReader& reader, const text::Columns& columns,
               const StreamJob& job, const Writer& writer, text::SaidOnce& refused) {
  Repeats repeats;
  const auto repeated = [&](const text::CsvRow& row) {
    const auto line = repeats.seen(row);
    return line ? fmt::format("same as line {}", *line) : std::string{};
  };
  const auto fail = [&](const text::CsvRow& row, const Error& e, const std::string& note) {
    refused.add(row.line, e.what(), e.hint);
    writer.bad(row, e, note);
  };
  for (text::CsvRow row;;) {
    try {
      if (!reader.next(row)) break;
    } catch (const text::CsvError& e) {
      if (in.bad()) throw;  // no further row will come
      fail(row, Error{e.code, e.reason, e.hint}, repeated(row));
      continue;
    }
    const std::string note = repeated(row);
    try {
      RowOutcome outcome = job.compute(RowView{reader, columns, row});
      if (!note.empty()) outcome.result.notes.emplace_back(measurement::note::Said{note});
      writer.good(row, outcome);
    } catch (const Error& e) {
      fail(row, e, note);
    }
  }
}

}  // namespace

std::string RowView::cell(std::string_view field) const {
  const auto column = columns_->find(field);
  return column ? row_->cells[*column] : "";
}

std::string RowView::operator[](std::string_view field) const {
  const auto column = columns_->find(field);
  const auto with_unit = [&](const std::string& cell) {
    return text::cell_with_unit(cell, columns_->meanings()[*column], reader_->columns()[*column]);
  };
  if (!text::temperature_field_of(field).empty())
    return column ? with_unit(text::reading_from_text(cell(field)).shown) : "";
  std::string own = column ? with_unit(cell(field)) : "";
  for (const std::string_view mark : {"reading", "original", "present", "gravity"}) {
    if (text::temperature_field_of(mark) != field) continue;
    std::string behind = text::reading_from_text(cell(mark)).temperature;
    if (behind.empty()) continue;
    if (!own.empty())
      throw ParseError{
          fmt::format("the temperature is {} or {}: it stands in two columns", behind, own),
          cell(mark), 0, cell(mark).size(), "leave one out"};
    return behind;
  }
  return own;
}

std::vector<std::string> run_stream(std::istream& in, const std::string& name, const StreamJob& job,
                                    const text::ColumnRules& rules, StreamForm form,
                                    const LineSink& line, text::SaidOnce& refused) {
  text::CsvReader reader{in, name, text::Separator::of_header};
  const text::Columns columns{reader.columns(), with_fields_of(job, rules), name};
  refuse_own_columns(reader, job, form);
  const Writer writer{reader, columns, job, form, line};
  writer.header();
  pass_rows(in, reader, columns, job, writer, refused);
  if (!columns.has_usual_unit()) return {};
  return {text::usual_unit_words(rules)};
}

}  // namespace areo::stream
