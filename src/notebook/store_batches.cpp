// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of batch, batch_amendment and batch_event.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "areo/core/nearest.hpp"
#include "areo/notebook/store.hpp"
#include "impl.hpp"
#include "migrate.hpp"
#include "rules.hpp"
#include "words.hpp"

namespace areo::notebook {
namespace {

using ferment::Culture;
using sqlite::Statement;

constexpr std::array culture_words{std::pair{Culture::yeast, "yeast"},
                                   std::pair{Culture::mixed, "mixed"},
                                   std::pair{Culture::acetic, "acetic"}};

BatchRecord batch_from(const Statement& s) {
  return {s.integer(0),       s.text(1),
          s.text(2),          value_of(culture_words, s.text(3)),
          s.text(4),          s.text(5),
          s.optional_real(6), s.text(7),
          s.text(8),          moment_from_text(s.text(9)),
          s.text(10)};
}

void apply(BatchRecord& r, const BatchAmendment& a) {
  if (a.field == "culture") {
    r.culture = value_of(culture_words, a.value);
    return;
  }
  if (a.field == "volume") {
    r.volume_typed = a.value;
    r.volume_l = a.volume_l;
    return;
  }
  const std::array texts{std::pair{"drink", &r.drink}, std::pair{"vessel", &r.vessel},
                         std::pair{"extract", &r.extract}, std::pair{"liquid", &r.liquid},
                         std::pair{"note", &r.note}};
  const auto* const field =
      std::find_if(texts.begin(), texts.end(), [&](const auto& t) { return t.first == a.field; });
  if (field == texts.end())
    throw Error{Errc::store, fmt::format("a batch has no field '{}'", a.field)};
  *field->second = a.value;
}

constexpr const char* select_batch =
    "SELECT id, name, drink, culture, vessel, volume_typed, volume_l, extract, liquid, started_at, "
    "note FROM batch ";

}  // namespace

std::string_view word(Culture culture) { return word_of(culture_words, culture); }

Id Notebook::add(const BatchRecord& r) {
  require_typed_volume(r.volume_l);
  const sqlite::Connection& db = impl_->db;
  sqlite::Transaction t{db};
  if (Statement taken{db, "SELECT 1 FROM batch WHERE name = ?"};
      taken.bind(std::string_view{r.name}).step())
    refuse(db.path(), fmt::format("there is a batch '{}' already", r.name),
           "choose another name; a batch's history stays with its name");
  Statement s{db,
              "INSERT INTO batch (name, drink, culture, vessel, volume_typed, volume_l, extract, "
              "liquid, started_at, started_at_s, note) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"};
  s.bind(std::string_view{r.name})
      .bind(std::string_view{r.drink})
      .bind(word(r.culture))
      .bind(std::string_view{r.vessel})
      .bind(std::string_view{r.volume_typed})
      .bind(r.volume_l)
      .bind(std::string_view{r.extract})
      .bind(std::string_view{r.liquid})
      .bind(std::string_view{stored(r.started_at)})
      .bind(r.started_at.seconds)
      .bind(std::string_view{r.note});
  s.step();
  t.commit();
  return impl_->last_id();
}

void Notebook::amend(const BatchAmendment& a) {
  const sqlite::Connection& db = impl_->db;
  if (a.reason.empty()) refuse(db.path(), "an amendment has a reason", "say why with --reason");
  require_typed_volume(a.volume_l);
  sqlite::Transaction t{db};
  BatchRecord amended = batch(a.batch);
  apply(amended, a);  // an unknown field is refused before it is written
  Statement s{db,
              "INSERT INTO batch_amendment (batch, at, at_s, field, value, volume_l, reason) "
              "VALUES (?, ?, ?, ?, ?, ?, ?)"};
  s.bind(a.batch)
      .bind(std::string_view{stored(a.at)})
      .bind(a.at.seconds)
      .bind(std::string_view{a.field})
      .bind(std::string_view{a.value})
      .bind(a.volume_l)
      .bind(std::string_view{a.reason})
      .step();
  t.commit();
}

void Notebook::note(Id batch, const BatchEvent& e) {
  const sqlite::Connection& db = impl_->db;
  sqlite::Transaction t{db};
  const auto before = events(batch);
  if ((!before.empty() && before.back().closed) == e.closed)
    refuse(db.path(), fmt::format("this batch is {} already", e.closed ? "closed" : "open"), "");
  Statement s{db, "INSERT INTO batch_event (batch, at, at_s, what, note) VALUES (?, ?, ?, ?, ?)"};
  s.bind(batch)
      .bind(std::string_view{stored(e.at)})
      .bind(e.at.seconds)
      .bind(std::string_view{e.closed ? "closed" : "reopened"})
      .bind(std::string_view{e.note})
      .step();
  t.commit();
}

std::vector<BatchAmendment> Notebook::amendments(Id batch) const {
  std::vector<BatchAmendment> all;
  Statement s{impl_->db,
              "SELECT at, field, value, volume_l, reason, id FROM batch_amendment WHERE batch = ? "
              "ORDER BY id"};
  s.bind(batch);
  while (s.step())
    if (auto a = impl_->read_row(fmt::format("batch_amendment {}", s.integer(5)), [&] {
          return BatchAmendment{batch,     moment_from_text(s.text(0)), s.text(1),
                                s.text(2), s.optional_real(3),          s.text(4)};
        }))
      all.push_back(*std::move(a));
  return all;
}

std::vector<BatchEvent> Notebook::events(Id batch) const {
  std::vector<BatchEvent> all;
  Statement s{impl_->db, "SELECT at, what, note, id FROM batch_event WHERE batch = ? ORDER BY id"};
  s.bind(batch);
  while (s.step())
    if (auto e = impl_->read_row(fmt::format("batch_event {}", s.integer(3)), [&] {
          return BatchEvent{moment_from_text(s.text(0)), s.text(1) == "closed", s.text(2)};
        }))
      all.push_back(*std::move(e));
  return all;
}

std::vector<BatchRecord> Notebook::batches(Moment as_of) const {
  std::vector<BatchRecord> all;
  Statement s{impl_->db, fmt::format("{}ORDER BY name", select_batch).c_str()};
  while (s.step())
    if (auto r = impl_->read_row(fmt::format("batch {} ('{}')", s.integer(0), s.text(1)),
                                 [&] { return batch_from(s); }))
      all.push_back(*std::move(r));
  for (BatchRecord& r : all)
    for (const BatchAmendment& a : amendments(r.id))
      if (a.at <= as_of) apply(r, a);
  return all;
}

BatchRecord Notebook::batch(Id id, Moment as_of) const {
  Statement s{impl_->db, fmt::format("{}WHERE id = ?", select_batch).c_str()};
  if (!s.bind(id).step())
    refuse(impl_->db.path(), fmt::format("there is no batch number {}", id), "");
  std::optional<BatchRecord> r =
      impl_->read_row(fmt::format("batch {} ('{}')", id, s.text(1)), [&] { return batch_from(s); });
  if (!r) refuse_unreadable(impl_->db.path(), fmt::format("batch {}", id));
  for (const BatchAmendment& a : amendments(id))
    if (a.at <= as_of) apply(*r, a);
  return *std::move(r);
}

BatchRecord Notebook::batch(std::string_view name, Moment as_of) const {
  Statement s{impl_->db, "SELECT id FROM batch WHERE name = ?"};
  if (s.bind(name).step()) return batch(s.integer(0), as_of);
  std::vector<std::string> known;
  Statement names{impl_->db, "SELECT name FROM batch ORDER BY name"};
  while (names.step()) known.push_back(names.text(0));
  const std::string near = nearest(name, known);
  refuse(impl_->db.path(), fmt::format("there is no batch '{}'", name),
         near.empty() ? "areo batch list shows them all" : fmt::format("did you mean '{}'?", near));
}

}  // namespace areo::notebook
