// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/stream/import_table.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <functional>
#include <iterator>
#include <map>
#include <optional>
#include <tuple>

#include "areo/core/error.hpp"
#include "areo/stream/rows.hpp"
#include "areo/text/csv.hpp"
#include "areo/text/parse_sample.hpp"
#include "areo/wording/batch.hpp"
#include "table_dates.hpp"

namespace areo::stream {
namespace {

// Rows become readings, so many at a time, in one transaction; what cannot be noted is told with
// its line and column.
class Import {
 public:
  Import(notebook::Notebook& book, const ImportPlan& plan) : plan_{&plan}, book_{&book} {}

  // Columns that mean nothing to areo: said once, so that a misspelt one is seen.
  void leave_out(const std::vector<std::string>& columns) { outcome_.left_out = columns; }

  // What somebody should know of the file as a whole.
  void say(std::vector<std::string> notes) { outcome_.notes = std::move(notes); }

  // Notes what rows() takes, where nobody else can note the same meanwhile.
  ImportOutcome run(const std::function<void()>& rows) {
    outcome_.dry_run = plan_->dry_run;
    outcome_.all_or_nothing = plan_->all_or_nothing;
    const auto all = [&] {
      rows();
      flush();
    };
    if (plan_->dry_run)
      book_->at_one_moment(all);
    else
      book_->at_once([&] {
        all();
        outcome_.noted = plan_->all_or_nothing && outcome_.not_noted() > 0 ? 0 : outcome_.good;
        return outcome_.noted > 0;
      });
    return outcome_;
  }

  // A row of fields; `header` says what they are called in the file.
  void take(std::size_t line, const ImportRow& row,
            const std::map<std::string, std::string>& header) {
    constexpr std::size_t most_samples = 10'000;
    std::string field;
    ImportedReading r;
    try {
      r = imported_reading(row, plan_->defaults, *book_, field);
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
    ++outcome_.good;
  }
  void refuse(std::size_t line, const std::string& column, const Error& e) {
    ++outcome_.bad;
    tell_failure(outcome_.refused, line, column.empty() ? "" : fmt::format("column '{}': ", column),
                 e);
  }

 private:
  static bool of_one_sample(const notebook::ReadingRecord& a, const notebook::ReadingRecord& b) {
    return std::tie(a.batch, a.bottle, a.stage, a.made_at, a.instrument) ==
           std::tie(b.batch, b.bottle, b.stage, b.made_at, b.instrument);
  }
  // What was taken so far is noted, or left for somebody to look at.
  void flush() {
    leave_out_known();
    if (!plan_->yes) hold_back();
    if (!plan_->dry_run) (void)book_->add_samples(samples_);
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
      outcome_.there += there;
      outcome_.good -= there;
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
      tell_failure(
          outcome_.held_back, lines_[i], "held back: ",
          Error{Errc::inconsistent, wording::doubts_text(doubts[i]), "mend it, or say --yes"});
      const int rows = static_cast<int>(samples_[i].size());
      outcome_.held += rows;
      outcome_.good -= rows;
    }
    samples_ = std::move(kept);
  }
  // To whoever listens at once; the same reasons together when all lines are known.
  void tell_failure(text::SaidOnce& said, std::size_t line, const std::string& where,
                    const Error& e) const {
    if (plan_->on_failure) plan_->on_failure(Error{e.code, where + e.what(), e.hint}, line);
    said.add(line, where + e.what(), e.hint);
  }
  const ImportPlan* plan_;
  notebook::Notebook* book_;
  KnownReadings known_{*book_};
  batch::Incoming incoming_{*book_};
  std::vector<std::vector<notebook::ReadingRecord>> samples_;
  std::vector<std::size_t> lines_;  // where each sample begins
  std::string sample_;              // of the row before
  ImportOutcome outcome_;
};

text::ColumnRules rules_of(const ImportPlan& o) {
  text::ColumnRules rules = o.rules;
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

void require_mapped(const std::vector<std::string>& headers, const text::ColumnRules& rules,
                    const ImportPlan& o) {
  for (const auto& [name, m] : rules.mapped)
    if (std::find(headers.begin(), headers.end(), name) == headers.end())
      throw Error{Errc::file, fmt::format("{} maps a column '{}' that is not there", o.map, name),
                  fmt::format("the columns are: {}", fmt::join(headers, ", "))};
}

// The temperature may stand in a column of its own, or behind the reading.
void require_once(const ImportRow& fields, const std::string& field, const std::string& text) {
  const auto there = fields.find(field);
  if (there == fields.end() || there->second.empty()) return;
  throw ParseError{
      fmt::format("the {} is {} or {}: it stands in two columns", field, there->second, text), text,
      0, text.size(), "leave one out"};
}

// One row, or one object, by the names of its columns; what cannot be read is refused with its own.
void take_row(Import& import, std::size_t number, const text::Columns& columns,
              const std::vector<std::string>& headers, const std::vector<std::string>& cells,
              const TableDates& dates) {
  ImportRow fields;
  std::map<std::string, std::string> header;
  for (std::size_t i = 0; i < headers.size(); ++i) {
    const text::ColumnMeaning& m = columns.meanings()[i];
    if (m.field.empty()) continue;
    header[m.field] = headers[i];
    try {
      if (m.field == "date") {
        fields[m.field] = dates.iso(cells[i]);
        continue;
      }
      if (m.field != "reading") {
        const std::string cell = text::cell_with_unit(cells[i], m, headers[i]);
        if (!cell.empty()) require_once(fields, m.field, cell);
        fields[m.field] = cell.empty() ? fields[m.field] : cell;
        continue;
      }
      const text::ShownAt typed = text::reading_from_text(cells[i]);
      fields[m.field] = text::cell_with_unit(typed.shown, m, headers[i]);
      if (typed.temperature.empty()) continue;
      require_once(fields, "temperature", typed.temperature);
      fields["temperature"] = typed.temperature;
    } catch (const Error& e) {
      import.refuse(number, headers[i], e);
      return;
    }
  }
  for (std::size_t i = 0; i < headers.size(); ++i)
    if (columns.is_kept(i)) keep_in_note(fields, headers[i], cells[i]);
  import.take(number, fields, header);
}

// A list is one text; else each line is an object.
void each_row(std::istream& in, bool is_list,
              const std::function<void(const std::function<Members()>&)>& act) {
  if (is_list) {
    const std::string text{std::istreambuf_iterator<char>{in}, {}};
    each_object(text, act);
    return;
  }
  for (std::string text; std::getline(in, text);) each_object(text, act);
}

void go_back(std::istream& in, std::istream::pos_type begin) {
  in.clear();
  in.seekg(begin);
}

// The order that was said of the column of the dates.
DateOrder order_said(const text::Columns& columns) {
  const auto date = columns.find("date");
  if (!date) return DateOrder::unknown;
  return text::date_order_from_word(columns.meanings()[*date].unit).value_or(DateOrder::unknown);
}

// Every row is looked at before the first one is taken.
TableDates dates_of_csv(std::istream& in, std::istream::pos_type begin,
                        const text::Columns& columns, const ImportPlan& o) {
  TableDates dates{order_said(columns), o.date_order};
  go_back(in, begin);
  text::CsvReader reader{in, o.file, text::Separator::of_header};
  const auto date = columns.find("date");
  for (text::CsvRow row; date;) {
    try {
      if (!reader.next(row)) break;
      dates.look_at(row.cells[*date], row.line);
    } catch (const text::CsvError&) {
      if (in.bad()) throw;  // no further row will come; others are refused in their turn
    }
  }
  return dates;
}

TableDates dates_of_json(std::istream& in, bool is_list, const text::ColumnRules& rules,
                         const ImportPlan& o) {
  std::vector<std::pair<std::string, std::size_t>> cells;
  DateOrder said = DateOrder::unknown;
  std::size_t number = 0;
  each_row(in, is_list, [&](const std::function<Members()>& members) {
    ++number;
    try {
      std::vector<std::string> names;
      std::vector<std::string> values;
      for (auto& [name, value] : members()) {
        names.push_back(name);
        values.push_back(value);
      }
      const text::Columns columns{names, rules_about(rules, names), o.file};
      if (said == DateOrder::unknown) said = order_said(columns);
      if (const auto date = columns.find("date")) cells.emplace_back(values[*date], number);
    } catch (const Error&) {  // refused in its turn
    }
  });
  TableDates dates{said, o.date_order};
  for (const auto& [cell, object] : cells) dates.look_at(cell, object);
  return dates;
}

}  // namespace

ImportOutcome import_csv(std::istream& in, notebook::Notebook& book, const ImportPlan& o) {
  const std::istream::pos_type begin = in.tellg();
  const text::CsvReader head{in, o.file, text::Separator::of_header};
  auto rules = rules_of(o);
  rules.needed = {"date", "reading"};
  require_mapped(head.columns(), rules, o);
  const text::Columns columns{head.columns(), rules, o.file};
  const TableDates dates = dates_of_csv(in, begin, columns, o);
  go_back(in, begin);
  text::CsvReader reader{in, o.file, text::Separator::of_header};
  Import import{book, o};
  auto notes = dates.words();
  if (columns.has_usual_unit()) notes.push_back(text::usual_unit_words(rules));
  import.say(std::move(notes));
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
      take_row(import, row.line, columns, reader.columns(), row.cells, dates);
    }
  });
}

// Each object has columns of its own.
ImportOutcome import_json(std::istream& in, bool is_list, notebook::Notebook& book,
                          const ImportPlan& o) {
  const std::istream::pos_type begin = in.tellg();
  const text::ColumnRules rules = rules_of(o);
  const TableDates dates = dates_of_json(in, is_list, rules, o);
  go_back(in, begin);
  Import import{book, o};
  bool has_usual_unit = false;
  std::vector<std::string> left_out;
  std::size_t number = 0;
  const auto take = [&](const std::function<Members()>& members) {
    ++number;
    std::vector<std::string> names;
    std::vector<std::string> values;
    std::optional<text::Columns> columns;
    try {
      for (auto& [name, value] : members()) {
        names.push_back(name);
        values.push_back(value);
      }
      // A member that one object lacks another may have.
      columns.emplace(names, rules_about(rules, names), fmt::format("object {}", number));
    } catch (const Error& e) {
      import.refuse(number, "", e);
      return;
    }
    has_usual_unit = has_usual_unit || columns->has_usual_unit();
    for (const std::string& c : columns->left_out())
      if (std::find(left_out.begin(), left_out.end(), c) == left_out.end()) left_out.push_back(c);
    take_row(import, number, *columns, names, values, dates);
  };
  return import.run([&] {
    each_row(in, is_list, take);
    auto notes = dates.words();
    if (has_usual_unit) notes.push_back(text::usual_unit_words(rules));
    import.say(std::move(notes));
    import.leave_out(left_out);
  });
}

}  // namespace areo::stream
