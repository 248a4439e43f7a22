// Runs gnuplot without a shell: the script is its standard input, a file is its output.
#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <memory>
#include <new>

#include "areo/core/error.hpp"
#include "areo/report/chart.hpp"

namespace areo::report {
namespace {

struct Close {
  void operator()(std::FILE* f) const noexcept { std::fclose(f); }  // NOLINT: nothing was written
};
using File = std::unique_ptr<std::FILE, Close>;

File temporary() {
  File f{std::tmpfile()};
  if (!f)
    throw Error{Errc::file, "no temporary file can be made for a picture",
                "look at the room on the disk and at the folder for temporary files"};
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

[[noreturn]] void refuse(const char* what) {
  throw Error{Errc::file, what, "install it (Debian: gnuplot-nox) to get pictures"};
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

std::string draw(const std::string& script) {
  const File in = temporary(), out = temporary();
  if (std::fwrite(script.data(), 1, script.size(), in.get()) != script.size() ||
      std::fflush(in.get()) != 0)
    throw Error{Errc::file, "a picture's script cannot be written", "look at the room on the disk"};
  std::rewind(in.get());
  Actions actions;
  posix_spawn_file_actions_t* all = &actions.all;
  posix_spawn_file_actions_adddup2(all, fileno(in.get()), STDIN_FILENO);
  posix_spawn_file_actions_adddup2(all, fileno(out.get()), STDOUT_FILENO);
  posix_spawn_file_actions_addopen(all, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  // -d: no settings of the user, so that a picture looks the same everywhere.
  std::string name = "gnuplot", defaults = "-d";
  const std::array<char*, 3> arguments{name.data(), defaults.data(), nullptr};
  pid_t child = 0;
  const int failed = posix_spawnp(&child, "gnuplot", all, nullptr, arguments.data(), environ);
  if (failed != 0) refuse("gnuplot is not installed");
  int status = 0;
  while (waitpid(child, &status, 0) < 0)
    if (errno != EINTR) refuse("gnuplot was lost");
  std::string picture = contents(out.get());
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0 || picture.empty())
    refuse(WIFEXITED(status) && WEXITSTATUS(status) == 127 ? "gnuplot is not installed"
                                                           : "gnuplot drew nothing");
  return picture;
}

}  // namespace areo::report
