// SPDX-License-Identifier: GPL-3.0-or-later
#include "exclusions.hpp"

#include <fmt/format.h>

#include "words.hpp"

namespace areo::notebook {

std::string last_reason(const std::vector<Exclusion>& all) {
  return all.empty() || !all.back().excluded ? "" : all.back().reason;
}

void forget_later(std::vector<Exclusion>& all, Moment as_of) {
  std::erase_if(all, [&](const Exclusion& e) { return e.at > as_of; });
}

void require_news(const sqlite::Connection& db, const char* what, Id id,
                  const std::string& now_excluded, const Exclusion& e) {
  if (e.reason.empty())
    refuse(db.path(), fmt::format("a {} is excluded, or counts again, for a reason", what),
           "say why with --reason");
  if (now_excluded.empty() == e.excluded) return;
  refuse(db.path(),
         e.excluded ? fmt::format("{} {} is excluded already: {}", what, id, now_excluded)
                    : fmt::format("{} {} counts already", what, id),
         "");
}

void insert(const sqlite::Connection& db, const char* sql, Id id, const Exclusion& e) {
  sqlite::Statement s{db, sql};
  s.bind(id)
      .bind(std::string_view{stored(e.at)})
      .bind(e.at.seconds)
      .bind(std::int64_t{e.excluded})
      .bind(std::string_view{e.reason})
      .step();
}

}  // namespace areo::notebook
