// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Thin ownership over SQLite's C interface: a connection, a statement, a transaction.
#include <sqlite3.h>

#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace areo::notebook::sqlite {

inline constexpr int longest_wait_ms = 5000;

class Idle;

/// What to do about a result code that people meet; may be empty.
[[nodiscard]] std::string advice(int code);

/// One thread at a time: what is begun on a connection belongs to the connection and not to the
/// thread that began it, so another one would join its transaction, or be refused. Statements and
/// transactions hold it for as long as they live; one thread may hold it many times.
using Alone = std::unique_lock<std::recursive_mutex>;

class Connection {
 public:
  /// @param flags SQLITE_OPEN_...
  Connection(const std::string& path, int flags);
  /// Of a file that nobody writes meanwhile: takes no lock, makes no file beside it, and does not
  /// see what lies in its -wal.
  /// @param called  what messages call it; path unless given
  [[nodiscard]] static Connection immutable(const std::string& path,
                                            const std::string& called = {});
  /// How long a lock of others is waited for.
  void wait_at_most_ms(int ms) const { sqlite3_busy_timeout(db_.get(), ms); }
  void run(const char* sql) const;
  /// For what SQLite gives up at once when others read: tries again as long as it would wait.
  void run_patiently(const char* sql) const;
  [[nodiscard]] std::int64_t number(const char* sql) const;
  [[nodiscard]] bool read_only() const { return sqlite3_db_readonly(db_.get(), "main") == 1; }
  [[nodiscard]] sqlite3* get() const { return db_.get(); }
  [[nodiscard]] const std::string& path() const { return path_; }
  /// Calls this after each transaction that wrote.
  void tell_commits(std::function<void()> committed) { committed_ = std::move(committed); }
  /// Turns a result code into Error{store}; does nothing for OK, ROW and DONE.
  void require(int code) const;

 private:
  struct Close {
    void operator()(sqlite3* db) const noexcept { sqlite3_close_v2(db); }
  };
  Connection(const std::string& path, const std::string& name, int flags);
  friend class Transaction;
  friend class Statement;
  [[nodiscard]] Alone alone() const { return Alone{*one_at_a_time_}; }
  std::string path_;
  std::unique_ptr<std::recursive_mutex> one_at_a_time_ = std::make_unique<std::recursive_mutex>();
  std::unique_ptr<sqlite3, Close> db_;
  std::shared_ptr<Idle> idle_;  // closed before the database
  std::function<void()> committed_;
};

/// A prepared statement. Values are bound in order, columns read in order; text never becomes SQL.
/// Once it is done the next one of the same words goes on with it: to prepare one costs ten times
/// what it does.
class Statement {
 public:
  Statement(const Connection& connection, const char* sql);
  Statement& bind(double v);
  Statement& bind(std::int64_t v);
  Statement& bind(std::string_view v);
  template <class T>
  Statement& bind(const std::optional<T>& v) {
    return v ? bind(*v) : null();
  }
  Statement& null();
  /// @return true if there is a row
  bool step();
  /// Ready to be bound and run anew.
  void again();
  /// SQLITE_INTEGER, SQLITE_FLOAT, SQLITE_TEXT, SQLITE_NULL
  [[nodiscard]] int type(int column) const;
  [[nodiscard]] double real(int column) const;
  [[nodiscard]] std::int64_t integer(int column) const;
  [[nodiscard]] std::string text(int column) const;
  [[nodiscard]] std::optional<double> optional_real(int column) const;
  [[nodiscard]] std::optional<std::int64_t> optional_integer(int column) const;

 private:
  struct PutAside {
    std::shared_ptr<Idle> idle;
    void operator()(sqlite3_stmt* s) const noexcept;
  };
  const Connection* connection_;
  Alone alone_;  // until the statement is put aside
  std::unique_ptr<sqlite3_stmt, PutAside> statement_;
  int next_ = 1;
};

/// Begins in its constructor, rolls back in its destructor unless committed. One within another is
/// a part of it: what it did comes with the outer one, or not at all.
class Transaction {
 public:
  enum class For { reading, writing };
  explicit Transaction(const Connection& connection, For what = For::writing);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();

 private:
  const Connection* connection_;
  Alone alone_;
  For what_;
  int changes_before_;
  bool open_ = true, outermost_;
};

}  // namespace areo::notebook::sqlite
