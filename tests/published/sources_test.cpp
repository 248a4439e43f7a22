// SPDX-License-Identifier: GPL-3.0-or-later
// Every table says what it is, where it comes from and how far it is verified, with keys that
// sources.bib explains.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "areo/text/csv.hpp"
#include "rows.hpp"

namespace areo::published {
namespace {

namespace fs = std::filesystem;

std::string slurp(const fs::path& file) {
  std::ifstream in{file};
  return {std::istreambuf_iterator<char>{in}, {}};
}

// [a-z][a-z0-9-]{2,}; no std::regex, which GCC 12 warns about when sanitizers are on.
bool is_key(std::string_view text) {
  const auto letter = [](char c) { return c >= 'a' && c <= 'z'; };
  return text.size() >= 3 && letter(text.front()) &&
         std::all_of(text.begin(), text.end(),
                     [&](char c) { return letter(c) || (c >= '0' && c <= '9') || c == '-'; });
}

// Every key in square brackets.
std::vector<std::string> citations(std::string_view text) {
  std::vector<std::string> found;
  for (auto open = text.find('['); open != std::string_view::npos;
       open = text.find('[', open + 1)) {
    const auto close = text.find(']', open);
    if (close == std::string_view::npos) break;
    if (const auto key = text.substr(open + 1, close - open - 1); is_key(key))
      found.emplace_back(key);
  }
  return found;
}

// What stands between "@kind{" and the comma of each entry.
std::vector<std::string> bib_keys() {
  std::istringstream in{slurp(tables_dir() / "sources.bib")};
  std::vector<std::string> keys;
  for (std::string line; std::getline(in, line);) {
    const auto brace = line.find('{');
    if (line.starts_with('@') && brace != std::string::npos)
      keys.push_back(line.substr(brace + 1, line.find(',') - brace - 1));
  }
  return keys;
}

std::vector<fs::path> table_files() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator{tables_dir()})
    if (entry.path().extension() == ".csv") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

TEST(Sources, KeysAreWellFormedAndUnique) {
  const auto keys = bib_keys();
  ASSERT_FALSE(keys.empty());
  std::set<std::string> seen;
  for (const auto& key : keys) {
    EXPECT_TRUE(is_key(key)) << key;
    EXPECT_TRUE(seen.insert(key).second) << key << " occurs twice";
  }
}

class TableFile : public testing::TestWithParam<fs::path> {};

TEST_P(TableFile, SaysWhatItIs) {
  const fs::path file = GetParam();
  std::ifstream in{file};
  text::CsvReader reader{in, file.filename().string()};
  for (const char* key : {"title", "source", "units", "verified"})
    EXPECT_NE(reader.comment(key), "") << "no line '# " << key << ":'";

  const auto known = bib_keys();
  EXPECT_FALSE(citations(reader.comment("source")).empty()) << "no key in the source line";
  for (const auto& comment : reader.comments())
    for (const auto& key : citations(comment))
      EXPECT_NE(std::find(known.begin(), known.end(), key), known.end())
          << "[" << key << "] is not in sources.bib";

  constexpr std::array<std::string_view, 4> labels{"two independent sources", "single source",
                                                   "from memory", "computed"};
  const std::string verified = reader.comment("verified");
  EXPECT_TRUE(std::any_of(labels.begin(), labels.end(), [&](std::string_view l) {
    return verified.starts_with(l);
  })) << verified;

  std::size_t rows = 0;
  for (text::CsvRow row; reader.next(row);) ++rows;
  EXPECT_GT(rows, 0u);
}

std::string file_name(const testing::TestParamInfo<fs::path>& info) {
  std::string name = info.param.stem().string();
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}
INSTANTIATE_TEST_SUITE_P(Tables, TableFile, testing::ValuesIn(table_files()), file_name);

}  // namespace
}  // namespace areo::published
