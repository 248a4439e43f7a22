// SPDX-License-Identifier: GPL-3.0-or-later
#include "sqlite.hpp"

#include <fmt/format.h>

#include <chrono>
#include <filesystem>
#include <map>

#include "areo/core/error.hpp"
#include "held.hpp"

namespace areo::notebook::sqlite {
namespace {

// Any byte that could mean something in a URI is written as its number.
std::string uri(const std::string& path) {
  constexpr std::string_view plain =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789/._-";
  std::string out = "file://";
  for (const char c : std::filesystem::absolute(path).string())
    if (plain.find(c) != std::string_view::npos)
      out += c;
    else
      out += fmt::format("%{:02x}", static_cast<unsigned char>(c));
  return out;
}

}  // namespace

// Statements that are done, by their words.
class Idle {
 public:
  Idle() = default;
  ~Idle() {
    for (const auto& [sql, statement] : all_) sqlite3_finalize(statement);
  }
  Idle(const Idle&) = delete;
  Idle& operator=(const Idle&) = delete;
  sqlite3_stmt* take(const char* sql) {
    const auto found = all_.find(std::string_view{sql});
    if (found == all_.end()) return nullptr;
    sqlite3_stmt* statement = found->second;
    all_.erase(found);
    return statement;
  }
  void put(sqlite3_stmt* statement) noexcept try {
    constexpr std::size_t most = 100;  // a command has some thirty
    sqlite3_reset(statement);
    sqlite3_clear_bindings(statement);
    if (all_.size() >= most)
      sqlite3_finalize(statement);
    else
      all_.emplace(sqlite3_sql(statement), statement);
  } catch (...) {
    sqlite3_finalize(statement);
  }

 private:
  std::multimap<std::string, sqlite3_stmt*, std::less<>> all_;
};

void Statement::PutAside::operator()(sqlite3_stmt* s) const noexcept { idle->put(s); }

std::string advice(int code) {
  switch (code & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED: return "another program is writing to it; try again";
    case SQLITE_FULL: return "the disk is full; what was there before is intact";
    case SQLITE_IOERR: return "is the disk full or failing? what was there before is intact";
    case SQLITE_READONLY:
    case SQLITE_CANTOPEN:
    case SQLITE_PERM: return "check that file and folder exist and may be written";
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return "it is damaged or not a notebook; areo leaves it as it is: take your last backup";
    default: return "";
  }
}

Connection::Connection(const std::string& path, int flags) : Connection{path, path, flags} {}

Connection Connection::immutable(const std::string& path, const std::string& called) {
  return {called.empty() ? path : called, uri(path) + "?immutable=1",
          SQLITE_OPEN_READONLY | SQLITE_OPEN_URI};
}

Connection::Connection(const std::string& path, const std::string& name, int flags) : path_{path} {
  sqlite3* raw = nullptr;
  const int code = sqlite3_open_v2(name.c_str(), &raw, flags, nullptr);
  db_.reset(raw);  // owned even if opening failed
  require(code);
  idle_ = std::make_shared<Idle>();
  sqlite3_extended_result_codes(raw, 1);
  sqlite3_busy_timeout(raw, longest_wait_ms);
}

void Connection::require(int code) const {
  if (code == SQLITE_OK || code == SQLITE_ROW || code == SQLITE_DONE) return;
  if ((code & 0xff) == SQLITE_BUSY)
    if (const auto holder = holder_of(path_))
      throw Error{
          Errc::store, fmt::format("notebook {}: {} is writing to it", path_, holder->words),
          holder->stopped ? "let it go on (kill -CONT), or end it; then try again" : advice(code)};
  const char* message = db_ ? sqlite3_errmsg(db_.get()) : sqlite3_errstr(code);
  throw Error{Errc::store, fmt::format("notebook {}: {}", path_, message), advice(code)};
}

void Connection::run(const char* sql) const {
  const Alone here = alone();
  require(sqlite3_exec(db_.get(), sql, nullptr, nullptr, nullptr));
}

void Connection::run_patiently(const char* sql) const {
  // By the clock: what SQLite waited itself counts too.
  using Clock = std::chrono::steady_clock;
  const Alone here = alone();
  const auto end = Clock::now() + std::chrono::milliseconds{longest_wait_ms};
  for (;;) {
    const int code = sqlite3_exec(db_.get(), sql, nullptr, nullptr, nullptr);
    if ((code & 0xff) != SQLITE_BUSY || Clock::now() >= end) return require(code);
    sqlite3_sleep(10);
  }
}

std::int64_t Connection::number(const char* sql) const {
  Statement s{*this, sql};
  return s.step() ? s.integer(0) : 0;
}

Statement::Statement(const Connection& connection, const char* sql)
    : connection_{&connection},
      alone_{connection.alone()},
      statement_{connection.idle_->take(sql), {connection.idle_}} {
  if (statement_) return;
  sqlite3_stmt* raw = nullptr;
  const int code = sqlite3_prepare_v2(connection.get(), sql, -1, &raw, nullptr);
  statement_.reset(raw);
  connection.require(code);
}

Statement& Statement::bind(double v) {
  connection_->require(sqlite3_bind_double(statement_.get(), next_++, v));
  return *this;
}

Statement& Statement::bind(std::int64_t v) {
  connection_->require(sqlite3_bind_int64(statement_.get(), next_++, v));
  return *this;
}

Statement& Statement::bind(std::string_view v) {
  connection_->require(sqlite3_bind_text64(statement_.get(), next_++, v.data(), v.size(),
                                           SQLITE_TRANSIENT, SQLITE_UTF8));
  return *this;
}

Statement& Statement::null() {
  connection_->require(sqlite3_bind_null(statement_.get(), next_++));
  return *this;
}

bool Statement::step() {
  const int code = sqlite3_step(statement_.get());
  connection_->require(code);
  return code == SQLITE_ROW;
}

void Statement::again() {
  sqlite3_reset(statement_.get());  // its result is that of the last step, which was looked at
  next_ = 1;
}

int Statement::type(int column) const { return sqlite3_column_type(statement_.get(), column); }

double Statement::real(int column) const { return sqlite3_column_double(statement_.get(), column); }

std::int64_t Statement::integer(int column) const {
  return sqlite3_column_int64(statement_.get(), column);
}

std::string Statement::text(int column) const {
  const unsigned char* bytes = sqlite3_column_text(statement_.get(), column);
  const int size = sqlite3_column_bytes(statement_.get(), column);
  return bytes == nullptr
             ? std::string{}
             : std::string{reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(size)};
}

std::optional<double> Statement::optional_real(int column) const {
  if (sqlite3_column_type(statement_.get(), column) == SQLITE_NULL) return std::nullopt;
  return real(column);
}

std::optional<std::int64_t> Statement::optional_integer(int column) const {
  if (sqlite3_column_type(statement_.get(), column) == SQLITE_NULL) return std::nullopt;
  return integer(column);
}

Transaction::Transaction(const Connection& connection, For what)
    : connection_{&connection},
      alone_{connection.alone()},
      what_{what},
      changes_before_{sqlite3_total_changes(connection.get())},
      outermost_{sqlite3_get_autocommit(connection.get()) != 0} {
  if (outermost_)
    connection.run(what == For::reading ? "BEGIN" : "BEGIN IMMEDIATE");
  else
    connection.run("SAVEPOINT part");
}

Transaction::~Transaction() {
  if (!open_) return;
  sqlite3_exec(connection_->get(), outermost_ ? "ROLLBACK" : "ROLLBACK TO part; RELEASE part",
               nullptr, nullptr, nullptr);
}

void Transaction::commit() {
  const bool writing = outermost_ && what_ == For::writing;
  try {
    connection_->run(outermost_ ? "COMMIT" : "RELEASE part");
  } catch (const Error& e) {
    if (!writing) throw;
    // A disk that fails at the last step leaves open what a later start finds there.
    throw Error{e.code, e.what(), "look whether it was noted before you try again: " + e.hint};
  }
  open_ = false;
  const bool news = sqlite3_total_changes(connection_->get()) != changes_before_;
  if (writing && news && connection_->committed_) connection_->committed_();
}

}  // namespace areo::notebook::sqlite
