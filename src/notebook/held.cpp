// SPDX-License-Identifier: GPL-3.0-or-later
#include "held.hpp"

#include <fmt/format.h>
#include <sys/stat.h>
#include <sys/sysmacros.h>
#include <unistd.h>

#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <tuple>

#include "areo/core/error.hpp"
#include "areo/core/moment.hpp"
#include "areo/core/temporary_name.hpp"
#include "migrate.hpp"

namespace areo::notebook {
namespace {

namespace fs = std::filesystem;

// As the kernel writes a file in its list of locks.
std::string file_id(const std::string& path) {
  struct stat s {};
  if (::stat(path.c_str(), &s) != 0) return "";
  return fmt::format("{:02x}:{:02x}:{}", major(s.st_dev), minor(s.st_dev), s.st_ino);
}

// The words of /proc/PID/stat behind the name, which may hold anything: state, parent, ...
std::istringstream stat_of(long pid) {
  std::ifstream in{fmt::format("/proc/{}/stat", pid)};
  std::string all;
  std::getline(in, all);
  return std::istringstream{all.substr(std::min(all.rfind(')'), all.size() - 1) + 1)};
}

std::string started(std::istringstream& behind_state) {
  constexpr int words_before = 18;
  std::string skipped;
  for (int i = 0; i < words_before; ++i) behind_state >> skipped;
  double ticks = 0, up = 0;
  if (!(behind_state >> ticks) || !(std::ifstream{"/proc/uptime"} >> up)) return "";
  Moment at = now();
  at.seconds -= static_cast<std::int64_t>(up - ticks / static_cast<double>(::sysconf(_SC_CLK_TCK)));
  return ", running since " + at.text().substr(0, 16);
}

Holder process(long pid) {
  std::string name;
  std::getline(std::ifstream{fmt::format("/proc/{}/comm", pid)}, name);
  std::istringstream stat = stat_of(pid);
  char state = ' ';
  stat >> state;
  const bool stopped = state == 'T';
  return {fmt::format("process {}{}{}{}", pid, name.empty() ? "" : fmt::format(" ({})", name),
                      stopped ? ", stopped" : "", started(stat)),
          stopped};
}

// What shows that a file was written.
auto trace_of(const std::string& path) {
  struct stat s {};
  if (::stat(path.c_str(), &s) != 0) s = {};
  return std::tuple{s.st_ino, s.st_size, s.st_mtim.tv_sec, s.st_mtim.tv_nsec};
}

struct Folder {
  std::string path;
  Folder() {
    std::error_code error;
    path = with_letters_to_fill((fs::temp_directory_path(error) / "areo-").string());
    if (error || ::mkdtemp(path.data()) == nullptr)
      throw Error{Errc::file, "no temporary folder can be made for a copy of the notebook",
                  "check the free space on the disk, and whether TMPDIR names a folder"};
  }
  ~Folder() {
    std::error_code error;
    fs::remove_all(path, error);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
};

bool copied(const std::string& path, const std::string& to) {
  const std::string log = path + "-wal";
  const auto traces = [&] { return std::pair{trace_of(path), trace_of(log)}; };
  const auto before = traces();
  std::error_code error;
  for (const char* end : {"-wal", "-shm", ""}) fs::remove(to + end, error);
  // The log first: the file may get from it what the copy of the file lacks, never the reverse.
  if (fs::exists(log, error)) fs::copy_file(log, to + "-wal", error);
  if (!error) fs::copy_file(path, to, error);
  return !error && traces() == before;
}

}  // namespace

std::optional<Holder> holder_of(const std::string& path) {
  std::ifstream locks{"/proc/locks"};
  const std::string own = std::to_string(::getpid());
  for (std::string line; std::getline(locks, line);) {
    std::istringstream words{line};
    std::string number, kind, how, what, pid, file;
    words >> number >> kind >> how >> what >> pid >> file;
    if (what != "WRITE" || pid == own || file.empty()) continue;
    for (const char* end : {"", "-shm"})
      if (file == file_id(path + end)) return process(std::strtol(pid.c_str(), nullptr, 10));
  }
  return std::nullopt;
}

sqlite::Connection read_from_copy(const std::string& path) {
  constexpr int most_attempts = 20;
  const Folder folder;
  const std::string copy = folder.path + "/notebook.db";
  for (int i = 0; i < most_attempts; ++i) {
    if (!copied(path, copy)) continue;
    {
      const sqlite::Connection whole{copy, SQLITE_OPEN_READWRITE};
      whole.run("PRAGMA journal_mode = DELETE");  // all of it in one file
      require_intact(whole, "try again");
    }
    sqlite::Connection db = sqlite::Connection::immutable(copy, path);
    (void)db.number("PRAGMA user_version");  // opened for good: its name may go
    return db;
  }
  refuse(path, "changes while it is read", "try again");
}

}  // namespace areo::notebook
