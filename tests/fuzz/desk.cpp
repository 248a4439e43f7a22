// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <iterator>
#include <stdexcept>

#include "areo/notebook/store.hpp"
#include "cli/app.hpp"

// Of the address sanitizer, where there is one: its report must not end in a file of ours.
extern "C" void __sanitizer_set_report_fd(void* file) __attribute__((weak));

namespace areo::fuzz {
namespace {

namespace fs = std::filesystem;

const std::vector<std::vector<std::string>> filled{
    {"instrument", "add", "stem-1", "--from", "0.990", "--to", "1.100", "--on", "2026-02-28"},
    {"instrument", "add", "prism-1", "--kind", "refractometer", "--on", "2026-02-28"},
    {"instrument", "add", "probe-1", "--kind", "thermometer", "--division", "0.1C", "--on",
     "2026-02-28"},
    {"calibrate", "water", "stem-1", "1.002", "21C", "--tap", "--on", "2026-03-01"},
    {"calibrate", "sugar", "stem-1", "1.041", "21C", "--solute", "50g", "--water", "450g", "--tap",
     "--on", "2026-03-01"},
    {"calibrate", "fit", "stem-1"},
    {"calibrate", "ice", "probe-1", "0.2C", "--on", "2026-03-01"},
    {"liquid", "pair", "juice", "12.6Bx", "1.050", "--temp", "20C", "--instrument", "prism-1",
     "--hydrometer", "stem-1", "--on", "2026-03-01"},
    {"batch", "add", "PT-1", "--volume", "5L", "--on", "2026-03-02"},
    {"reading", "add", "PT-1", "1.048", "1.047", "--temp", "27C", "--original", "--instrument",
     "stem-1", "--thermometer", "probe-1", "--on", "2026-03-02T10:00"},
    {"reading", "add", "PT-1", "1.026", "--temp", "21C", "--instrument", "stem-1", "--on",
     "2026-03-05T18:00"},
    {"reading", "add", "PT-1", "7.8", "--temp", "21C", "--instrument", "prism-1", "--on",
     "2026-03-06T18:00"},
    {"addition", "add", "sugar", "PT-1", "100g", "--on", "2026-03-06T18:30"},
    {"reading", "add", "PT-1", "1.016", "--temp", "20C", "--instrument", "stem-1", "--on",
     "2026-03-14T18:00"},
};

// A standard stream of the process that is a file for a while.
class Redirected {
 public:
  Redirected(int stream, const fs::path& file, int flags) : stream_{stream}, before_{dup(stream)} {
    const int fd = open(file.c_str(), flags, 0600);
    if (fd < 0 || before_ < 0 || dup2(fd, stream) < 0)
      throw std::runtime_error{"no file for " + file.string()};
    close(fd);
  }
  ~Redirected() {
    dup2(before_, stream_);
    close(before_);
  }
  Redirected(const Redirected&) = delete;
  Redirected& operator=(const Redirected&) = delete;

 private:
  int stream_, before_;
};

std::string bytes_of(const fs::path& file) {
  std::ifstream in{file, std::ios::binary};
  return {std::istreambuf_iterator<char>{in}, {}};
}

void write(const fs::path& file, std::string_view bytes) {
  std::ofstream{file, std::ios::binary} << bytes;
}

fs::path new_folder() {
  const std::string name = "areo-fuzz-" + std::string(6, 'X');  // mkdtemp() fills these in
  std::string pattern = (fs::temp_directory_path() / name).string();
  if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error{"no temporary folder"};
  return pattern;
}

const char* file_of(Notebook notebook) {
  return notebook == Notebook::empty ? "empty.db" : "filled.db";
}

}  // namespace

Desk::Desk() : folder_{new_folder()} {
  if (__sanitizer_set_report_fd != nullptr)
    __sanitizer_set_report_fd(reinterpret_cast<void*>(static_cast<std::intptr_t>(dup(2))));
  setenv("AREO_NOTEBOOK", notebook().c_str(), 1);
  setenv("HOME", work().c_str(), 1);
  setenv("PATH", work().c_str(), 1);  // no other program is started
  setenv("TZ", "UTC0", 1);
  keep(Notebook::empty, {});
  keep(Notebook::filled, filled);
}

Desk::~Desk() {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

void Desk::clear(Notebook notebook) {
  fs::remove_all(work());
  fs::create_directory(work());
  if (notebook != Notebook::none)
    fs::copy_file(folder_ / file_of(notebook), fs::path{this->notebook()});
}

std::string Desk::other_notebook() const {
  const fs::path file = folder_ / "other.db";
  fs::copy_file(folder_ / file_of(Notebook::empty), file, fs::copy_options::overwrite_existing);
  return file.string();
}

Ran Desk::run(const std::vector<std::string>& words, std::string_view input) {
  const fs::path before = fs::current_path();
  write(folder_ / "in", input);
  Ran ran;
  {
    std::fflush(nullptr);
    const Redirected in{STDIN_FILENO, folder_ / "in", O_RDONLY};
    const Redirected out{STDOUT_FILENO, folder_ / "out", O_WRONLY | O_CREAT | O_TRUNC};
    const Redirected err{STDERR_FILENO, folder_ / "err", O_WRONLY | O_CREAT | O_TRUNC};
    std::rewind(stdin);
    std::cin.clear();
    fs::current_path(work());
    std::vector<const char*> arguments{"areo"};
    for (const std::string& word : words) arguments.push_back(word.c_str());
    ran.status = cli::run_app(static_cast<int>(arguments.size()), arguments.data());
    std::fflush(nullptr);
    fs::current_path(before);
  }
  ran.out = bytes_of(folder_ / "out");
  ran.err = bytes_of(folder_ / "err");
  return ran;
}

void Desk::keep(Notebook notebook, const std::vector<std::vector<std::string>>& calls) {
  clear(Notebook::none);
  { const notebook::Notebook made{this->notebook(), notebook::Open::create}; }
  for (const auto& words : calls)
    if (const Ran ran = run(words); ran.status != 0)
      throw std::runtime_error{"the notebook of the desk: " + ran.err};
  fs::copy_file(fs::path{this->notebook()}, folder_ / file_of(notebook));
}

}  // namespace areo::fuzz
