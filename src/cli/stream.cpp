#include "stream.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <optional>

#include "areo/core/error.hpp"
#include "areo/report/json.hpp"
#include "areo/report/text.hpp"
#include "failure.hpp"

namespace areo::cli {
namespace {

// Finds repeated rows within a window: a paste that slipped in twice. The window bounds the memory.
class Repeats {
 public:
  /// Line of an equal row within the window, and remembers this one.
  std::optional<std::size_t> seen(const tables::CsvRow& row) {
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
  if (report::printable(cell) != cell) return false;
  return std::all_of(cell.begin() + 1, cell.end(), [](char c) {
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '.' ||
           c == ',' || c == ' ' || (static_cast<unsigned char>(c) & 0x80U) != 0;
  });
}

class Writer {
 public:
  Writer(const tables::CsvReader& reader, const StreamJob& job, const Session& session)
      : reader_{&reader}, job_{&job}, session_{&session} {}

  void header() const {
    if (session_->json) return;
    std::string out;
    for (const std::string& c : reader_->columns()) out += tables::csv_text_cell(c) + ",";
    for (const std::string& key : job_->results) out += fmt::format("{},{}_U,", key, key);
    for (const std::string& key : job_->facts) out += key + ",";
    raw_line(out + "note,error");
  }

  void good(const tables::CsvRow& row, const RowOutcome& outcome) const {
    if (session_->json) {
      std::vector<std::pair<std::string, std::string>> head{{"line", std::to_string(row.line)}};
      for (std::size_t i = 0; i < outcome.facts.size(); ++i)
        if (!outcome.facts[i].text.empty())
          head.emplace_back(job_->facts.at(i), outcome.facts[i].json());
      raw_line(report::json_line(outcome.result, head));
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
      out += (i < outcome.facts.size() ? outcome.facts[i].text : "") + ",";
    raw_line(out + tables::csv_text_cell(fmt::format("{}", fmt::join(outcome.result.notes, "; "))) +
             ",");
  }

  // @param note  about the row as a whole; may be empty
  void bad(const tables::CsvRow& row, const Error& e, const std::string& note) const {
    if (session_->json) {
      raw_line(failure_json(e, row.line, note));
      return;
    }
    std::string out = input_cells(row);
    out.append(2 * job_->results.size() + job_->facts.size(), ',');
    const bool more = row.cells.size() > reader_->columns().size();
    raw_line(out + tables::csv_text_cell(note) + "," +
             tables::csv_text_cell(more ? fmt::format("{}; the line was: {}", e.what(), row.text)
                                        : e.what()));
  }

 private:
  // Columns that areo reads go out as they came; free text is kept from running in a spreadsheet.
  [[nodiscard]] std::string input_cells(const tables::CsvRow& row) const {
    std::string out;
    for (std::size_t i = 0; i < reader_->columns().size(); ++i) {
      const std::string cell = i < row.cells.size() ? row.cells[i] : "";
      const bool negative = is_ours(reader_->columns()[i]) && is_negative_reading(cell);
      out += (negative ? tables::csv_cell(cell) : tables::csv_text_cell(cell)) + ",";
    }
    return out;
  }
  [[nodiscard]] bool is_ours(const std::string& column) const {
    const auto in = [&](const std::vector<std::string>& v) {
      return std::find(v.begin(), v.end(), column) != v.end();
    };
    return in(job_->needed) || in(job_->known);
  }
  [[nodiscard]] std::string value_cells(const uncertainty::Value& v) const {
    const double expanded = v.expanded();
    const int decimals = report::last_place(expanded) + (session_->full ? 6 : 0);
    return report::fixed(v.estimate, decimals) + "," + report::fixed(expanded, decimals) + ",";
  }

  const tables::CsvReader* reader_;
  const StreamJob* job_;
  const Session* session_;
};

// What areo writes must not stand twice in a header: the output could not be read again.
void refuse_own_columns(const tables::CsvReader& reader, const StreamJob& job,
                        const Session& session) {
  if (session.json) return;
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

int run(std::istream& in, const std::string& name, const StreamJob& job, const Session& session) {
  tables::CsvReader reader{in, name};
  for (const std::string& c : job.needed) (void)reader.column(c);
  refuse_own_columns(reader, job, session);
  const Writer writer{reader, job, session};
  writer.header();
  Repeats repeats;
  bool failed = false;
  const auto repeated = [&](const tables::CsvRow& row) {
    const auto line = repeats.seen(row);
    return line ? fmt::format("same as line {}", *line) : std::string{};
  };
  const auto fail = [&](const tables::CsvRow& row, const Error& e, const std::string& note) {
    failed = true;
    writer.bad(row, e, note);
    fmt::print(stderr, "areo: {}:{}: {}\n", report::printable(name), row.line,
               report::printable(e.what()));
  };
  for (tables::CsvRow row;;) {
    try {
      if (!reader.next(row)) break;
    } catch (const tables::CsvError& e) {
      if (in.bad()) throw;  // no further row will come
      fail(row, Error{e.code, e.reason, e.hint}, repeated(row));
      continue;
    }
    const std::string note = repeated(row);
    try {
      RowOutcome outcome = job.compute(RowView{reader, row});
      if (!note.empty()) outcome.result.notes.push_back(note);
      writer.good(row, outcome);
    } catch (const Error& e) {
      fail(row, e, note);
    }
  }
  return failed ? 1 : 0;
}

}  // namespace

std::string Fact::json() const { return number ? text : report::json_string(text); }

std::string RowView::operator[](std::string_view column) const {
  return reader_->has_column(column) ? row_->cells[reader_->column(column)] : "";
}

int run_stream(const std::string& file, const StreamJob& job, const Session& session) {
  if (file == "-") return run(std::cin, "standard input", job, session);
  std::ifstream in{file};
  if (!in)
    throw Error{Errc::file, fmt::format("{} cannot be read", file),
                "check the name and its rights"};
  return run(in, file, job, session);
}

}  // namespace areo::cli
