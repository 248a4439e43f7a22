// areo import: an export, or readings from a table in CSV or JSON.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iostream>
#include <iterator>
#include <map>
#include <memory>
#include <optional>
#include <string_view>
#include <tuple>

#include "areo/core/error.hpp"
#include "areo/stream/rows.hpp"
#include "areo/text/csv.hpp"
#include "areo/text/format.hpp"
#include "areo/text/json.hpp"
#include "areo/wording/failure.hpp"
#include "bench.hpp"
#include "column_options.hpp"
#include "command.hpp"
#include "failure.hpp"
#include "import_readings.hpp"
#include "insist.hpp"
#include "restore.hpp"
#include "spool.hpp"
#include "usage.hpp"

namespace areo::cli {
namespace {

namespace fs = std::filesystem;

struct Options {
  std::string file, map;
  ImportDefaults defaults;
  ColumnOptions columns;
  bool dry_run = false, all_or_nothing = false, yes = false;
};

// --- an export ---

// It is brought back whole, as it is.
void refuse_options(const Options& o) {
  const auto& d = o.defaults;
  for (const auto& [given, name] :
       {std::pair{o.dry_run, "--dry-run"}, std::pair{o.yes, "--yes"},
        std::pair{o.all_or_nothing, "--all-or-nothing"}, std::pair{!o.map.empty(), "--map"},
        std::pair{!o.columns.keep.empty(), "--keep"}, std::pair{!o.columns.units.empty(), "--unit"},
        std::pair{!d.batch.empty(), "--batch"}, std::pair{!d.instrument.empty(), "--instrument"},
        std::pair{!d.thermometer.empty(), "--thermometer"}, std::pair{!d.person.empty(), "--by"}})
    if (given)
      throw UsageError{fmt::format("an export is brought back whole: {} does not go with it", name),
                       "to look first, bring it into a new notebook: areo --notebook NEW import "
                       "FILE"};
}

// --- readings from a table ---

// Rows become readings, so many at a time, in one transaction; what cannot be noted is told with
// its line and column.
class Import {
 public:
  Import(const Options& o, const Session& session)
      : options_{&o}, session_{&session}, book_{open_notebook(session)} {}

  // Columns that mean nothing to areo: said once, so that a misspelt one is seen.
  void leave_out(const std::vector<std::string>& columns) { left_out_ = columns; }

  // Notes what rows() takes, where nobody else can note the same meanwhile.
  int run(const std::function<void()>& rows) {
    const auto all = [&] {
      rows();
      flush();
    };
    if (options_->dry_run)
      book_.at_one_moment(all);
    else
      book_.at_once([&] {
        all();
        noted_ = options_->all_or_nothing && not_noted() > 0 ? 0 : good_;
        return noted_ > 0;
      });
    tell();
    return not_noted() > 0 ? said_no : done;
  }

  // A row of fields; `header` says what they are called in the file.
  void take(std::size_t line, const ImportRow& row,
            const std::map<std::string, std::string>& header) {
    constexpr std::size_t most_samples = 10'000;
    std::string field;
    ImportedReading r;
    try {
      r = imported_reading(row, options_->defaults, book_, field);
    } catch (const Error& e) {
      const auto called = header.find(field);
      refuse(line, called == header.end() ? field : called->second, e);
      return;
    }
    const bool repeat = !r.sample.empty() && r.sample == sample_ && !samples_.empty() &&
                        of_one_sample(samples_.back().front(), r.record);
    if (!repeat) {
      if (samples_.size() >= most_samples) flush();
      samples_.emplace_back();
      lines_.push_back(line);
    }
    sample_ = r.sample;
    samples_.back().push_back(std::move(r.record));
    ++good_;
  }
  void refuse(std::size_t line, const std::string& column, const Error& e) {
    ++bad_;
    tell_failure(refused_, line, column.empty() ? "" : fmt::format("column '{}': ", column), e);
  }

 private:
  static bool of_one_sample(const notebook::ReadingRecord& a, const notebook::ReadingRecord& b) {
    return std::tie(a.batch, a.bottle, a.stage, a.made_at, a.instrument) ==
           std::tie(b.batch, b.bottle, b.stage, b.made_at, b.instrument);
  }
  // What was taken so far is noted, or left for somebody to look at.
  void flush() {
    leave_out_known();
    if (!options_->yes) hold_back();
    if (!options_->dry_run) (void)book_.add_samples(samples_);
    samples_.clear();
    lines_.clear();
  }
  void leave_out_known() {
    std::vector<std::vector<notebook::ReadingRecord>> kept;
    std::vector<std::size_t> lines;
    for (std::size_t i = 0; i < samples_.size(); ++i) {
      auto& sample = samples_[i];
      const auto there = static_cast<int>(
          std::erase_if(sample, [&](const auto& reading) { return known_.known(reading); }));
      there_ += there;
      good_ -= there;
      if (sample.empty()) continue;
      kept.push_back(std::move(sample));
      lines.push_back(lines_[i]);
    }
    samples_ = std::move(kept);
    lines_ = std::move(lines);
  }
  // What the notebook would ask about waits in the file until somebody has looked at it.
  void hold_back() {
    const auto doubts = incoming_.doubts(samples_);
    std::vector<std::vector<notebook::ReadingRecord>> kept;
    for (std::size_t i = 0; i < samples_.size(); ++i) {
      if (doubts[i].empty()) {
        kept.push_back(std::move(samples_[i]));
        continue;
      }
      tell_failure(held_back_, lines_[i], "held back: ",
                   Error{Errc::inconsistent, doubts_text(doubts[i]), "mend it, or say --yes"});
      const int rows = static_cast<int>(samples_[i].size());
      held_ += rows;
      good_ -= rows;
    }
    samples_ = std::move(kept);
  }
  [[nodiscard]] int not_noted() const { return bad_ + held_; }

  void tell() const {
    for (const text::SaidOnce* said : {&refused_, &held_back_})
      tell_refused(*said, options_->file, *session_);
    if (session_->json) {
      raw_line(fmt::format(R"({{"noted":{},"known":{},"refused":{},"held_back":{},"dry_run":{},)"
                           R"("left_out":{}}})",
                           noted_, there_, bad_, held_, options_->dry_run,
                           text::json_list(left_out_)));
      return;
    }
    line(summary());
    if (!left_out_.empty())
      line(fmt::format(
          "note: left out, because areo does not know what they mean: {}; --map says it",
          fmt::join(left_out_, ", ")));
    if (noted_ > 0) line("next: areo batch list shows what is there now");
  }
  // To a program at once, to a person when all lines are known.
  void tell_failure(text::SaidOnce& said, std::size_t line, const std::string& where,
                    const Error& e) const {
    if (session_->json)
      raw_line(wording::failure_json(Error{e.code, where + e.what(), e.hint}, line));
    said.add(line, where + e.what(), e.hint);
  }
  [[nodiscard]] std::string summary() const {
    std::string out = options_->dry_run ? fmt::format("{} would be noted", good_)
                                        : fmt::format("{} noted", noted_);
    out += fmt::format(", {} there already, {} refused", there_, bad_);
    if (held_ > 0) out += fmt::format(", {} held back", held_);
    if (options_->all_or_nothing && not_noted() > 0)
      out += "; all or nothing, so nothing was noted";
    else if (not_noted() > 0)
      out +=
          fmt::format("; mend these{} and import the file again: what is there is not noted twice",
                      held_ > 0 ? ", or insist with --yes," : "");
    return out;
  }
  const Options* options_;
  const Session* session_;
  notebook::Notebook book_;
  KnownReadings known_{book_};
  batch::Incoming incoming_{book_};
  std::vector<std::vector<notebook::ReadingRecord>> samples_;
  std::vector<std::size_t> lines_;  // where each sample begins
  std::vector<std::string> left_out_;
  std::string sample_;  // of the row before
  text::SaidOnce refused_, held_back_;
  int good_ = 0, there_ = 0, bad_ = 0, held_ = 0, noted_ = 0;
};

text::ColumnRules rules_of(const Options& o) {
  text::ColumnRules rules = column_rules(o.columns);
  rules.fields = import_fields();
  if (!o.map.empty()) rules.mapped = mapping_from_file(o.map);
  rules.leave_out = true;
  rules.map_hint = "say which with --map FILE";
  rules.both_mean_hint = "leave one out, or say what they are with --map FILE";
  return rules;
}

// What belongs to no field goes into the note, with the name of its column.
void keep_in_note(ImportRow& fields, const std::string& header, const std::string& cell) {
  if (cell.empty()) return;
  std::string& note = fields["note"];
  note += fmt::format("{}{}: {}", note.empty() ? "" : "; ", header, cell);
}

// A row that nobody wrote in, as blank sheets have them, is like an empty line.
bool is_blank(const std::vector<std::string>& cells) {
  return std::all_of(cells.begin(), cells.end(), [](const std::string& cell) {
    return cell.find_first_not_of(" \t\r") == std::string::npos;
  });
}

void require_mapped(const std::vector<std::string>& headers, const text::ColumnRules& rules,
                    const Options& o) {
  for (const auto& [name, m] : rules.mapped)
    if (std::find(headers.begin(), headers.end(), name) == headers.end())
      throw Error{Errc::file, fmt::format("{} maps a column '{}' that is not there", o.map, name),
                  fmt::format("the columns are: {}", fmt::join(headers, ", "))};
}

// One row, or one object, by the names of its columns; what cannot be read is refused with its own.
void take_row(Import& import, std::size_t number, const text::Columns& columns,
              const std::vector<std::string>& headers, const std::vector<std::string>& cells) {
  ImportRow fields;
  std::map<std::string, std::string> header;
  for (std::size_t i = 0; i < headers.size(); ++i) {
    const text::ColumnMeaning& m = columns.meanings()[i];
    if (m.field.empty()) continue;
    header[m.field] = headers[i];
    try {
      fields[m.field] = text::cell_with_unit(cells[i], m, headers[i]);
    } catch (const Error& e) {
      import.refuse(number, headers[i], e);
      return;
    }
  }
  for (std::size_t i = 0; i < headers.size(); ++i)
    if (columns.is_kept(i)) keep_in_note(fields, headers[i], cells[i]);
  import.take(number, fields, header);
}

int import_csv(std::istream& in, const Options& o, const Session& session) {
  text::CsvReader reader{in, o.file, text::Separator::of_header};
  auto rules = rules_of(o);
  rules.needed = {"date", "reading"};
  require_mapped(reader.columns(), rules, o);
  const text::Columns columns{reader.columns(), rules, o.file};
  Import import{o, session};
  import.leave_out(columns.left_out());
  return import.run([&] {
    for (text::CsvRow row;;) {
      try {
        if (!reader.next(row)) break;
      } catch (const text::CsvError& e) {
        if (in.bad()) throw;  // no further row will come
        import.refuse(row.line, "", Error{e.code, e.reason, e.hint});
        continue;
      }
      if (!is_blank(row.cells)) take_row(import, row.line, columns, reader.columns(), row.cells);
    }
  });
}

// A list is one text; else each line is an object.
void each_object(std::istream& in, bool is_list,
                 const std::function<void(const std::string& object)>& act) {
  if (is_list) {
    const std::string text{std::istreambuf_iterator<char>{in}, {}};
    for (const std::string& object : stream::objects_from_json(text)) act(object);
    return;
  }
  for (std::string text; std::getline(in, text);)
    for (const std::string& object : stream::objects_from_json(text)) act(object);
}

// Each object has columns of its own.
int import_json(std::istream& in, bool is_list, const Options& o, const Session& session) {
  const text::ColumnRules rules = rules_of(o);
  Import import{o, session};
  std::vector<std::string> left_out;
  std::size_t number = 0;
  const auto take = [&](const std::string& object) {
    ++number;
    std::vector<std::string> names;
    std::vector<std::string> values;
    std::optional<text::Columns> columns;
    try {
      for (auto& [name, value] : stream::members_from_json(object)) {
        names.push_back(name);
        values.push_back(value);
      }
      // A member that one object lacks another may have.
      columns.emplace(names, rules_about(rules, names), fmt::format("object {}", number));
    } catch (const Error& e) {
      import.refuse(number, "", e);
      return;
    }
    for (const std::string& c : columns->left_out())
      if (std::find(left_out.begin(), left_out.end(), c) == left_out.end()) left_out.push_back(c);
    take_row(import, number, *columns, names, values);
  };
  return import.run([&] {
    each_object(in, is_list, take);
    import.leave_out(left_out);
  });
}

// What a file is shows in its first characters.
int import_stream(std::istream& in, const Options& o, const Session& session) {
  constexpr std::string_view mark = "\xEF\xBB\xBF";  // of byte order, as some programs write it
  std::string start(mark.size(), '\0');
  in.read(start.data(), static_cast<std::streamsize>(start.size()));
  const std::streamoff begins = start == mark ? static_cast<std::streamoff>(mark.size()) : 0;
  in.clear();
  in.seekg(begins);
  char first = 0;
  if (!(in >> first))
    throw Error{Errc::file, fmt::format("{} is empty", o.file), "is it the right file?"};
  constexpr std::streamsize enough = 64;  // to see what an object begins with
  std::string begin(enough, '\0');
  in.read(begin.data(), enough);
  begin = first + begin;
  in.clear();
  in.seekg(begins);
  in >> std::ws;
  if (is_export(begin)) {
    refuse_options(o);
    return restore_json(in, o.file, session);
  }
  if (first == '{' || first == '[') return import_json(in, first == '[', o, session);
  in.seekg(0);
  return import_csv(in, o, session);
}

int run_import(const Options& o, const Session& session) {
  if (o.file == "-") {
    std::ifstream in = spooled(std::cin);
    return import_stream(in, o, session);
  }
  std::error_code error;
  if (fs::is_directory(o.file, error)) {
    refuse_options(o);
    return restore_csv(o.file, session);
  }
  std::ifstream in{o.file, std::ios::binary};
  if (in && !fs::is_regular_file(o.file, error)) in = spooled(in);
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
  add_column_options(c, o->columns, "it goes into the note");
  c.add_option("--batch", o->defaults.batch, "for rows that name none").type_name("NAME");
  c.add_option("--instrument", o->defaults.instrument, "for rows that name none").type_name("NAME");
  c.add_option("--thermometer", o->defaults.thermometer, "for rows that name none")
      .type_name("NAME");
  c.add_option("--by", o->defaults.person, "for rows that name none").type_name("NAME");
  c.add_flag("--dry-run", o->dry_run, "say what would be noted, note nothing");
  c.add_flag("--all-or-nothing", o->all_or_nothing, "one bad row, and nothing is noted");
  add_insist_option(c, o->yes);
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
