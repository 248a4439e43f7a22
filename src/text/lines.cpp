// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/text/lines.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

#include "areo/text/format.hpp"
#include "utf8.hpp"

namespace areo::text {
namespace {

constexpr std::size_t gap = 2;
// A cell of words gives way down to this width before a column is left out.
constexpr std::size_t least_of_words = 16;

bool is_date(std::string_view t) {
  return t.size() == 10 && t[4] == '-' && t[7] == '-' && t[0] >= '0' && t[0] <= '9';
}
bool is_time(std::string_view t) { return t.size() >= 5 && t[2] == ':' && t[0] <= '9'; }

// Whether a line may not end between two words.
bool belong_together(std::string_view word, std::string_view next) {
  constexpr std::string_view plus_minus = "±", degree = "°";
  return word.ends_with(plus_minus) || next.starts_with(plus_minus) || next.starts_with('%') ||
         next.starts_with(degree) || (word == "%" && (next.starts_with("vol") || next == "mass")) ||
         (is_date(word) && is_time(next));
}

// "areo trend PT-1 --limit 0.5;": where a command ends, quoted words apart.
class Command {
 public:
  // Whether the next word still belongs to it.
  bool goes_on(std::string_view word, std::string_view next) {
    if (!inside_) inside_ = word.ends_with("areo") && !next.empty() && is_letter(next[0]);
    if (!inside_) return false;
    quotes_ += static_cast<std::size_t>(std::count(word.begin(), word.end(), '\''));
    constexpr std::string_view ends = ",;:)";
    if (quotes_ % 2 == 0 && ends.find(word.back()) != ends.npos) inside_ = false;
    return inside_;
  }

 private:
  static bool is_letter(char c) { return c >= 'a' && c <= 'z'; }
  bool inside_ = false;
  std::size_t quotes_ = 0;
};

struct Word {
  std::size_t begin, end;  // bytes of the text
};

// Where a line may end.
enum class Breaks {
  between_words,  // what is read as one is one
  at_spaces,
  anywhere,  // within a word too, if it is wider than the line
};

std::vector<Word> words_of(std::string_view text, Breaks breaks = Breaks::between_words) {
  std::vector<Word> words;
  Command command;
  bool joined = false;
  for (std::size_t begin = text.find_first_not_of(' '); begin < text.size();) {
    const std::size_t end = std::min(text.find(' ', begin), text.size());
    if (joined)
      words.back().end = end;
    else
      words.push_back({begin, end});
    const std::size_t next = std::min(text.find_first_not_of(' ', end), text.size());
    const std::string_view word = text.substr(begin, end - begin);
    const std::string_view after =
        text.substr(next, std::min(text.find(' ', next), text.size()) - next);
    const bool goes_on = command.goes_on(word, after);
    joined = breaks == Breaks::between_words && next == end + 1 &&
             (goes_on || belong_together(word, after));
    begin = next;
  }
  return words;
}

// Bytes of the text that take at most so many columns, in whole characters.
std::size_t fitting(std::string_view text, std::size_t columns) {
  std::size_t bytes = 0;
  for (std::size_t taken = 0; bytes < text.size();) {
    const std::size_t length = std::max<std::size_t>(utf8_length(text.substr(bytes)), 1);
    taken += display_width(text.substr(bytes, length));
    if (taken > columns) break;
    bytes += length;
  }
  return bytes;
}

// @param first, further  columns that are taken on the first line and on those after it
std::vector<std::string> broken(std::string_view text, std::size_t first, std::size_t further,
                                std::size_t columns, Breaks breaks = Breaks::between_words) {
  std::vector<std::string> lines{""};
  std::size_t taken = first, end = 0;
  for (const Word& w : words_of(text, breaks)) {
    std::string_view word = text.substr(w.begin, w.end - w.begin);
    const std::size_t space = lines.back().empty() ? 0 : w.begin - end;
    const std::size_t wide = display_width(word);
    end = w.end;
    if (lines.back().empty() || taken + space + wide <= columns) {
      lines.back().append(space, ' ').append(word);
      taken += space + wide;
    } else {
      lines.emplace_back(word);
      taken = further + wide;
    }
    if (breaks != Breaks::anywhere || taken <= columns) continue;
    const std::string whole = std::move(lines.back());
    lines.pop_back();
    std::string_view rest = whole;
    while (taken > columns) {
      const std::size_t fits = fitting(rest, columns - further);
      if (fits == 0 || fits == rest.size()) break;
      lines.emplace_back(rest.substr(0, fits));
      taken -= display_width(lines.back());
      rest.remove_prefix(fits);
    }
    lines.emplace_back(rest);
  }
  return lines;
}

// Where the text behind a name and a gap begins, or two further in than the line.
std::size_t hanging(std::string_view line, std::size_t indent, std::size_t columns) {
  std::size_t at = indent + 2;
  for (std::size_t space = line.find("  ", indent); space != line.npos;) {
    const std::size_t text = line.find_first_not_of(' ', space);
    if (text == line.npos) break;
    const std::size_t column = display_width(line.substr(0, text));
    if (column > columns / 2) break;
    at = column;
    space = line.find("  ", text);
  }
  return at;
}

using Rows = std::vector<std::vector<std::string>>;

// What ends a row before its last column, with nothing behind it, may run on to the right.
bool runs_on(const std::vector<std::string>& row, std::size_t column, std::size_t count) {
  return column + 1 < count &&
         std::all_of(row.begin() + static_cast<std::ptrdiff_t>(column) + 1, row.end(),
                     [](const std::string& cell) { return cell.empty(); });
}

struct Widths {
  std::vector<std::size_t> now, least;

  [[nodiscard]] std::size_t total() const {
    return std::accumulate(now.begin(), now.end(), gap * (now.size() - 1));
  }
  // First what breaks the fewest cells, of two the widest.
  void narrow(const Rows& rows, std::size_t columns, const std::vector<std::size_t>& to) {
    // None is wider than the line, so that a long cell takes no long time.
    for (std::size_t k = 0; k < now.size(); ++k)
      now[k] = std::min(now[k], std::max(columns, to[k]));
    std::vector<std::vector<std::size_t>> wide(now.size());
    for (const auto& row : rows)
      for (std::size_t k = 0; k < std::min(now.size(), row.size()); ++k)
        wide[k].push_back(std::min(display_width(row[k]), now[k]));
    const auto broken_by = [&](std::size_t k) {
      return std::count(wide[k].begin(), wide[k].end(), now[k]);
    };
    for (std::size_t all = total(); all > columns; --all) {
      std::size_t least_harm = now.size();
      for (std::size_t k = 0; k < now.size(); ++k)
        if (now[k] > to[k] &&
            (least_harm == now.size() ||
             std::pair{broken_by(k), now[least_harm]} < std::pair{broken_by(least_harm), now[k]}))
          least_harm = k;
      if (least_harm == now.size()) return;
      --now[least_harm];
    }
  }
};

std::size_t widest_word(std::string_view text, Breaks breaks) {
  std::size_t widest = 0;
  for (const Word& w : words_of(text, breaks))
    widest = std::max(widest, display_width(text.substr(w.begin, w.end - w.begin)));
  return breaks == Breaks::anywhere ? std::min(widest, least_of_words) : widest;
}

Widths natural(const Rows& rows, std::size_t count, Breaks breaks) {
  Widths w{std::vector<std::size_t>(count), std::vector<std::size_t>(count)};
  for (const auto& row : rows)
    for (std::size_t k = 0; k < std::min(count, row.size()); ++k) {
      if (&row != &rows.front() && runs_on(row, k, row.size())) continue;
      w.least[k] = std::max(w.least[k], widest_word(row[k], breaks));
      w.now[k] = std::max(w.now[k], display_width(row[k]));
    }
  for (std::size_t k = 0; k < count; ++k) w.now[k] = std::max(w.now[k], w.least[k]);
  return w;
}

// How narrow columns may become as long as there is another way: heads take several lines at once.
std::vector<std::size_t> readable(const Rows& rows, const Widths& w) {
  std::vector<std::size_t> all = w.least;
  for (const auto& row : rows)
    for (std::size_t k = 0; k < std::min(all.size(), row.size()); ++k)
      if (&row != &rows.front() && !runs_on(row, k, row.size()))
        all[k] = std::max(all[k], std::min(display_width(row[k]), least_of_words));
  return all;
}

void append_row(std::vector<std::string>& lines, const std::vector<std::string>& row,
                const Widths& w, std::size_t columns, Breaks breaks) {
  const std::size_t count = std::min(row.size(), w.now.size());
  Rows cells(count);
  std::size_t height = 1, begin = 0;
  for (std::size_t k = 0; k < count; ++k) {
    const std::size_t room = runs_on(row, k, row.size())
                                 ? std::max(w.now[k], columns - std::min(begin, columns))
                                 : w.now[k];
    cells[k] = broken(row[k], 0, 0, room, breaks);
    height = std::max(height, cells[k].size());
    begin += w.now[k] + gap;
  }
  for (std::size_t i = 0; i < height; ++i) {
    std::string line;
    std::size_t column = 0, at = 0;  // where the next cell begins, and where the line ends
    for (std::size_t k = 0; k < count; ++k) {
      if (i < cells[k].size() && !cells[k][i].empty()) {
        line.append(column - std::min(column, at), ' ').append(cells[k][i]);
        at = column + display_width(cells[k][i]);
      }
      column += w.now[k] + gap;
    }
    lines.push_back(std::move(line));
  }
}

}  // namespace

std::vector<std::string> wrapped(std::string_view utf8, std::size_t columns) {
  return broken(utf8, 0, 0, columns);
}

std::size_t longest_word(std::string_view utf8) { return widest_word(utf8, Breaks::at_spaces); }

std::size_t longest_unbroken(std::string_view utf8) {
  return widest_word(utf8, Breaks::between_words);
}

std::vector<std::string> fitted(std::string_view line, std::size_t columns) {
  const std::size_t indent = line.find_first_not_of(' ');
  if (indent == line.npos || display_width(line) <= columns) return {std::string{line}};
  const std::size_t further = hanging(line, indent, columns);
  std::vector<std::string> lines = broken(line, indent, further, columns);
  for (std::size_t i = 0; i < lines.size(); ++i)
    lines[i].insert(0, std::string(i == 0 ? indent : further, ' '));
  return lines;
}

TableText table_text(const Rows& rows, std::size_t columns, std::size_t spare) {
  TableText table;
  if (rows.empty()) return table;
  std::size_t count = rows.front().size();
  Widths w = natural(rows, count, Breaks::between_words);
  const auto comfortable = readable(rows, w);
  table.needed = Widths{comfortable, {}}.total();
  for (;;) {
    w.narrow(rows, columns, readable(rows, w));
    if (w.total() <= columns || table.left_out == spare || count < 2) break;
    ++table.left_out;
    w = natural(rows, --count, Breaks::between_words);
  }
  Breaks breaks = Breaks::between_words;
  w.narrow(rows, columns, w.least);
  for (const Breaks more : {Breaks::at_spaces, Breaks::anywhere}) {
    if (w.total() <= columns) break;
    breaks = more;
    w = natural(rows, count, breaks);
    w.narrow(rows, columns, w.least);
  }
  for (const auto& row : rows) append_row(table.lines, row, w, columns, breaks);
  return table;
}

std::string printed(std::string_view line, std::size_t columns) {
  std::string out;
  for (const std::string& part : fitted(printable(line), columns)) out += part + "\n";
  return out;
}

}  // namespace areo::text
