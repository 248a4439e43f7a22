// SPDX-License-Identifier: GPL-3.0-or-later
// Checks of instruments, and the calibrations that rest on them.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/notebook/store.hpp"
#include "impl.hpp"
#include "migrate.hpp"
#include "rules.hpp"
#include "words.hpp"

namespace areo::notebook {
namespace {

using sqlite::Connection;
using sqlite::Statement;
using sqlite::Transaction;

constexpr std::array method_words{
    std::pair{CheckMethod::water, "water"}, std::pair{CheckMethod::sugar, "sugar"},
    std::pair{CheckMethod::salt, "salt"},   std::pair{CheckMethod::certificate, "certificate"},
    std::pair{CheckMethod::ice, "ice"},     std::pair{CheckMethod::boiling, "boiling"},
};

constexpr std::array water_words{
    std::pair{calibration::Water::pure, "pure"},
    std::pair{calibration::Water::tap, "tap"},
};

CheckRecord check_from(const Statement& s) {
  CheckRecord r;
  r.id = s.integer(0);
  r.instrument = s.integer(1);
  r.method = value_of(method_words, s.text(2));
  r.made_at = moment_from_text(s.text(3));
  r.reading_typed = s.text(4);
  r.reading = s.real(5);
  r.reading_half_width = s.real(6);
  r.temperature_typed = s.text(7);
  r.temperature_c = s.optional_real(8);
  r.temperature_half_width_c = s.real(9);
  r.meniscus = s.text(10) == "top" ? instruments::Meniscus::top : instruments::Meniscus::level;
  if (const auto solute_g = s.optional_real(11))
    r.solution = calibration::WeighedSolution{r.method == CheckMethod::salt
                                                  ? calibration::Solute::sodium_chloride
                                                  : calibration::Solute::sucrose,
                                              *solute_g,
                                              s.real(12),
                                              s.real(13),
                                              s.real(14),
                                              s.real(15),
                                              s.real(16),
                                              s.real(17)};
  r.correction = s.optional_real(18);
  r.expanded = s.optional_real(19);
  r.coverage_factor = s.optional_real(20);
  r.pressure_pa = s.optional_real(21);
  r.pressure_half_width_pa = s.optional_real(22);
  r.note = s.text(23);
  r.thermometer = s.optional_integer(24);
  if (const std::string water = s.text(25); !water.empty()) r.water = value_of(water_words, water);
  r.balance = s.text(26);
  r.apart = s.optional_integer(27).value_or(0) != 0;
  return r;
}

// Older notebooks did not note whether the day was stated. Unless it was, it was that of the last
// check.
constexpr const char* select_calibrations =
    "SELECT id, in_force_from, note, due, coalesce(from_stated, in_force_from_s <> (SELECT "
    "max(made_at_s) FROM calibration_check l JOIN check_reading c ON c.id = l.check_reading WHERE "
    "l.calibration = calibration.id)) FROM calibration WHERE instrument = ? "
    "ORDER BY in_force_from_s, id";

}  // namespace

std::string_view word(CheckMethod method) { return word_of(method_words, method); }

Id Notebook::add(const CheckRecord& r) {
  require_typed(*this, r);
  const Connection& db = impl_->db;
  Transaction t{db};
  Statement s{
      db,
      "INSERT INTO check_reading (instrument, method, made_at, made_at_s, reading_typed, "
      "reading, reading_half_width, temperature_typed, temperature_c, "
      "temperature_half_width_c, meniscus, solute_g, water_g, balance_division_g, "
      "purity_lo, purity_hi, moisture_lo, moisture_hi, correction, expanded, "
      "coverage_factor, pressure_pa, pressure_half_width_pa, note, thermometer, water, balance, "
      "apart) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, "
      "?, ?, ?)"};
  s.bind(r.instrument)
      .bind(word(r.method))
      .bind(std::string_view{stored(r.made_at)})
      .bind(r.made_at.seconds)
      .bind(std::string_view{r.reading_typed})
      .bind(r.reading)
      .bind(r.reading_half_width)
      .bind(std::string_view{r.temperature_typed})
      .bind(r.temperature_c)
      .bind(r.temperature_half_width_c)
      .bind(std::string_view{r.meniscus == instruments::Meniscus::top ? "top" : "level"});
  if (r.solution) {
    const auto& w = *r.solution;
    s.bind(w.solute_g).bind(w.water_g).bind(w.balance_division_g).bind(w.purity_lo);
    s.bind(w.purity_hi).bind(w.moisture_lo).bind(w.moisture_hi);
  } else {
    for (int i = 0; i < 7; ++i) s.null();
  }
  s.bind(r.correction)
      .bind(r.expanded)
      .bind(r.coverage_factor)
      .bind(r.pressure_pa)
      .bind(r.pressure_half_width_pa)
      .bind(std::string_view{r.note})
      .bind(r.thermometer);
  if (r.water && *r.water != calibration::Water::unknown)
    s.bind(std::string_view{word_of(water_words, *r.water)});
  else
    s.null();
  bind_unless_empty(s, r.balance);
  s.bind(std::int64_t{r.apart}).step();
  t.commit();
  return impl_->last_id();
}

Id Notebook::add(const CalibrationRecord& r) {
  const Connection& db = impl_->db;
  if (r.checks.empty()) refuse(db.path(), "a calibration needs a check", "check in water first");
  Transaction t{db};
  Statement s{db,
              "INSERT INTO calibration (instrument, in_force_from, in_force_from_s, note, due, "
              "due_s, from_stated) VALUES (?, ?, ?, ?, ?, ?, ?)"};
  s.bind(r.instrument)
      .bind(std::string_view{stored(r.in_force_from)})
      .bind(r.in_force_from.seconds)
      .bind(std::string_view{r.note});
  if (r.due)
    s.bind(std::string_view{stored(*r.due)}).bind(r.due->seconds);
  else
    s.null().null();
  s.bind(std::int64_t{r.from_stated}).step();
  const Id id = impl_->last_id();
  for (const Id check : r.checks) {
    Statement own{db, "SELECT 1 FROM check_reading WHERE id = ? AND instrument = ?"};
    if (!own.bind(check).bind(r.instrument).step())
      refuse(db.path(), fmt::format("this instrument has no check {}", check),
             "areo calibrate show NAME lists its checks");
    Statement link{db, "INSERT INTO calibration_check (calibration, check_reading) VALUES (?, ?)"};
    link.bind(id).bind(check).step();
  }
  t.commit();
  return id;
}

const CalibrationRecord* newest(std::span<const CalibrationRecord> all, Moment until) {
  const CalibrationRecord* found = nullptr;
  for (const CalibrationRecord& r : all)
    if (r.in_force_from <= until) found = &r;
  return found;
}

const CalibrationRecord* predecessor(std::span<const CalibrationRecord> all,
                                     const CalibrationRecord& of) {
  const CalibrationRecord* found = nullptr;
  const auto shares_a_check = [&](const CalibrationRecord& r) {
    return std::find_first_of(r.checks.begin(), r.checks.end(), of.checks.begin(),
                              of.checks.end()) != r.checks.end();
  };
  for (const CalibrationRecord& r : all)
    if (r.in_force_from < of.in_force_from && !shares_a_check(r)) found = &r;
  return found;
}

const CalibrationRecord* in_force(std::span<const CalibrationRecord> all, Moment at) {
  if (all.empty()) return nullptr;
  if (const CalibrationRecord* until_then = newest(all, at)) return until_then;
  const CalibrationRecord* first = newest(all, all.front().in_force_from);
  return first->from_stated ? nullptr : first;
}

std::vector<CheckRecord> Notebook::checks(Id instrument) const {
  std::vector<CheckRecord> all;
  Statement s{impl_->db,
              "SELECT id, instrument, method, made_at, reading_typed, reading, reading_half_width, "
              "temperature_typed, temperature_c, temperature_half_width_c, meniscus, solute_g, "
              "water_g, balance_division_g, purity_lo, purity_hi, moisture_lo, moisture_hi, "
              "correction, expanded, coverage_factor, pressure_pa, pressure_half_width_pa, note, "
              "thermometer, water, balance, apart FROM check_reading WHERE instrument = ? ORDER BY "
              "made_at_s, id"};
  s.bind(instrument);
  while (s.step())
    if (auto r = impl_->read_row(fmt::format("check_reading {}", s.integer(0)),
                                 [&] { return check_from(s); }))
      all.push_back(*std::move(r));
  return all;
}

std::vector<CalibrationRecord> Notebook::calibrations(Id instrument) const {
  std::vector<CalibrationRecord> all;
  Statement s{impl_->db, select_calibrations};
  s.bind(instrument);
  while (s.step()) {
    std::optional<CalibrationRecord> r =
        impl_->read_row(fmt::format("calibration {}", s.integer(0)), [&] {
          CalibrationRecord c{s.integer(0), instrument, moment_from_text(s.text(1)), {}, s.text(2)};
          if (const std::string due = s.text(3); !due.empty()) c.due = moment_from_text(due);
          c.from_stated = s.integer(4) != 0;
          return c;
        });
    if (!r) continue;
    Statement links{impl_->db,
                    "SELECT check_reading FROM calibration_check WHERE calibration = ? "
                    "ORDER BY check_reading"};
    links.bind(r->id);
    while (links.step()) r->checks.push_back(links.integer(0));
    all.push_back(*std::move(r));
  }
  return all;
}

std::optional<CalibrationRecord> Notebook::in_force(Id instrument, Moment at) const {
  const std::vector<CalibrationRecord> all = calibrations(instrument);
  const CalibrationRecord* found = notebook::in_force(all, at);
  return found != nullptr ? std::optional{*found} : std::nullopt;
}

}  // namespace areo::notebook
