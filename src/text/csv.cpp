// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "areo/core/error.hpp"
#include "characters.hpp"

namespace areo::text {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

constexpr char lower(char c) noexcept {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool same_without_case(std::string_view a, std::string_view b) noexcept {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return lower(x) == lower(y); });
}

enum class Parse { done, open_quote, bad_quote, lone_cr };

// Splits one line and appends to `cells`; `open` says that the line starts inside a quoted cell.
Parse split(std::string_view line, char separator, bool open, std::vector<std::string>& cells) {
  std::size_t i = 0;
  for (;;) {
    if (!open) {
      cells.emplace_back();
      if (i == line.size() || line[i] != '"') {
        const auto end = std::min(line.find(separator, i), line.size());
        cells.back() = line.substr(i, end - i);
        if (cells.back().find('"') != std::string::npos) return Parse::bad_quote;
        if (cells.back().find('\r') != std::string::npos) return Parse::lone_cr;
        if (end == line.size()) return Parse::done;
        i = end + 1;
        continue;
      }
      ++i;
    }
    open = false;
    for (;;) {  // inside quotes; a doubled quote stands for one
      const auto quote = line.find('"', i);
      if (quote == std::string_view::npos) {
        cells.back() += line.substr(i);
        return Parse::open_quote;
      }
      cells.back() += line.substr(i, quote - i);
      i = quote + 1;
      if (i == line.size() || line[i] != '"') break;
      cells.back() += '"';
      ++i;
    }
    if (i == line.size()) return Parse::done;
    if (line[i] != separator) return Parse::bad_quote;
    ++i;
  }
}

std::string_view without_cr(std::string_view line) noexcept {
  if (line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

bool has_zero_byte(std::string_view line) noexcept {
  return line.find('\0') != std::string_view::npos;
}

bool is_plain(std::string_view line) noexcept {
  return line.size() <= max_csv_record_bytes && !has_zero_byte(line);
}

// The cells of a line whose quotes are wrong: behind an open quote all is one cell; with quotes in
// odd places every separator separates.
std::vector<std::string> rough_cells(std::string_view line, char separator) {
  std::vector<std::string> cells;
  if (split(line, separator, false, cells) == Parse::open_quote) return cells;
  cells.clear();
  for (std::size_t begin = 0; begin <= line.size();) {
    const std::size_t end = std::min(line.find(separator, begin), line.size());
    cells.emplace_back(line.substr(begin, end - begin));
    begin = end + 1;
  }
  return cells;
}

// "sep=;": tells a spreadsheet what it is to separate by.
bool names_separator(std::string_view line) {
  constexpr std::string_view begin = "sep=";
  return line.size() == begin.size() + 1 && same_without_case(line.substr(0, 4), begin);
}

char separator_of(std::string_view header) {
  bool quoted = false;
  bool comma = false;
  for (const char c : header) {
    if (c == '"') quoted = !quoted;
    if (!quoted && (c == ';' || c == '\t')) return c;
    comma = comma || (!quoted && c == ',');
  }
  // In a single column nothing separates: a comma is that of a number.
  return comma ? ',' : '\t';
}

}  // namespace

CsvError::CsvError(const std::string& file, std::size_t line, const std::string& why, std::string h)
    : Error{Errc::file, fmt::format("{}:{}: {}", file, line, why), std::move(h)}, reason{why} {}

void CsvReader::fail(std::size_t line, const std::string& what, std::string hint) const {
  throw CsvError{name_, line, what, std::move(hint)};
}

void CsvReader::require_plain(const std::string& line) const {
  if (line.size() > max_csv_record_bytes)
    fail(line_, fmt::format("line longer than {} bytes", max_csv_record_bytes));
  if (has_zero_byte(line))
    fail(line_, "a zero byte, so this is not plain text", "save the file as CSV in UTF-8");
}

CsvReader::CsvReader(std::istream& in, std::string name, Separator separator)
    : in_{in}, name_{std::move(name)}, from_spreadsheet_{separator == Separator::of_header} {
  std::string line;
  for (;;) {
    if (!read_line(line)) fail(line_ + 1, "no header line");
    require_plain(line);
    if (line_ == 1 && line.starts_with(byte_order_mark)) line.erase(0, byte_order_mark.size());
    const auto text = without_cr(line);
    if (text.empty() || (from_spreadsheet_ && names_separator(text))) continue;
    if (text.front() != '#') break;
    comments_.emplace_back(text.substr(text.starts_with("# ") ? 2 : 1));
  }
  if (from_spreadsheet_) separator_ = separator_of(line);
  again_.push_front(std::move(line));
  --line_;
  read_record(columns_);
  while (from_spreadsheet_ && columns_.size() > 1 && trimmed(columns_.back()).empty()) {
    columns_.pop_back();
    ++empty_columns_;
  }
  constexpr std::size_t most = 2000;
  if (columns_.size() > most)
    fail(record_line_, fmt::format("{} columns, more than {}", columns_.size(), most));
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    if (trimmed(columns_[i]).empty())
      fail(record_line_, fmt::format("column {} of {} has no name", i + 1, columns_.size()));
    if (column(columns_[i]) != i)
      fail(record_line_, fmt::format("column name '{}' occurs twice", columns_[i]));
  }
}

std::string CsvReader::comment(std::string_view key) const {
  for (const std::string& c : comments_) {
    const auto colon = c.find(':');
    if (colon == std::string::npos) continue;
    const std::string_view text{c};
    if (same_without_case(trimmed(text.substr(0, colon)), key))
      return std::string{trimmed(text.substr(colon + 1))};
  }
  return {};
}

std::size_t CsvReader::column(std::string_view name) const {
  const auto found = std::find(columns_.begin(), columns_.end(), name);
  if (found == columns_.end())
    throw Error{Errc::file, fmt::format("{} has no column '{}'", name_, name),
                fmt::format("its columns are: {}", fmt::join(columns_, ", "))};
  return static_cast<std::size_t>(found - columns_.begin());
}

bool CsvReader::has_column(std::string_view name) const noexcept {
  return std::find(columns_.begin(), columns_.end(), name) != columns_.end();
}

bool CsvReader::is_blank(const std::vector<std::string>& cells) const {
  return from_spreadsheet_ && std::all_of(cells.begin(), cells.end(), [](const std::string& cell) {
           return cell.find_first_not_of(" \t\r") == std::string::npos;
         });
}

// Of the columns that have no name.
void CsvReader::drop_empty_end(std::vector<std::string>& cells) const {
  if (cells.size() != columns_.size() + empty_columns_) return;
  while (cells.size() > columns_.size() && trimmed(cells.back()).empty()) cells.pop_back();
}

bool CsvReader::next(CsvRow& row) {
  row.cells.clear();
  row.text.clear();
  try {
    do {
      row.cells.clear();
      if (!read_record(row.cells)) return false;
    } while (is_blank(row.cells));
    drop_empty_end(row.cells);
  } catch (const CsvError&) {
    row.line = record_line_;
    row.cells = record_.empty() ? std::vector<std::string>{} : rough_cells(record_, separator_);
    row.text = record_;
    throw;
  }
  row.line = record_line_;
  if (row.cells.size() != columns_.size()) {
    row.text = record_;
    fail(
        record_line_,
        fmt::format("{} {}, but the header has {}", row.cells.size(),
                    row.cells.size() == 1 ? "cell" : "cells", columns_.size()),
        fmt::format("put a cell that holds a {} in double quotes", separator_ == ','   ? "comma"
                                                                   : separator_ == ';' ? "semicolon"
                                                                                       : "tab"));
  }
  return true;
}

// Reads up to LF; the line keeps its CR, because inside quotes it is data.
bool CsvReader::read_line(std::string& line) {
  if (!again_.empty()) {
    line = std::move(again_.front());
    again_.pop_front();
    ++line_;
    return true;
  }
  line.clear();
  if (in_.eof()) return false;
  if (in_.fail()) fail(line_ + 1, "cannot be read");  // e.g. a file that was never opened
  // Character by character: std::getline has no limit, and a file need not have line ends.
  bool any = false;
  for (auto c = in_.get(); c != std::istream::traits_type::eof(); c = in_.get()) {
    any = true;
    if (c == '\n') break;
    if (line.size() <= max_csv_record_bytes) line += static_cast<char>(c);  // one more: too long
  }
  if (in_.bad()) fail(line_ + 1, "cannot be read");
  if (!any) return false;
  ++line_;
  return true;
}

bool CsvReader::read_record(std::vector<std::string>& cells) {
  std::string line;
  do {
    if (!read_line(line)) return false;
  } while (without_cr(line).empty());
  record_line_ = line_;
  record_ = line.size() > max_csv_record_bytes ? "" : without_cr(line);
  require_plain(line);

  // Lines taken after the first one go back if the quotes turn out to be wrong, so that one
  // forgotten quote costs one line and not the rest of the file.
  std::deque<std::string> taken;
  std::size_t bytes = line.size();
  Parse state = split(without_cr(line), separator_, false, cells);
  while (state == Parse::open_quote && bytes <= max_csv_record_bytes) {
    const bool had_cr = line.ends_with('\r');
    if (!read_line(line)) break;
    taken.push_back(line);
    if (!is_plain(line)) break;  // refused when its turn comes
    cells.back() += had_cr ? "\r\n" : "\n";
    bytes += line.size() + 1;
    state = split(without_cr(line), separator_, true, cells);
  }
  if (state != Parse::done) {
    line_ -= taken.size();
    again_.insert(again_.begin(), std::make_move_iterator(taken.begin()),
                  std::make_move_iterator(taken.end()));
    if (state == Parse::open_quote) fail(record_line_, "a double quote is not closed");
    if (state == Parse::lone_cr)
      fail(record_line_, "a carriage return in the middle of a line",
           "save the file with LF or CR LF line ends");
    fail(record_line_, "a double quote in the middle of a cell",
         "put the whole cell in double quotes and double every quote inside");
  }
  for (const std::string& l : taken) record_.append("\n").append(without_cr(l));
  return true;
}

std::string csv_cell(std::string_view text) {
  // At the front of a file they would be taken for a comment, and for no text at all.
  const bool bare = !text.starts_with('#') && !text.starts_with(byte_order_mark);
  if (bare && text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string{text};
  std::string out{'"'};
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

std::string csv_text_cell(std::string_view text) {
  constexpr std::string_view replacement = "\xEF\xBF\xBD";  // U+FFFD
  std::string safe;
  if (!text.empty() && std::string_view{"=+-@\t"}.find(text.front()) != std::string_view::npos)
    safe += '\'';
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    const auto after = i + 1 < text.size() ? static_cast<unsigned char>(text[i + 1]) : 0u;
    if (byte == 0xC2 && after >= 0x80 && after < 0xA0) {  // U+0080 .. U+009F, control as well
      safe += replacement;
      ++i;
    } else if ((byte < 0x20 && byte != '\t' && byte != '\n' && !(byte == '\r' && after == '\n')) ||
               byte == 0x7F) {
      safe += replacement;
    } else {
      safe += text[i];
    }
  }
  return csv_cell(safe);
}

}  // namespace areo::text
