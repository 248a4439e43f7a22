// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What is behind an open notebook.
#include <fmt/format.h>

#include <functional>
#include <memory>
#include <optional>
#include <set>
#include <string>

#include "areo/core/error.hpp"
#include "areo/core/identity.hpp"
#include "areo/notebook/store.hpp"
#include "evaluations.hpp"
#include "sqlite.hpp"

namespace areo::notebook {

struct Notebook::Impl {
  sqlite::Connection db;
  IdentityRegister instruments;  ///< by the number of their row
  std::function<void(const std::string&)>
      passed_over;                   ///< empty: a row that cannot be read is the end
  std::set<std::string> reported{};  ///< of passed_over, so that each is reported once
  std::unique_ptr<Evaluations> known = std::make_unique<Evaluations>(db);

  /// What make() makes of a row; nothing, once that was reported, if it cannot be read.
  /// @param row  names it: "reading 5"
  template <class Make>
  auto read_row(const std::string& row, const Make& make) -> std::optional<decltype(make())> {
    try {
      return make();
    } catch (const Error& e) {
      const std::string what = fmt::format("{} cannot be read: {}", row, e.what());
      if (!passed_over)
        throw Error{Errc::store, fmt::format("notebook {}: {}", db.path(), what),
                    "areo export shows it as it is"};
      if (reported.insert(what).second) passed_over(what);
      return std::nullopt;
    }
  }

  [[nodiscard]] Id last_id() const { return sqlite3_last_insert_rowid(db.get()); }
};

}  // namespace areo::notebook
