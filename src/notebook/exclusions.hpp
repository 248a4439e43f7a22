// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// That a row is excluded, or counts again: kept beside it, never in it.
#include <fmt/format.h>

#include <map>
#include <string>
#include <vector>

#include "areo/notebook/batch.hpp"
#include "migrate.hpp"
#include "sqlite.hpp"

namespace areo::notebook {

/// Exclusions of all rows of a batch, by the id of the row.
/// @param sql  row, moment, excluded, reason, id of the exclusion; for the batch that is bound
template <class Impl>
std::map<Id, std::vector<Exclusion>> exclusions(Impl& impl, const char* table, const char* sql,
                                                Id of) {
  std::map<Id, std::vector<Exclusion>> all;
  sqlite::Statement s{impl.db, sql};
  s.bind(of);
  while (s.step())
    if (auto e = impl.read_row(fmt::format("{} {}", table, s.integer(4)), [&] {
          return Exclusion{moment_from_text(s.text(1)), s.integer(2) != 0, s.text(3)};
        }))
      all[s.integer(0)].push_back(*std::move(e));
  return all;
}

/// Why a row does not count; empty if it does.
[[nodiscard]] std::string last_reason(const std::vector<Exclusion>& all);
/// As it was known then.
void forget_later(std::vector<Exclusion>& all, Moment as_of);
/// @throws Error{store} for one without a reason, or that changes nothing
void require_news(const sqlite::Connection& db, const char* what, Id id,
                  const std::string& now_excluded, const Exclusion& e);
/// @param sql  with places for the row, moment, its seconds, excluded, reason
void insert(const sqlite::Connection& db, const char* sql, Id id, const Exclusion& e);

}  // namespace areo::notebook
