// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of reading and their exclusions.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "areo/notebook/store.hpp"
#include "exclusions.hpp"
#include "impl.hpp"
#include "migrate.hpp"
#include "rules.hpp"
#include "words.hpp"

namespace areo::notebook {
namespace {

using sqlite::Connection;
using sqlite::Statement;

constexpr std::array stage_words{std::pair{Stage::original, "original"},
                                 std::pair{Stage::present, "present"}};
constexpr const char* select_reading =
    "SELECT id, batch, bottle, sample, what, made_at, noted_at, instrument, typed, indication, "
    "half_width, temperature_typed, temperature_c, temperature_half_width_c, thermometer, "
    "meniscus, degassed, person, note, amends, reason FROM reading ";

ReadingRecord reading_from(const Statement& s) {
  ReadingRecord r;
  r.id = s.integer(0);
  r.batch = s.integer(1);
  r.bottle = s.text(2);
  r.sample = s.integer(3);
  r.stage = value_of(stage_words, s.text(4));
  r.made_at = moment_from_text(s.text(5));
  r.noted_at = moment_from_text(s.text(6));
  r.instrument = s.integer(7);
  r.typed = s.text(8);
  r.indication = s.real(9);
  r.half_width = s.real(10);
  r.temperature_typed = s.text(11);
  r.temperature_c = s.optional_real(12);
  r.temperature_half_width_c = s.real(13);
  r.thermometer = s.optional_integer(14);
  r.meniscus = s.text(15) == "top" ? instruments::Meniscus::top : instruments::Meniscus::level;
  if (const auto degassed = s.optional_integer(16)) r.degassed = *degassed != 0;
  r.person = s.text(17);
  r.note = s.text(18);
  r.amends = s.optional_integer(19);
  r.reason = s.text(20);
  return r;
}

// By ReadWith::What.
constexpr std::array read_with_tables{"reading", "liquid_pair", "check_reading"};

Id insert(const Connection& db, const ReadingRecord& r, Id sample) {
  // The first reading of a sample names itself, so its number is chosen here.
  const Id id = db.number("SELECT coalesce(max(id), 0) + 1 FROM reading");
  Statement s{db,
              "INSERT INTO reading (id, batch, bottle, sample, what, made_at, made_at_s, noted_at, "
              "noted_at_s, instrument, typed, indication, half_width, temperature_typed, "
              "temperature_c, temperature_half_width_c, thermometer, meniscus, degassed, person, "
              "note, amends, reason) VALUES "
              "(?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"};
  s.bind(id)
      .bind(r.batch)
      .bind(std::string_view{r.bottle})
      .bind(sample == 0 ? id : sample)
      .bind(word(r.stage))
      .bind(std::string_view{stored(r.made_at)})
      .bind(r.made_at.seconds)
      .bind(std::string_view{stored(r.noted_at)})
      .bind(r.noted_at.seconds)
      .bind(r.instrument)
      .bind(std::string_view{r.typed})
      .bind(r.indication)
      .bind(r.half_width)
      .bind(std::string_view{r.temperature_typed})
      .bind(r.temperature_c)
      .bind(r.temperature_half_width_c)
      .bind(r.thermometer)
      .bind(std::string_view{r.meniscus == instruments::Meniscus::top ? "top" : "level"});
  if (r.degassed)
    s.bind(std::int64_t{*r.degassed});
  else
    s.null();
  s.bind(std::string_view{r.person})
      .bind(std::string_view{r.note})
      .bind(r.amends)
      .bind(std::string_view{r.reason});
  s.step();
  return id;
}

// Only the newest version of a reading can be amended, so that there is one line of them.
void require_amendable(const Connection& db, const ReadingRecord& r) {
  if (!r.amends) return;
  if (r.reason.empty()) refuse(db.path(), "an amendment has a reason", "say why with --reason");
  Statement s{db, "SELECT batch FROM reading WHERE id = ?"};
  if (!s.bind(*r.amends).step() || s.integer(0) != r.batch)
    refuse(db.path(), fmt::format("this batch has no reading {}", *r.amends),
           "areo batch show NAME lists them");
  Statement later{db, "SELECT id FROM reading WHERE amends = ?"};
  if (later.bind(*r.amends).step())
    refuse(db.path(),
           fmt::format("reading {} is amended by {} already", *r.amends, later.integer(0)),
           "amend that one");
}

// A reading r counts unless it is amended or its last exclusion holds.
constexpr const char* reading_counts =
    "NOT EXISTS (SELECT 1 FROM reading l WHERE l.amends = r.id) AND coalesce((SELECT excluded FROM "
    "reading_exclusion x WHERE x.reading = r.id ORDER BY x.id DESC LIMIT 1), 0) = 0";

constexpr const char* reading_exclusions =
    "SELECT reading, at, excluded, x.reason, x.id FROM reading_exclusion x JOIN reading r "
    "ON r.id = reading WHERE batch = ? ORDER BY x.id";
}  // namespace

std::string_view word(Stage stage) { return word_of(stage_words, stage); }

std::string ReadingRecord::excluded() const { return last_reason(exclusions); }

std::vector<Id> Notebook::add(std::span<const ReadingRecord> sample) {
  return add_samples({std::vector<ReadingRecord>(sample.begin(), sample.end())});
}

std::vector<Id> Notebook::add_samples(const std::vector<std::vector<ReadingRecord>>& samples) {
  const Connection& db = impl_->db;
  sqlite::Transaction t{db};
  std::vector<Id> ids;
  for (const auto& sample : samples) {
    require_typed(*this, sample);
    Id first = 0;
    for (const ReadingRecord& r : sample) {
      require_amendable(db, r);
      ids.push_back(insert(db, r, r.sample != 0 ? r.sample : first));
      if (first == 0) first = ids.back();
    }
  }
  t.commit();
  return ids;
}

std::vector<ReadingRecord> Notebook::readings(Id batch, Moment as_of) const {
  std::vector<ReadingRecord> all;
  Statement s{impl_->db,
              fmt::format("{}WHERE batch = ? ORDER BY made_at_s, id", select_reading).c_str()};
  s.bind(batch);
  std::map<Id, Id> amended_by;
  while (s.step()) {
    std::optional<ReadingRecord> r =
        impl_->read_row(fmt::format("reading {}", s.integer(0)), [&] { return reading_from(s); });
    if (!r || r->noted_at > as_of) continue;
    if (r->amends) amended_by.emplace(*r->amends, r->id);
    all.push_back(*std::move(r));
  }
  auto excluded = exclusions(*impl_, "reading_exclusion", reading_exclusions, batch);
  for (ReadingRecord& r : all) {
    if (const auto later = amended_by.find(r.id); later != amended_by.end())
      r.amended_by = later->second;
    if (const auto own = excluded.find(r.id); own != excluded.end()) {
      r.exclusions = std::move(own->second);
      forget_later(r.exclusions, as_of);
    }
  }
  return all;
}

ReadingRecord Notebook::reading(Id id) const {
  Statement s{impl_->db, "SELECT batch FROM reading WHERE id = ?"};
  if (!s.bind(id).step())
    refuse(impl_->db.path(), fmt::format("there is no reading {}", id),
           "areo batch show NAME lists them");
  const auto all = readings(s.integer(0));
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const ReadingRecord& r) { return r.id == id; });
  if (found == all.end()) refuse_unreadable(impl_->db.path(), fmt::format("reading {}", id));
  return *found;
}

std::vector<ReadWith> Notebook::read_with(Id instrument) const {
  Statement s{
      impl_->db,
      fmt::format("SELECT 0, b.name, r.id, r.made_at, r.made_at_s FROM reading r JOIN batch b ON "
                  "b.id = r.batch WHERE (r.instrument = ?1 OR r.thermometer = ?1) AND {} "
                  "UNION ALL SELECT 1, liquid, id, made_at, made_at_s FROM liquid_pair p WHERE "
                  "(refractometer = ?1 OR hydrometer = ?1 OR thermometer = ?1) AND NOT EXISTS "
                  "(SELECT 1 FROM liquid_pair_left_out l WHERE l.pair = p.id) "
                  "UNION ALL SELECT 2, i.name, c.id, c.made_at, c.made_at_s FROM check_reading c "
                  "JOIN instrument i ON i.id = c.instrument WHERE c.thermometer = ?1 "
                  "ORDER BY 1, 2, 5, 3",
                  reading_counts)
          .c_str()};
  s.bind(instrument);
  std::vector<ReadWith> all;
  while (s.step())
    if (const auto made_at = impl_->read_row(
            fmt::format("{} {}", read_with_tables.at(static_cast<std::size_t>(s.integer(0))),
                        s.integer(2)),
            [&] { return moment_from_text(s.text(3)); }))
      all.push_back({static_cast<ReadWith::What>(s.integer(0)), s.text(1), s.integer(2), *made_at});
  return all;
}

ReadingCount Notebook::count_readings(Id batch) const {
  Statement n{
      impl_->db,
      fmt::format("SELECT count(*) FROM reading r WHERE batch = ? AND {}", reading_counts).c_str()};
  n.bind(batch).step();
  ReadingCount c{n.integer(0), {}};
  Statement last{impl_->db, fmt::format("SELECT made_at, id FROM reading r WHERE batch = ? AND {} "
                                        "ORDER BY made_at_s DESC",
                                        reading_counts)
                                .c_str()};
  last.bind(batch);
  while (!c.last && last.step())
    c.last = impl_->read_row(fmt::format("reading {}", last.integer(1)),
                             [&] { return moment_from_text(last.text(0)); });
  return c;
}

std::vector<std::vector<double>> Notebook::repeats(Id instrument, std::string_view person) const {
  // Samples with a second reading; the partial index holds only those.
  Statement s{
      impl_->db,
      fmt::format("SELECT r.sample, r.indication FROM reading r WHERE r.sample IN (SELECT DISTINCT "
                  "sample FROM reading WHERE instrument = ?1 AND person = ?2 AND sample <> id "
                  "ORDER BY sample DESC LIMIT {}) AND r.instrument = ?1 AND r.person = ?2 AND {} "
                  "ORDER BY r.sample, r.id",
                  most_repeated_samples, reading_counts)
          .c_str()};
  s.bind(instrument).bind(person);
  std::vector<std::vector<double>> all;
  Id sample = 0;
  while (s.step()) {
    if (s.integer(0) != sample) all.emplace_back();
    sample = s.integer(0);
    all.back().push_back(s.real(1));
  }
  std::erase_if(all, [](const std::vector<double>& one) { return one.size() < 2; });
  return all;
}

void Notebook::exclude_reading(Id id, const Exclusion& e) {
  sqlite::Transaction t{impl_->db};
  const ReadingRecord before = reading(id);
  if (before.amended_by)
    refuse(impl_->db.path(),
           fmt::format("reading {} is amended by {} and does not count", id, *before.amended_by),
           "name that one");
  require_news(impl_->db, "reading", id, before.excluded(), e);
  insert(impl_->db,
         "INSERT INTO reading_exclusion (reading, at, at_s, excluded, reason) VALUES (?, ?, ?, ?, "
         "?)",
         id, e);
  t.commit();
}

}  // namespace areo::notebook
