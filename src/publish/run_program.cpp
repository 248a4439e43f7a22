// SPDX-License-Identifier: GPL-3.0-or-later
#include "run_program.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <memory>
#include <new>

#include "areo/core/error.hpp"

namespace areo::publish {
namespace {

struct Close {
  void operator()(std::FILE* f) const noexcept { std::fclose(f); }  // NOLINT: nothing was written
};
using File = std::unique_ptr<std::FILE, Close>;

File temporary() {
  File f{std::tmpfile()};
  if (!f)
    throw Error{Errc::file, "no temporary file can be made",
                "check the free space on the disk and the folder for temporary files"};
  return f;
}

struct Actions {
  posix_spawn_file_actions_t all{};
  Actions() {
    if (posix_spawn_file_actions_init(&all) != 0) throw std::bad_alloc{};
  }
  ~Actions() { posix_spawn_file_actions_destroy(&all); }
  Actions(const Actions&) = delete;
  Actions& operator=(const Actions&) = delete;
};

[[noreturn]] void refuse(const Program& p, const char* what) {
  throw Error{Errc::file, fmt::format("{} {}", p.name, what),
              fmt::format("install it (Debian: {}) to get {}", p.package, p.makes)};
}

std::string contents(std::FILE* f) {
  std::string out;
  std::rewind(f);
  std::array<char, 65536> part{};
  for (std::size_t n = 0; (n = std::fread(part.data(), 1, part.size(), f)) > 0;)
    out.append(part.data(), n);
  return out;
}

}  // namespace

std::string run(const Program& program, const std::string& input) {
  const File in = temporary(), out = temporary();
  if (std::fwrite(input.data(), 1, input.size(), in.get()) != input.size() ||
      std::fflush(in.get()) != 0)
    throw Error{Errc::file, fmt::format("what {} has to read cannot be written", program.name),
                "check the free space on the disk"};
  std::rewind(in.get());
  Actions actions;
  posix_spawn_file_actions_t* all = &actions.all;
  posix_spawn_file_actions_adddup2(all, fileno(in.get()), STDIN_FILENO);
  posix_spawn_file_actions_adddup2(all, fileno(out.get()), STDOUT_FILENO);
  posix_spawn_file_actions_addopen(all, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  std::vector<std::string> words{program.name};
  words.insert(words.end(), program.arguments.begin(), program.arguments.end());
  std::vector<char*> arguments;
  arguments.reserve(words.size() + 1);
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  pid_t child = 0;
  const int failed =
      posix_spawnp(&child, program.name.c_str(), all, nullptr, arguments.data(), environ);
  if (failed != 0) refuse(program, "is not installed");
  int status = 0;
  while (waitpid(child, &status, 0) < 0)
    if (errno != EINTR) refuse(program, "was lost");
  std::string made = contents(out.get());
  constexpr int not_found = 127;
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0 || made.empty())
    refuse(program, WIFEXITED(status) && WEXITSTATUS(status) == not_found ? "is not installed"
                                                                          : "made nothing");
  return made;
}

}  // namespace areo::publish
