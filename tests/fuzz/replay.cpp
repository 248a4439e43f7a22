// SPDX-License-Identifier: GPL-3.0-or-later
// Runs the files of a corpus through a harness as the fuzzer would, in any build.
// usage: NAME_replay FILE_OR_FOLDER...
//        NAME_replay --selftest FILE_OR_FOLDER...   takes each invariant for its opposite, one by
//                                                   one: every time the replay must fail
#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>
#include <vector>

#include "invariant.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

namespace fs = std::filesystem;

struct Input {
  std::string name, bytes;
};

void add(std::vector<Input>& inputs, const fs::path& file) {
  std::ifstream in{file, std::ios::binary};
  if (!in) throw std::runtime_error{file.string() + " cannot be read"};
  inputs.push_back({file.string(), {std::istreambuf_iterator<char>{in}, {}}});
}

std::vector<Input> inputs_from(const std::vector<std::string>& paths) {
  std::vector<Input> inputs;
  for (const std::string& path : paths) {
    if (!fs::is_directory(path)) {
      add(inputs, path);
      continue;
    }
    for (const auto& entry : fs::directory_iterator{path})
      if (entry.is_regular_file()) add(inputs, entry.path());
  }
  std::sort(inputs.begin(), inputs.end(),
            [](const Input& a, const Input& b) { return a.name < b.name; });
  return inputs;
}

// What went wrong; empty if nothing did.
std::string finding(const Input& input) {
  try {
    LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(input.bytes.data()),
                           input.bytes.size());
    return "";
  } catch (const std::exception& e) {
    return e.what();
  }
}

int replay(const std::vector<Input>& inputs) {
  int found = 0;
  for (const Input& input : inputs) {
    std::fprintf(stderr, "%s\n", input.name.c_str());  // the last one, if it ends the program
    if (const std::string what = finding(input); !what.empty()) {
      std::fprintf(stderr, "  %s\n", what.c_str());
      ++found;
    }
  }
  std::printf("%zu inputs, %d findings\n", inputs.size(), found);
  return found;
}

int selftest(const std::vector<Input>& inputs) {
  areo::fuzz::Control& control = areo::fuzz::control();
  if (replay(inputs) != 0) return 1;
  int blind = control.met.empty() ? 1 : 0;
  for (const std::string& invariant : std::set<std::string>{control.met}) {
    control.denied = invariant;
    if (std::none_of(inputs.begin(), inputs.end(),
                     [](const Input& input) { return !finding(input).empty(); })) {
      std::printf("selftest: not seen: %s\n", invariant.c_str());
      ++blind;
    }
  }
  std::printf("selftest: %zu invariants denied, %d of them unseen\n", control.met.size(), blind);
  return blind;
}

}  // namespace

int main(int argc, char** argv) {
  std::vector<std::string> words{argv + 1, argv + argc};
  const bool control = !words.empty() && words.front() == "--selftest";
  if (control) words.erase(words.begin());
  try {
    const std::vector<Input> inputs = inputs_from(words);
    if (inputs.empty()) throw std::runtime_error{"there is nothing to replay"};
    return (control ? selftest(inputs) : replay(inputs)) == 0 ? 0 : 1;
  } catch (const std::exception& e) {
    std::fprintf(stderr, "replay: %s\n", e.what());
    return 2;
  }
}
