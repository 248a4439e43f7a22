// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as calls of the program, one a line, on a notebook that is in use: none of them is a
// defect, and the notebook stays whole.
//
// A line that begins with | goes to the standard input of the next call; > and a name make a file
// of such lines instead. Double quotes keep the blanks of a word. What would touch files elsewhere,
// or take long by right, is not called.
#include <algorithm>
#include <cstdint>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "desk.hpp"
#include "kept.hpp"
#include "refusal.hpp"

namespace areo::fuzz {
namespace {

using Words = std::vector<std::string>;

constexpr int most_calls = 12;

Words words_of(const std::string& line) {
  Words words;
  bool quoted = false;
  bool open = false;  // a word has begun
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
      if (!open) words.emplace_back();
      open = true;
    } else if (c == ' ' && !quoted) {
      open = false;
    } else {
      if (!open) words.emplace_back();
      open = true;
      words.back() += c;
    }
  }
  return words;
}

// SQLite takes "file:" for more than a name.
bool leads_elsewhere(const std::string& word) {
  for (const char* part : {"..", "=/", "file:"})
    if (word.find(part) != std::string::npos) return true;
  return word.starts_with('/');
}

// Whoever writes over the notebook has none.
bool is_another_file(const std::string& name) {
  return !leads_elsewhere(name) && name.find(".db") == std::string::npos;
}

// Sampling, tables of millions of rows and sheets of thousands of pages.
bool takes_long(const std::string& word) {
  for (const char* option : {"--monte-carlo", "--step", "--rows"})
    if (word.starts_with(option)) return true;
  return false;
}

bool is_called(const Words& words) {
  return !words.empty() && std::none_of(words.begin(), words.end(), [](const std::string& word) {
    return leads_elsewhere(word) || takes_long(word);
  });
}

bool has(const Words& words, const char* word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

void check_json(const Ran& ran, const Words& words, const std::string& call) {
  if (ran.status > 1 || !has(words, "--json")) return;
  for (const char* other : {"--help", "-h", "--version", "--", "report", "certificate"})
    if (has(words, other)) return;
  std::istringstream lines{ran.out};
  for (std::string line; std::getline(lines, line);)
    require(nlohmann::json::accept(line), "each line for programs is JSON", call + ": " + line);
}

}  // namespace
}  // namespace areo::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace areo::fuzz;
  static Desk desk;
  desk.clear(Notebook::filled);
  const std::string before = rows_of(desk.notebook());
  std::string input;
  int calls = 0;
  std::istringstream lines{std::string{reinterpret_cast<const char*>(data), size}};
  for (std::string line; calls < most_calls && std::getline(lines, line);) {
    if (line.starts_with('|')) {
      input += line.substr(1) + "\n";
      continue;
    }
    if (line.starts_with('>')) {
      if (is_another_file(line.substr(1)))
        std::ofstream{desk.path(line.substr(1)), std::ios::binary} << input;
      input.clear();
      continue;
    }
    const Words words = words_of(line.substr(0, line.find('\0')));
    if (!is_called(words)) continue;
    const Ran ran = desk.run(words, input);
    check_ran(ran, line);
    check_json(ran, words, line);
    input.clear();
    ++calls;
  }
  if (rows_of(desk.notebook()) != before) check_kept(desk);
  return 0;
}
