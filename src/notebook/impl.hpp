#pragma once
// What is behind an open notebook.
#include "areo/core/identity.hpp"
#include "areo/notebook/store.hpp"
#include "sqlite.hpp"

namespace areo::notebook {

struct Notebook::Impl {
  sqlite::Connection db;
  IdentityRegister instruments;  ///< by the number of their row

  [[nodiscard]] Id last_id() const { return sqlite3_last_insert_rowid(db.get()); }
};

}  // namespace areo::notebook
