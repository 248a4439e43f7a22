// SPDX-License-Identifier: GPL-3.0-or-later
// Compares the tables of figures in the documents with what areo and tables/ say today, or writes
// them anew.
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <set>
#include <string>

#include "agreement.hpp"

namespace {

namespace fs = std::filesystem;

std::string slurp(const fs::path& file) {
  std::ifstream in{file};
  return {std::istreambuf_iterator<char>{in}, {}};
}

int run(const fs::path& folder, bool update) {
  int wrong = 0;
  std::set<fs::path> known;
  for (const auto& [name, text] : areo::published::fragments()) {
    const fs::path file = folder / (name + ".md");
    known.insert(file);
    if (update) {
      std::ofstream out{file};
      out << text << std::flush;
      if (!out) throw std::runtime_error{"cannot write " + file.string()};
    } else if (slurp(file) != text) {
      std::cout << file.string() << " differs; today it is\n" << text;
      wrong = 1;
    }
  }
  for (const auto& entry : fs::directory_iterator{folder})
    if (!known.contains(entry.path())) {
      std::cout << entry.path().string() << ": nothing computes this\n";
      wrong = 1;
    }
  if (wrong != 0)
    std::cout << "if that is meant: areo_agreement --update " << folder.string()
              << ", then tests/lint/check_docs.py --fix\n";
  return wrong;
}

}  // namespace

int main(int argc, char** argv) try {
  const std::string first = argc > 1 ? argv[1] : "";
  const bool update = first == "--update";
  if (argc != (update ? 3 : 2) || (first.starts_with('-') && !update)) {
    std::cerr << "usage: areo_agreement [--update] docs/explanation/agreement\n";
    return 2;
  }
  return run(argv[argc - 1], update);
} catch (const std::exception& e) {
  std::cerr << e.what() << '\n';
  return 1;
}
