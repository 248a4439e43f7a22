// SPDX-License-Identifier: GPL-3.0-or-later
#include "disk.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <filesystem>
#include <fstream>
#include <set>
#include <stdexcept>
#include <utility>

#include "notebook/temporary.hpp"

namespace areo::torture {
namespace {

namespace fs = std::filesystem;

Disk* disk_in_use = nullptr;  // NOLINT: fsync() has no place for it

constexpr std::size_t sector = 512;  // what a disk writes whole or not at all

struct stat status(const std::string& path) {
  struct stat found {};
  if (::stat(path.c_str(), &found) != 0) throw std::runtime_error{path + " is gone"};
  return found;
}

void apply(std::string& to, std::int64_t offset, std::string_view bytes) {
  const auto from = static_cast<std::size_t>(offset);
  to.resize(std::max(to.size(), from + bytes.size()));
  std::copy(bytes.begin(), bytes.end(), to.begin() + offset);
}

}  // namespace

Files files_in(const std::string& folder) {
  Files all;
  for (const auto& entry : fs::directory_iterator{folder})
    if (entry.is_regular_file())
      all[entry.path().filename().string()] = notebook::bytes_of(entry.path());
  return all;
}

void put(const std::string& folder, const Files& files) {
  for (const auto& entry : fs::directory_iterator{folder}) fs::remove_all(entry.path());
  for (const auto& [name, bytes] : files)
    std::ofstream{fs::path{folder} / name, std::ios::binary} << bytes;
}

Disk::Disk(std::string folder)
    : folder_{std::move(folder)}, folder_number_{status(folder_).st_ino} {
  if (disk_in_use != nullptr) throw std::logic_error{"one disk at a time"};
  disk_in_use = this;
  certain_ = names_now();
  for (const auto& [name, number] : certain_) {
    know((fs::path{folder_} / name).string());
    Content& content = files_.at(number);
    content.certain = notebook::bytes_of(fs::path{folder_} / name);
    content.since.clear();
  }
}

Disk::~Disk() {
  disk_in_use = nullptr;
  for (const auto& [number, content] : files_) ::close(content.held);
}

ino_t Disk::know(const std::string& path) {
  const ino_t number = status(path).st_ino;
  if (files_.contains(number)) return number;
  const int held = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (held < 0) throw std::runtime_error{path + " cannot be held"};
  Content& content = files_.emplace(number, Content{{}, {}, held}).first->second;
  // Somebody else made it: what it holds was written, and no more.
  if (std::string bytes = notebook::bytes_of(path); !bytes.empty())
    content.since.push_back({0, std::move(bytes)});
  return number;
}

void Disk::written(ino_t file, std::int64_t offset, std::string_view bytes) {
  if (!bytes.empty()) files_.at(file).since.push_back({offset, std::string{bytes}});
}

void Disk::truncated(ino_t file, std::int64_t size) { files_.at(file).since.push_back({size, {}}); }

int Disk::synced(int descriptor) {
  if (stopped_) {
    errno = EIO;
    return -1;
  }
  struct stat found {};
  if (::fstat(descriptor, &found) != 0) return -1;
  if (found.st_ino == folder_number_) certain_ = names_now();
  const auto file = files_.find(found.st_ino);
  if (file == files_.end()) return 0;
  Content& content = file->second;
  for (const auto& [offset, bytes] : content.since)
    if (bytes.empty())
      content.certain.resize(static_cast<std::size_t>(offset));
    else
      apply(content.certain, offset, bytes);
  content.since.clear();
  return 0;
}

// Not the memory that writers share: it is empty after a cut, and SQLite makes it anew.
Disk::Names Disk::names_now() const {
  Names all;
  for (const auto& entry : fs::directory_iterator{folder_})
    if (const std::string name = entry.path().filename().string();
        entry.is_regular_file() && !name.ends_with("-shm"))
      all[name] = status(entry.path().string()).st_ino;
  return all;
}

Files Disk::after_a_cut(Chance& chance) const {
  // Much, little, or nothing of it: each leaves other gaps.
  const double kept = std::array{0.0, 0.1, 0.5, 0.9, 1.0}[chance() % 5];
  std::bernoulli_distribution stays{kept};

  std::set<ino_t> renamed;  // those that have their new name, or are gone
  Names left, now = names_now();
  for (const Names& names : {certain_, now})
    for (const auto& [name, number] : names)
      if (stays(chance)) renamed.insert(number);
  for (const auto& [name, number] : certain_) {
    const auto there = now.find(name);
    const ino_t decides = there == now.end() ? number : there->second;
    if (!renamed.contains(decides)) left[name] = number;
  }
  for (const auto& [name, number] : now)
    if (renamed.contains(number)) left[name] = number;

  Files files;
  for (const auto& [name, number] : left) {
    const auto content = files_.find(number);
    if (content == files_.end()) {  // never opened by SQLite
      files[name] = notebook::bytes_of(fs::path{folder_} / name);
      continue;
    }
    std::string bytes = content->second.certain;
    for (const auto& [offset, change] : content->second.since) {
      if (change.empty()) {
        if (stays(chance)) bytes.resize(static_cast<std::size_t>(offset));
        continue;
      }
      for (std::size_t done = 0; done < change.size();) {
        const std::size_t place = static_cast<std::size_t>(offset) + done;
        const std::size_t size = std::min(sector - place % sector, change.size() - done);
        if (stays(chance))
          apply(bytes, static_cast<std::int64_t>(place),
                std::string_view{change}.substr(done, size));
        done += size;
      }
    }
    files[name] = std::move(bytes);
  }
  return files;
}

}  // namespace areo::torture

// Whoever in this program, SQLite and the C++ library too, calls these, calls them here.
extern "C" int fsync(int descriptor) {
  using areo::torture::disk_in_use;
  return disk_in_use != nullptr ? disk_in_use->synced(descriptor) : 0;
}
extern "C" int fdatasync(int descriptor) { return fsync(descriptor); }
