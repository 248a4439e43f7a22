// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of addition and their exclusions.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "areo/notebook/store.hpp"
#include "exclusions.hpp"
#include "impl.hpp"
#include "rules.hpp"
#include "words.hpp"

namespace areo::notebook {
namespace {

using sqlite::Connection;
using sqlite::Statement;

constexpr std::array substance_words{
    std::pair{Substance::sugar, "sugar"}, std::pair{Substance::juice, "juice"},
    std::pair{Substance::water, "water"}, std::pair{Substance::salt, "salt"},
    std::pair{Substance::acid, "acid"},   std::pair{Substance::batch, "batch"}};

AdditionRecord addition_from(const Statement& s) {
  return {s.integer(0),
          s.integer(1),
          s.text(2),
          value_of(substance_words, s.text(3)),
          moment_from_text(s.text(4)),
          moment_from_text(s.text(5)),
          s.text(6),
          s.optional_real(7),
          s.optional_real(8),
          s.text(9),
          s.optional_real(10),
          s.optional_real(11),
          s.optional_integer(12),
          s.text(13),
          s.optional_real(14),
          s.text(15),
          s.text(16)};
}

constexpr const char* addition_exclusions =
    "SELECT addition, at, excluded, reason, x.id FROM addition_exclusion x JOIN addition a "
    "ON a.id = addition WHERE batch = ? ORDER BY x.id";

}  // namespace

std::string_view word(Substance substance) { return word_of(substance_words, substance); }

std::string AdditionRecord::excluded() const { return last_reason(exclusions); }

Id Notebook::add(const AdditionRecord& r) {
  require_typed(*this, r);
  sqlite::Transaction t{impl_->db};
  Statement s{impl_->db,
              "INSERT INTO addition (batch, bottle, what, made_at, made_at_s, noted_at, "
              "noted_at_s, amount_typed, mass_g, volume_l, extract_typed, extract_percent, "
              "extract_half_width, other, into_typed, into_l, person, note) VALUES "
              "(?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"};
  s.bind(r.batch)
      .bind(std::string_view{r.bottle})
      .bind(word(r.what))
      .bind(std::string_view{stored(r.made_at)})
      .bind(r.made_at.seconds)
      .bind(std::string_view{stored(r.noted_at)})
      .bind(r.noted_at.seconds)
      .bind(std::string_view{r.amount_typed})
      .bind(r.mass_g)
      .bind(r.volume_l)
      .bind(std::string_view{r.extract_typed})
      .bind(r.extract_percent)
      .bind(r.extract_half_width)
      .bind(r.other)
      .bind(std::string_view{r.into_typed})
      .bind(r.into_l)
      .bind(std::string_view{r.person})
      .bind(std::string_view{r.note});
  s.step();
  t.commit();
  return impl_->last_id();
}

std::vector<AdditionRecord> Notebook::additions(Id batch, Moment as_of) const {
  std::vector<AdditionRecord> all;
  Statement s{impl_->db,
              "SELECT id, batch, bottle, what, made_at, noted_at, amount_typed, mass_g, volume_l, "
              "extract_typed, extract_percent, extract_half_width, other, into_typed, into_l, "
              "person, note FROM addition WHERE batch = ? ORDER BY made_at_s, id"};
  s.bind(batch);
  while (s.step()) {
    std::optional<AdditionRecord> r =
        impl_->read_row(fmt::format("addition {}", s.integer(0)), [&] { return addition_from(s); });
    if (r && r->noted_at <= as_of) all.push_back(*std::move(r));
  }
  auto excluded = exclusions(*impl_, "addition_exclusion", addition_exclusions, batch);
  for (AdditionRecord& r : all) {
    const auto own = excluded.find(r.id);
    if (own == excluded.end()) continue;
    r.exclusions = std::move(own->second);
    forget_later(r.exclusions, as_of);
  }
  return all;
}

void Notebook::exclude_addition(Id id, const Exclusion& e) {
  const Connection& db = impl_->db;
  sqlite::Transaction t{db};
  Statement of{db, "SELECT batch FROM addition WHERE id = ?"};
  if (!of.bind(id).step())
    refuse(db.path(), fmt::format("there is no addition {}", id),
           "areo batch show NAME lists them");
  const auto all = additions(of.integer(0));
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const AdditionRecord& r) { return r.id == id; });
  if (found == all.end()) refuse_unreadable(db.path(), fmt::format("addition {}", id));
  require_news(db, "addition", id, found->excluded(), e);
  insert(db,
         "INSERT INTO addition_exclusion (addition, at, at_s, excluded, reason) VALUES (?, ?, ?, "
         "?, ?)",
         id, e);
  t.commit();
}

}  // namespace areo::notebook
