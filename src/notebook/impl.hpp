#pragma once
// What is behind an open notebook.
#include "areo/notebook/store.hpp"
#include "sqlite.hpp"

namespace areo::notebook {

struct Notebook::Impl {
  sqlite::Connection db;

  [[nodiscard]] Id last_id() const { return sqlite3_last_insert_rowid(db.get()); }
};

}  // namespace areo::notebook
