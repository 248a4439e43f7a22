// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of liquid_pair: samples read with a refractometer and a hydrometer.
#include <fmt/format.h>

#include <algorithm>

#include "areo/core/shell_word.hpp"
#include "areo/notebook/store.hpp"
#include "impl.hpp"
#include "migrate.hpp"
#include "rules.hpp"
#include "words.hpp"

namespace areo::notebook {
namespace {

using sqlite::Statement;

void bind(Statement& s, const PairHalf& half) {
  s.bind(half.instrument)
      .bind(std::string_view{half.typed})
      .bind(half.reading)
      .bind(half.half_width)
      .bind(half.temperature_c)
      .bind(std::string_view{half.temperature_typed});
}

// Six columns from `first` on.
PairHalf half_from(const Statement& s, int first) {
  return {s.integer(first),  s.text(first + 1), s.real(first + 2),
          s.real(first + 3), s.text(first + 5), s.optional_real(first + 4)};
}

LiquidPairRecord pair_from(const Statement& s) {
  return {s.integer(0),
          s.text(1),
          moment_from_text(s.text(2)),
          half_from(s, 3),
          half_from(s, 9),
          s.text(15) == "top" ? instruments::Meniscus::top : instruments::Meniscus::level,
          s.optional_integer(16),
          s.real(17),
          s.text(18),
          s.text(19)};
}

}  // namespace

Id Notebook::add(const LiquidPairRecord& r) {
  require_typed(*this, r);
  sqlite::Transaction t{impl_->db};
  Statement s{impl_->db,
              "INSERT INTO liquid_pair (liquid, made_at, made_at_s, refractometer, "
              "refraction_typed, refraction, refraction_half_width, refraction_temperature_c, "
              "refraction_temperature_typed, hydrometer, gravity_typed, gravity, "
              "gravity_half_width, gravity_temperature_c, gravity_temperature_typed, meniscus, "
              "thermometer, temperature_half_width_c, note) VALUES "
              "(?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"};
  s.bind(std::string_view{r.liquid})
      .bind(std::string_view{stored(r.made_at)})
      .bind(r.made_at.seconds);
  bind(s, r.refraction);
  bind(s, r.gravity);
  s.bind(std::string_view{r.meniscus == instruments::Meniscus::top ? "top" : "level"})
      .bind(r.thermometer)
      .bind(r.temperature_half_width_c)
      .bind(std::string_view{r.note});
  s.step();
  t.commit();
  return impl_->last_id();
}

void Notebook::leave_out(std::string_view liquid, Id pair, Moment at, std::string_view reason) {
  const std::string& path = impl_->db.path();
  if (reason.empty()) refuse(path, "a pair is left out for a reason", "say why with --reason");
  sqlite::Transaction t{impl_->db};
  const auto pairs = liquid_pairs(liquid);
  const auto found = std::find_if(pairs.begin(), pairs.end(),
                                  [&](const LiquidPairRecord& p) { return p.id == pair; });
  if (found == pairs.end())
    refuse(path, fmt::format("'{}' has no pair {}", liquid, pair),
           fmt::format("areo liquid show {} lists its pairs", shell_word(liquid)));
  if (!found->left_out.empty())
    refuse(path, fmt::format("pair {} is left out already: {}", pair, found->left_out), "");
  Statement s{impl_->db, "INSERT INTO liquid_pair_left_out (pair, at, reason) VALUES (?, ?, ?)"};
  s.bind(pair).bind(std::string_view{stored(at)}).bind(reason).step();
  t.commit();
}

std::vector<std::string> Notebook::liquids() const {
  std::vector<std::string> all;
  Statement s{impl_->db, "SELECT DISTINCT liquid FROM liquid_pair ORDER BY liquid"};
  while (s.step()) all.push_back(s.text(0));
  return all;
}

std::vector<LiquidPairRecord> Notebook::liquid_pairs(std::string_view liquid) const {
  std::vector<LiquidPairRecord> all;
  Statement s{impl_->db,
              "SELECT id, liquid, made_at, refractometer, refraction_typed, refraction, "
              "refraction_half_width, refraction_temperature_c, refraction_temperature_typed, "
              "hydrometer, gravity_typed, gravity, gravity_half_width, gravity_temperature_c, "
              "gravity_temperature_typed, meniscus, thermometer, temperature_half_width_c, note, "
              "coalesce(reason, '') FROM liquid_pair LEFT JOIN liquid_pair_left_out ON pair = id "
              "WHERE liquid = ? ORDER BY made_at_s, id"};
  s.bind(liquid);
  while (s.step())
    if (auto p = impl_->read_row(fmt::format("liquid_pair {}", s.integer(0)),
                                 [&] { return pair_from(s); }))
      all.push_back(*std::move(p));
  return all;
}

}  // namespace areo::notebook
