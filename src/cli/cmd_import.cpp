// areo import: an export, or readings from a table in CSV or JSON.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <memory>
#include <optional>
#include <sstream>

#include "areo/core/error.hpp"
#include "areo/report/json.hpp"
#include "areo/report/rows.hpp"
#include "areo/report/text.hpp"
#include "areo/tables/csv.hpp"
#include "bench.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "import_readings.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

namespace fs = std::filesystem;

struct Options {
  std::string file, map;
  ImportDefaults defaults;
  bool dry_run = false, all_or_nothing = false;
};

// --- an export ---

// It is brought back whole, as it is.
void refuse_options(const Options& o) {
  const auto& d = o.defaults;
  for (const auto& [given, name] :
       {std::pair{o.dry_run, "--dry-run"}, std::pair{o.all_or_nothing, "--all-or-nothing"},
        std::pair{!o.map.empty(), "--map"}, std::pair{!d.batch.empty(), "--batch"},
        std::pair{!d.instrument.empty(), "--instrument"},
        std::pair{!d.thermometer.empty(), "--thermometer"}, std::pair{!d.person.empty(), "--by"}})
    if (given)
      throw UsageError{fmt::format("an export is brought back whole: {} does not go with it", name),
                       "to look first, bring it into a new notebook: areo --notebook NEW import "
                       "FILE"};
}

void require_version(const std::string& first_line, const std::string& file) {
  for (const auto& [name, value] : report::members_from_json(first_line))
    if (name == "version" && value != std::to_string(notebook::notebook_version) &&
        value != std::to_string(notebook::oldest_export))
      throw Error{Errc::file,
                  fmt::format("{} was exported from a notebook of version {}", file, value),
                  fmt::format("this areo has version {}: export it again with it",
                              notebook::notebook_version)};
}

int tell_restored(const notebook::Restored& r, const Session& session) {
  if (session.json)
    raw_line(fmt::format(R"({{"added":{},"known":{}}})", r.added, r.known));
  else
    line(fmt::format("{} rows brought back, {} were there already", r.added, r.known));
  return done;
}

int restore_json(std::istream& in, const Options& o, const Session& session) {
  std::string first;
  std::getline(in, first);
  if (first.starts_with(R"({"areo":)"))
    require_version(first, o.file);
  else
    in.seekg(0);
  notebook::Notebook book{notebook_path(session), notebook::Open::create};
  std::string text;
  return tell_restored(book.restore([&](notebook::NamedRow& row) {
    while (std::getline(in, text)) {
      if (text.empty()) continue;
      row = report::row_from_json(text);
      return true;
    }
    return false;
  }),
                       session);
}

int restore_csv(const std::string& folder, const Session& session) {
  notebook::Notebook book{notebook_path(session), notebook::Open::create};
  const auto tables = book.tables();
  auto next = tables.begin();
  std::optional<std::ifstream> in;
  std::optional<tables::CsvReader> reader;
  const auto open = [&] {
    const std::string file = (fs::path{folder} / (next->name + ".csv")).string();
    in.emplace(file, std::ios::binary);
    if (!*in)
      throw Error{Errc::file, fmt::format("{} cannot be read", file), "is this folder an export?"};
    reader.emplace(*in, file);
  };
  return tell_restored(book.restore([&](notebook::NamedRow& row) {
    for (; next != tables.end(); ++next, reader.reset()) {
      if (!reader) open();
      tables::CsvRow cells;
      if (!reader->next(cells)) continue;
      row = {next->name, {}};
      for (std::size_t i = 0; i < cells.cells.size(); ++i) {
        const std::string& name = reader->columns()[i];
        const auto column = std::find_if(next->columns.begin(), next->columns.end(),
                                         [&](const auto& c) { return c.name == name; });
        if (column == next->columns.end())
          throw Error{Errc::file, fmt::format("{} has no column '{}'", next->name, name),
                      "is this an export of areo, of this version?"};
        row.cells.emplace_back(name, report::cell_from_row(cells.cells[i], *column));
      }
      return true;
    }
    return false;
  }),
                       session);
}

// --- readings from a table ---

// Rows become readings one by one; what cannot be noted is told with its line and column.
class Import {
 public:
  Import(const Options& o, const Session& session)
      : options_{&o}, session_{&session}, book_{notebook_path(session)}, known_{book_} {}

  // Columns that mean nothing to areo: said once, so that a misspelt one is seen.
  void leave_out(const std::vector<std::string>& columns) { left_out_ = columns; }

  // A row of fields; `header` says what they are called in the file.
  void take(std::size_t line, const ImportRow& row,
            const std::map<std::string, std::string>& header) {
    std::string field;
    try {
      ImportedReading r = imported_reading(row, options_->defaults, book_, field);
      if (known_.known(r.record)) {
        ++there_;
        return;
      }
      const auto [earlier, is_new] = lines_.emplace(KnownReadings::key_of(r.record), line);
      if (!is_new && r.sample.empty())
        fmt::print(stderr, "areo: {}:{}: same as line {}; noted all the same\n",
                   report::printable(options_->file), line, earlier->second);
      const bool repeat = !r.sample.empty() && r.sample == sample_ && !samples_.empty() &&
                          samples_.back().front().batch == r.record.batch &&
                          samples_.back().front().bottle == r.record.bottle &&
                          samples_.back().front().stage == r.record.stage &&
                          samples_.back().front().made_at == r.record.made_at &&
                          samples_.back().front().instrument == r.record.instrument;
      if (!repeat) samples_.emplace_back();
      sample_ = r.sample;
      samples_.back().push_back(std::move(r.record));
      ++good_;
    } catch (const Error& e) {
      const auto called = header.find(field);
      refuse(line, called == header.end() ? field : called->second, e);
    }
  }
  void refuse(std::size_t line, const std::string& column, const Error& e) {
    ++bad_;
    const std::string where = column.empty() ? "" : fmt::format("column '{}': ", column);
    if (session_->json) raw_line(failure_json(Error{e.code, where + e.what(), e.hint}, line));
    fmt::print(stderr, "areo: {}:{}: {}{}\n", report::printable(options_->file), line,
               report::printable(where), report::printable(e.what()));
    if (!e.hint.empty() && !session_->json)
      fmt::print(stderr, "hint: {}\n", report::printable(e.hint));
  }

  int finish() {
    const bool write = !options_->dry_run && good_ > 0 && !(options_->all_or_nothing && bad_ > 0);
    if (write) book_.add_samples(samples_);
    const int noted = write ? good_ : 0;
    if (session_->json)
      raw_line(fmt::format(R"({{"noted":{},"known":{},"refused":{},"dry_run":{},"left_out":[{}]}})",
                           noted, there_, bad_, options_->dry_run, left_out_json()));
    else
      line(summary(noted));
    if (!session_->json && !left_out_.empty())
      line(fmt::format(
          "note: left out, because areo does not know what they mean: {}; --map says it",
          fmt::join(left_out_, ", ")));
    if (!session_->json && noted > 0) line("next: areo batch list shows what is there now");
    return bad_ > 0 ? said_no : done;
  }

 private:
  [[nodiscard]] std::string left_out_json() const {
    std::string out;
    for (const std::string& c : left_out_) out += (out.empty() ? "" : ",") + report::json_string(c);
    return out;
  }
  [[nodiscard]] std::string summary(int noted) const {
    std::string out = options_->dry_run ? fmt::format("{} would be noted", good_)
                                        : fmt::format("{} noted", noted);
    out += fmt::format(", {} there already, {} refused", there_, bad_);
    if (options_->all_or_nothing && bad_ > 0)
      out += "; all or nothing, so nothing was noted";
    else if (bad_ > 0)
      out += "; mend these and import the file again: what is there is not noted twice";
    return out;
  }
  const Options* options_;
  const Session* session_;
  notebook::Notebook book_;
  KnownReadings known_;
  std::vector<std::vector<notebook::ReadingRecord>> samples_;
  std::vector<std::string> left_out_;
  std::string sample_;                        // of the row before
  std::map<std::string, std::size_t> lines_;  // where a reading was first met
  int good_ = 0, there_ = 0, bad_ = 0;
};

// A unit that stands in the header belongs to numbers without one.
std::string with_unit(const std::string& cell, const ColumnMeaning& m) {
  const bool bare = !cell.empty() && cell.find_first_not_of("0123456789.,+-") == std::string::npos;
  return bare && !m.unit.empty() ? cell + m.unit : cell;
}

std::map<std::string, ColumnMeaning> mapping(const Options& o) {
  return o.map.empty() ? std::map<std::string, ColumnMeaning>{} : mapping_from_file(o.map);
}

// A row that nobody wrote in, as blank sheets have them, is like an empty line.
bool is_blank(const std::vector<std::string>& cells) {
  return std::all_of(cells.begin(), cells.end(), [](const std::string& cell) {
    return cell.find_first_not_of(" \t\r") == std::string::npos;
  });
}

// The meanings of a file's columns; areo needs to find readings and dates, and no field twice.
std::vector<ColumnMeaning> meanings(const std::vector<std::string>& columns, const Options& o) {
  const auto mapped = mapping(o);
  std::vector<ColumnMeaning> all;
  std::map<std::string, std::string> seen;
  for (const std::string& c : columns) {
    const auto own = mapped.find(c);
    all.push_back(own != mapped.end() ? own->second : meaning_of(c));
    const std::string& field = all.back().field;
    if (field.empty()) continue;
    const auto [before, is_new] = seen.emplace(field, c);
    if (!is_new)
      throw Error{Errc::file, fmt::format("'{}' and '{}' both mean {}", before->second, c, field),
                  "leave one out, or say what they are with --map FILE"};
  }
  for (const auto& [name, m] : mapped)
    if (std::find(columns.begin(), columns.end(), name) == columns.end())
      throw Error{Errc::file, fmt::format("{} maps a column '{}' that is not there", o.map, name),
                  fmt::format("the columns are: {}", fmt::join(columns, ", "))};
  for (const char* field : {"date", "reading"})
    if (seen.find(field) == seen.end())
      throw Error{
          Errc::file, fmt::format("{} has no column that means {}", o.file, field),
          fmt::format("its columns are: {}; say which with --map FILE", fmt::join(columns, ", "))};
  return all;
}

int import_csv(std::istream& in, const Options& o, const Session& session) {
  tables::CsvReader reader{in, o.file, tables::Separator::of_header};
  const auto columns = meanings(reader.columns(), o);
  std::map<std::string, std::string> header;
  for (std::size_t i = 0; i < columns.size(); ++i)
    if (!columns[i].field.empty()) header.emplace(columns[i].field, reader.columns()[i]);
  Import import{o, session};
  std::vector<std::string> left_out;
  for (std::size_t i = 0; i < columns.size(); ++i)
    if (columns[i].field.empty()) left_out.push_back(reader.columns()[i]);
  import.leave_out(left_out);
  for (tables::CsvRow row;;) {
    try {
      if (!reader.next(row)) break;
    } catch (const tables::CsvError& e) {
      if (in.bad()) throw;  // no further row will come
      import.refuse(row.line, "", Error{e.code, e.reason, e.hint});
      continue;
    }
    if (is_blank(row.cells)) continue;
    ImportRow fields;
    for (std::size_t i = 0; i < columns.size(); ++i)
      if (!columns[i].field.empty()) fields[columns[i].field] = with_unit(row.cells[i], columns[i]);
    import.take(row.line, fields, header);
  }
  return import.finish();
}

int import_json(const std::string& text, const Options& o, const Session& session) {
  const auto mapped = mapping(o);
  Import import{o, session};
  std::size_t number = 0;
  for (const std::string& object : report::objects_from_json(text)) {
    ++number;
    ImportRow fields;
    std::map<std::string, std::string> header;
    try {
      for (const auto& [name, value] : report::members_from_json(object)) {
        const auto own = mapped.find(name);
        const ColumnMeaning m = own != mapped.end() ? own->second : meaning_of(name);
        if (m.field.empty()) continue;
        fields[m.field] = with_unit(value, m);
        header[m.field] = name;
      }
    } catch (const Error& e) {
      import.refuse(number, "", e);
      continue;
    }
    import.take(number, fields, header);
  }
  return import.finish();
}

// What a file is shows in its first characters.
int import_stream(std::istream& in, const Options& o, const Session& session) {
  const std::string text{std::istreambuf_iterator<char>{in}, {}};
  const auto first = text.find_first_not_of(" \t\r\n");
  if (first == std::string::npos)
    throw Error{Errc::file, fmt::format("{} is empty", o.file), "is it the right file?"};
  std::istringstream again{text};
  const std::string_view begin = std::string_view{text}.substr(first, 10);
  if (begin.starts_with(R"({"areo":)") || begin.starts_with(R"({"table":)")) {
    refuse_options(o);
    return restore_json(again, o, session);
  }
  if (text[first] == '{' || text[first] == '[') return import_json(text, o, session);
  return import_csv(again, o, session);
}

int run_import(const Options& o, const Session& session) {
  if (o.file == "-") return import_stream(std::cin, o, session);
  std::error_code error;
  if (fs::is_directory(o.file, error)) {
    refuse_options(o);
    return restore_csv(o.file, session);
  }
  std::ifstream in{o.file, std::ios::binary};
  if (!in)
    throw Error{Errc::file, fmt::format("{} cannot be read", o.file),
                "check the name and its rights"};
  return import_stream(in, o, session);
}

}  // namespace

void setup_import(const Command& app, const Session& session, Run& run) {
  const auto o = std::make_shared<Options>();
  auto c = app.add_subcommand("import", "readings from a CSV or JSON file, or an export");
  c.add_option("file", o->file,
               "CSV with a header, JSON, an export of areo, or the folder of one; - = standard "
               "input")
      .required()
      .type_name("FILE");
  c.add_option("--map", o->map, "file with lines: their column = reading, P").type_name("FILE");
  c.add_option("--batch", o->defaults.batch, "for rows that name none").type_name("NAME");
  c.add_option("--instrument", o->defaults.instrument, "for rows that name none").type_name("NAME");
  c.add_option("--thermometer", o->defaults.thermometer, "for rows that name none")
      .type_name("NAME");
  c.add_option("--by", o->defaults.person, "for rows that name none").type_name("NAME");
  c.add_flag("--dry-run", o->dry_run, "say what would be noted, note nothing");
  c.add_flag("--all-or-nothing", o->all_or_nothing, "one bad row, and nothing is noted");
  c.footer(fmt::format(
      "Columns: {}.\nIn any order; a unit may stand in the header: 'Temperature (°C)', brix,\n"
      "temp_f. Cells with a decimal comma are understood, and semicolons between them.\n"
      "Equal words in the column sample make rows repeats of one sample. A row that is in\n"
      "the notebook already is not noted again.\n"
      "Examples:\n  areo import readings.csv --batch PT-1 --dry-run\n"
      "  areo --notebook new.db import notebook.jsonl",
      fmt::join(import_fields(), ", ")));
  c.callback([=, &session, &run] { run = [=, &session] { return run_import(*o, session); }; });
}

}  // namespace areo::cli
