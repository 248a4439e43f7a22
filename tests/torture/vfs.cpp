// SPDX-License-Identifier: GPL-3.0-or-later
#include "vfs.hpp"

#include <sqlite3.h>

#include <array>
#include <stdexcept>
#include <utility>

namespace areo::torture {
namespace {

// SQLite's own way to files, and who stands before it. SQLite's functions have no place for them.
sqlite3_vfs* way = nullptr;  // NOLINT
Answer answer;               // NOLINT
Disk* disk = nullptr;        // NOLINT

int ask(Call call) { return answer ? answer(call) : SQLITE_OK; }

// A file of ours, behind which SQLite's own lies.
struct File {
  sqlite3_file base;
  ino_t number;  // 0: the disk does not know it
};
sqlite3_file* own(sqlite3_file* f) {
  return reinterpret_cast<sqlite3_file*>(reinterpret_cast<File*>(f) + 1);
}
ino_t number_of(sqlite3_file* f) { return reinterpret_cast<File*>(f)->number; }

// What `act` returns, unless somebody says otherwise.
template <class Act>
int unless_refused(Call call, Act act) {
  const int code = ask(call);
  if (code == SQLITE_OK) return act();
  return code == pretend ? SQLITE_OK : code;
}

int close(sqlite3_file* f) { return own(f)->pMethods->xClose(own(f)); }
int read(sqlite3_file* f, void* to, int size, sqlite3_int64 at) {
  return unless_refused(Call::read, [=] { return own(f)->pMethods->xRead(own(f), to, size, at); });
}
// Told first: a write during which the power goes may be done in part.
int write(sqlite3_file* f, const void* bytes, int size, sqlite3_int64 at) {
  if (disk != nullptr && number_of(f) != 0)
    disk->written(number_of(f), at,
                  {static_cast<const char*>(bytes), static_cast<std::size_t>(size)});
  return unless_refused(Call::write,
                        [=] { return own(f)->pMethods->xWrite(own(f), bytes, size, at); });
}
int truncate(sqlite3_file* f, sqlite3_int64 size) {
  if (disk != nullptr && number_of(f) != 0) disk->truncated(number_of(f), size);
  return unless_refused(Call::truncate, [=] { return own(f)->pMethods->xTruncate(own(f), size); });
}
int sync(sqlite3_file* f, int flags) {
  return unless_refused(Call::sync, [=] { return own(f)->pMethods->xSync(own(f), flags); });
}
int file_size(sqlite3_file* f, sqlite3_int64* size) {
  return unless_refused(Call::size, [=] { return own(f)->pMethods->xFileSize(own(f), size); });
}
int lock(sqlite3_file* f, int kind) {
  return unless_refused(Call::lock, [=] { return own(f)->pMethods->xLock(own(f), kind); });
}
int unlock(sqlite3_file* f, int kind) { return own(f)->pMethods->xUnlock(own(f), kind); }
int look_for_lock(sqlite3_file* f, int* found) {
  return unless_refused(Call::look_for_lock,
                        [=] { return own(f)->pMethods->xCheckReservedLock(own(f), found); });
}
int control(sqlite3_file* f, int what, void* with) {
  return own(f)->pMethods->xFileControl(own(f), what, with);
}
int sector_size(sqlite3_file* f) { return own(f)->pMethods->xSectorSize(own(f)); }
int characteristics(sqlite3_file* f) { return own(f)->pMethods->xDeviceCharacteristics(own(f)); }
int map(sqlite3_file* f, int region, int size, int extend, void volatile** at) {
  return unless_refused(
      Call::map, [=] { return own(f)->pMethods->xShmMap(own(f), region, size, extend, at); });
}
int map_lock(sqlite3_file* f, int first, int count, int flags) {
  const auto act = [=] { return own(f)->pMethods->xShmLock(own(f), first, count, flags); };
  return (flags & SQLITE_SHM_LOCK) != 0 ? unless_refused(Call::map_lock, act) : act();
}
void barrier(sqlite3_file* f) { own(f)->pMethods->xShmBarrier(own(f)); }
int unmap(sqlite3_file* f, int remove) { return own(f)->pMethods->xShmUnmap(own(f), remove); }

constexpr sqlite3_io_methods methods{
    2,      close,         read,    write,       truncate,        sync, file_size, lock,
    unlock, look_for_lock, control, sector_size, characteristics, map,  map_lock,  barrier,
    unmap,  nullptr,       nullptr};

int open(sqlite3_vfs*, const char* name, sqlite3_file* f, int flags, int* flags_out) {
  auto* file = reinterpret_cast<File*>(f);
  *file = {{nullptr}, 0};
  const int code =
      unless_refused(Call::open, [&] { return way->xOpen(way, name, own(f), flags, flags_out); });
  if (code != SQLITE_OK) return code;
  file->base.pMethods = &methods;
  if (disk != nullptr && name != nullptr) file->number = disk->know(name);
  return SQLITE_OK;
}
int remove(sqlite3_vfs*, const char* name, int sync_folder) {
  return unless_refused(Call::remove, [=] { return way->xDelete(way, name, sync_folder); });
}
int access(sqlite3_vfs*, const char* name, int flags, int* found) {
  return unless_refused(Call::access, [=] { return way->xAccess(way, name, flags, found); });
}

void stand_before_files() {
  if (way != nullptr) return;
  way = sqlite3_vfs_find(nullptr);
  static sqlite3_vfs before = *way;  // what is not named here goes straight through
  before.iVersion = 2;               // no system calls to be exchanged
  before.szOsFile += static_cast<int>(sizeof(File));
  before.zName = "torture";
  before.xOpen = open;
  before.xDelete = remove;
  before.xAccess = access;
  if (sqlite3_vfs_register(&before, 1) != SQLITE_OK) throw std::runtime_error{"no VFS"};
}

constexpr std::array words{"open", "remove", "access", "read",          "write", "truncate",
                           "sync", "size",   "lock",   "look for lock", "map",   "map lock"};

}  // namespace

const char* word(Call call) { return words.at(static_cast<std::size_t>(call)); }

bool changes(Call call) {
  return call == Call::remove || call == Call::write || call == Call::truncate ||
         call == Call::sync;
}

Interference::Interference(Answer with, Disk* told) {
  stand_before_files();
  answer = std::move(with);
  disk = told;
}

Interference::~Interference() {
  answer = {};
  disk = nullptr;
}

Aside::Aside() : answer_{std::exchange(answer, {})}, disk_{std::exchange(disk, nullptr)} {}

Aside::~Aside() {
  answer = std::move(answer_);
  disk = disk_;
}

}  // namespace areo::torture
